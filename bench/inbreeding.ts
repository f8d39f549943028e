import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { seededRandom } from "@pollard/base";
import {
  type AnimalId,
  animalId,
  inbreeding,
  kinshipToGroup,
  numberedPedigree,
  type Parentage,
} from "@pollard/genetics";
import { timed } from "./measuring/times.ts";

/** What the inbreeding of a whole book costs, and how it grows. */
const SIZES = [10_000, 100_000, 1_000_000];
/** Twenty years; parents one to three years older; bucks one in a hundred, does three in ten. */
const YEARS = 20;
const BUCKS = 0.01;
const DOES = 0.3;

export function bench() {
  const lines: { what: string; value: number; unit: string; note?: string }[] = [];
  for (const size of SIZES) {
    const rows = herdBook(size);
    const numbered = timed(() => numberedPedigree(rows).pedigree);
    const worked = timed(() => inbreeding(numbered.value));
    const mean = worked.value.f.reduce((a, b) => a + b, 0) / size;
    const note = `mean F ${(100 * mean).toFixed(2)} %; numbering the rows ${numbered.ms.toFixed(0)} ms`;
    lines.push({ what: `inbreeding of ${size} animals`, value: worked.ms, unit: "ms", note });
    const group = new Map(Array.from({ length: 1000 }, (_, k) => [size - 1 - k, 1 / 1000]));
    const ms = timed(() => kinshipToGroup(worked.value, group)).ms;
    lines.push({ what: `kinship of ${size} animals to a group of 1,000`, value: ms, unit: "ms" });
    const [rest, all] = [peakOf(size, "rows"), peakOf(size, "inbreeding")];
    const grown = `${((1e6 * (all - rest)) / size).toFixed(0)} bytes an animal beside ${rest.toFixed(0)} MB for the rows alone`;
    lines.push({ what: `memory for the inbreeding of ${size} animals`, value: all, unit: "MB", note: grown });
  }
  return lines;
}

/** Most memory that a process of its own held, MB, which reads the rows, and works out the inbreeding or does not. */
function peakOf(size: number, what: "rows" | "inbreeding"): number {
  const script = `import { loadTs } from "./tools/run-ts.mjs";
    const { held } = await loadTs("bench/inbreeding.ts");
    console.log(held(${size}, "${what}"));`;
  const root = fileURLToPath(new URL("../", import.meta.url));
  const said = execFileSync(process.execPath, ["--input-type=module", "-e", script], { cwd: root, encoding: "utf8" });
  return Number(said);
}

/** What `peakOf` asks of its own process. */
export function held(size: number, what: "rows" | "inbreeding"): number {
  const rows = herdBook(size);
  const f = what === "rows" ? [] : inbreeding(numberedPedigree(rows).pedigree).f;
  if (f.length > rows.length) throw new Error("more animals than rows");
  return process.resourceUsage().maxRSS / 1000;
}

function herdBook(size: number): readonly Parentage[] {
  const random = seededRandom(5);
  const perYear = Math.ceil(size / YEARS);
  const parent = (year: number, from: number, share: number): AnimalId | undefined => {
    if (year === 0) return undefined;
    const then = Math.max(0, year - 1 - Math.floor(random.next() * 3));
    const place = Math.floor(from * perYear + random.next() * Math.max(1, share * perYear));
    return animalId(`a${then * perYear + place}`);
  };
  return Array.from({ length: size }, (_, i) => {
    const year = Math.floor(i / perYear);
    return { id: animalId(`a${i}`), sire: parent(year, 0, BUCKS), dam: parent(year, BUCKS, DOES) };
  });
}

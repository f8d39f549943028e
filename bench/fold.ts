import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { addDays, type Day, day, present, type Random, seededRandom } from "@pollard/base";
import {
  type BodyOf,
  type Entry,
  type FactKind,
  entryId,
  fold,
  nextStamp,
  openLedger,
  parseEntry,
  readHerdFile,
  type Stamp,
  writeHerdFile,
} from "@pollard/records";
import type { AnimalId } from "@pollard/genetics";
import { slowFold } from "../packages/records/src/fold/slow-fold.ts";
import { median, timed } from "./measuring/times.ts";

/** What folding a ledger costs, how it grows, and what one entry more costs beside folding everything again. */
const SIZES = [1000, 10_000, 100_000];
/** Largest ledger for the fold by definition, whose cost grows with the square. */
const SLOW_SIZES = [250, 500, 1000];
const ONE_MORE = 50;
const FIRST_SEASON = day("1990-09-20");
const TODAY = day("2100-01-01");
const DOES = 200;

export async function bench() {
  const lines: { what: string; value: number; unit: string; note?: string }[] = [];
  const largest = herdBook(SIZES.at(-1) ?? 0);
  fold(largest.slice(0, 5000), TODAY); // the first run also pays for compiling
  const times: number[] = [];
  for (const size of SIZES) {
    const entries = largest.slice(0, size);
    const runs = [0, 1, 2].map(() => timed(() => fold(entries, TODAY)));
    const ms = Math.min(...runs.map((run) => run.ms));
    times.push(ms);
    const { herd, problems } = runs[0]?.value ?? fold(entries, TODAY);
    const note = `${herd.animals.size} animals, ${problems.length} problems; best of 3`;
    lines.push({ what: `fold ${size} entries`, value: ms, unit: "ms", note });
  }
  const [small = 1, , large = 1] = times;
  lines.push({
    what: "growth of the fold from 1,000 to 100,000 entries",
    value: large / small,
    unit: "x",
    note: "100 = linear",
  });
  for (const size of SIZES) {
    const entries = largest.slice(0, size);
    const ledger = openLedger(TODAY);
    ledger.add(entries);
    ledger.folded();
    const runs = oneMore(entries).map((entry) => timed(() => (ledger.add([entry]), ledger.folded())).ms);
    const ms = median(runs);
    const again = times[SIZES.indexOf(size)] ?? 0;
    const note = `median of ${ONE_MORE}; folding everything again: ${(again / ms).toFixed(0)} times as much`;
    lines.push({ what: `one entry more on ${size}`, value: ms, unit: "ms", note });
  }
  for (const size of SLOW_SIZES) {
    const entries = largest.slice(0, size);
    const fast = timed(() => fold(entries, TODAY)).ms;
    const slow = timed(() => slowFold(entries, TODAY)).ms;
    const note = `by definition, no book-keeping; fold takes ${fast.toFixed(1)} ms`;
    lines.push({ what: `slow fold of ${size} entries`, value: slow, unit: "ms", note });
  }
  const file = writeHerdFile(largest, {});
  const json = file.trimEnd().split("\n").slice(1, -1);
  lines.push({
    what: "JSON.parse alone, 100,000 entries",
    value: timed(() => json.map((line) => JSON.parse(line))).ms,
    unit: "ms",
  });
  lines.push({
    what: "JSON.parse and parseEntry, 100,000 entries",
    value: timed(() => json.map((line) => parseEntry(JSON.parse(line)))).ms,
    unit: "ms",
  });
  lines.push({
    what: "read a herd file of 100,000 entries",
    value: timed(() => readHerdFile(file)).ms,
    unit: "ms",
    note: `${(file.length / 1e6).toFixed(0)} MB, checksum included`,
  });
  lines.push({
    what: "heap of an open ledger of 100,000 entries",
    value: heapOfLedger(largest),
    unit: "MB",
    note: "beside the entries themselves",
  });
  return lines;
}

function heapOfLedger(entries: readonly Entry[]): number {
  setFlagsFromString("--expose-gc");
  const collect = runInNewContext("gc") as () => void;
  collect();
  const before = process.memoryUsage().heapUsed;
  const ledger = openLedger(TODAY);
  ledger.add(entries);
  const { herd } = ledger.folded();
  collect();
  return herd.animals.size > 0 ? (process.memoryUsage().heapUsed - before) / 1e6 : 0;
}

/** Weights of animals all over the herd, each a new entry. */
function oneMore(entries: readonly Entry[]): readonly Entry[] {
  const weights = entries.filter((entry) => entry.kind === "weight");
  return Array.from({ length: ONE_MORE }, (_, n) => {
    const entry = weights[Math.floor((n * weights.length) / ONE_MORE)] as Entry;
    return { ...entry, id: `${entry.id}-again` } as Entry;
  });
}

/** So many entries of an invented herd, season after season, as two phones would write them. */
function herdBook(size: number): readonly Entry[] {
  const random = seededRandom(7);
  const entries: Entry[] = [];
  let stamp: Stamp | undefined;
  const write = <K extends FactKind | "replace">(kind: K, on: Day, body: K extends FactKind ? BodyOf<K> : object) => {
    const device = random.next() < 0.5 ? "phone-ines" : "phone-tobias";
    stamp = nextStamp(stamp, `${on}T12:00:00.000Z`, device as never);
    const chance = Uint8Array.from({ length: 10 }, () => Math.floor(random.next() * 256));
    const id = entryId(entries.length * 1000, chance);
    entries.push({ v: 1, id, herd: "bench", kind, on, by: "Ines", at: stamp, device, body } as unknown as Entry);
    return id;
  };
  const does = Array.from({ length: DOES }, (_, n) => `doe-${n}` as AnimalId);
  const bucks = Array.from({ length: 8 }, (_, n) => `buck-${n}` as AnimalId);
  for (const animal of does)
    write("animal", FIRST_SEASON, { animal, sex: "doe", born: day("1988-03-01"), tag: animal });
  for (const animal of bucks) write("animal", FIRST_SEASON, { animal, sex: "buck", born: day("1988-03-01") });
  for (let season = 0; entries.length < size; season++) {
    const rut = addDays(FIRST_SEASON, season * 365);
    for (const [at, doe] of does.entries()) {
      const buck = pick(bucks, random);
      write("service", addDays(rut, at % 20), { doe, bucks: [buck], way: "hand" });
      const born = addDays(rut, (at % 20) + 150);
      const kids = Array.from(
        { length: random.next() < 0.7 ? 2 : 1 },
        (_, n) => `kid-${season}-${at}-${n}` as AnimalId,
      );
      const litter = kids.map((kid) => ({ kid, sex: random.next() < 0.5 ? "doe" : "buck", born: "alive" }) as const);
      write("kidding", born, { dam: doe, bucks: [buck], kids: litter });
      const kept = random.next() < 0.1 ? litter.find(({ sex }) => sex === "doe")?.kid : undefined;
      for (const kid of kids) raise(kid, born, kid === kept ? "kept" : "sold");
      if (kept !== undefined) does[at] = kept;
    }
  }
  return entries.slice(0, size);

  function raise(kid: AnimalId, born: Day, end: "kept" | "sold"): void {
    write("weight", addDays(born, 1), { animal: kid, kg: 3.1, how: "weighed" });
    write("head-reading", addDays(born, 2), {
      kid,
      signs: { feel: { both: "pointed" }, skin: { both: "held-fast" }, crown: "flat" },
    });
    write("head-reading", addDays(born, 4), { kid, signs: { whorls: { left: "clear", right: "unclear" } } });
    write("choice", addDays(born, 4), { kid, choice: "vet-list", day: addDays(born, 6) });
    const wrong = write("weight", addDays(born, 6), { animal: kid, kg: 31, how: "weighed" });
    const fact = { kind: "weight", on: addDays(born, 6), body: { animal: kid, kg: 4.1, how: "weighed" } };
    if (random.next() < 0.2) write("replace", addDays(born, 7), { entry: wrong, fact });
    write("outcome", addDays(born, 90), { animal: kid, left: "horn", right: "horn" });
    if (end === "sold") write("departure", addDays(born, 120), { animal: kid, why: "sold" });
  }
}

const pick = <T>(from: readonly T[], random: Random): T =>
  present(from[Math.floor(random.next() * from.length)], "a choice");

import { present, type Random, seededRandom } from "@pollard/base";
import {
  ALPHA_S1_CASEIN,
  type AnimalId,
  animalId,
  dnaTestLikelihood,
  FERTILE_DAM,
  FERTILE_SIRE,
  grownHeadLikelihood,
  inferGenotypes,
  type InferenceOptions,
  layoutMemory,
  type Locus,
  type Member,
  MPS_IIID,
  type PedigreeProblem,
  POLLED,
  sexLookLikelihood,
  WATTLES,
} from "@pollard/genetics";
import { aFact, byEnumeration } from "@pollard/genetics/testing";

/** What it costs to say what every animal carries: by herd size, at four loci, after one reading more, beside the slow twin. */
const HERDS = [
  { animals: 100, does: 20, bucks: 2 },
  { animals: 300, does: 40, bucks: 3 },
  { animals: 1000, does: 60, bucks: 4 },
  { animals: 10_000, does: 300, bucks: 12 },
] as const;
/** Six animals are as many as enumerating does in a few seconds. */
const TWIN_ANIMALS = [3, 4, 5, 6];
const PAIRS = { bucks: 10, does: 40 };
/** Share of heads that were read, and of written sires that are not the sire. */
const READ = 0.9;
const WRONG_SIRE = 32 / 2500;

export function bench() {
  const lines: { what: string; value: number; unit: string; note?: string }[] = [];
  allMarginals(herdBook({ animals: 300, does: 40, bucks: 3 }, seededRandom(2)), {}); // the first run also pays for compiling
  for (const size of HERDS) {
    const problem = herdBook(size, seededRandom(7));
    const { ms, value } = best(size.animals > 3000 ? 1 : 5, () => allMarginals(problem, {}));
    const error = value.method === "exact" ? "" : `, error at most about ${value.error.toExponential(0)}`;
    const note = `${size.does} does and ${size.bucks} bucks at a time: ${value.method}${error}`;
    lines.push({ what: `all genotypes of ${size.animals} animals`, value: ms, unit: "ms", note });
  }
  const middle = herdBook(present(HERDS[1], "a herd"), seededRandom(7));
  const loci: readonly Locus[] = [POLLED, WATTLES, MPS_IIID, ALPHA_S1_CASEIN];
  for (const locus of loci) {
    const problem = at(locus, middle);
    const { ms, value } = best(5, () => allMarginals(problem, {}));
    const note = `${locus.alleles.length} alleles, half of the animals tested: ${value.method}`;
    lines.push({ what: `${locus.name}, 300 animals`, value: ms, unit: "ms", note });
  }
  const layouts = layoutMemory();
  allMarginals(middle, { layouts });
  const again = best(9, () => allMarginals(withOneReading(middle), { layouts }));
  lines.push({ what: "after one reading more, 300 animals", value: again.ms, unit: "ms", note: "layout kept" });
  lines.push({ what: "planned kids of 400 pairs, 300 animals", value: best(3, () => pairs(middle)).ms, unit: "ms" });
  for (const animals of TWIN_ANIMALS) {
    const problem = herdBook({ animals, does: 1, bucks: 1 }, seededRandom(3));
    const slow = best(1, () => byEnumeration(problem)).ms;
    const ours = best(5, () => allMarginals(problem, {})).ms;
    const note = `ours ${ours.toFixed(2)} ms`;
    lines.push({ what: `enumerating every combination, ${animals} animals`, value: slow, unit: "ms", note });
  }
  return lines;
}

function best<T>(runs: number, job: () => T): { readonly ms: number; readonly value: T } {
  const tries = Array.from({ length: runs }, () => {
    const start = performance.now();
    const value = job();
    return { ms: performance.now() - start, value };
  });
  return tries.reduce((a, b) => (b.ms < a.ms ? b : a));
}

function allMarginals(problem: PedigreeProblem, options: InferenceOptions) {
  const answer = inferGenotypes(problem, options);
  for (const m of problem.members) answer.belief(m.id);
  return answer;
}

function pairs(problem: PedigreeProblem): void {
  const answer = inferGenotypes(problem);
  const of = (role: "doe" | "buck", count: number): readonly AnimalId[] =>
    problem.members.flatMap((m) => (m.id.startsWith(role) ? [m.id] : [])).slice(-count);
  for (const buck of of("buck", PAIRS.bucks)) for (const doe of of("doe", PAIRS.does)) answer.kid(buck, doe);
}

/** The same herd at another locus: alleles dropped through the pedigree, and half of the animals tested. */
function at(locus: Locus, problem: PedigreeProblem, random: Random = seededRandom(11)): PedigreeProblem {
  if (locus === POLLED) return problem;
  const alleles = new Map<AnimalId, readonly string[]>();
  const founders = locus.founders.default.value;
  const drawn = (): string => {
    let rest = random.next();
    return present(locus.alleles.find((_, a) => (rest -= founders[a] ?? 0) < 0) ?? locus.alleles[0], "an allele");
  };
  const handed = (parent: AnimalId | undefined): string => {
    const own = parent === undefined ? undefined : alleles.get(parent);
    return own?.[random.next() < 0.5 ? 0 : 1] ?? drawn();
  };
  const members = problem.members.map((m): Member => {
    const own = [handed(m.dam), handed(m.sires[0]?.sire)];
    alleles.set(m.id, own);
    const tested = random.next() < 0.5 ? dnaTestLikelihood(locus, own) : undefined;
    return { ...m, evidence: tested?.ok ? [{ fact: `${m.id} ${locus.id}`, likelihood: tested.value }] : [] };
  });
  return { ...problem, locus, members };
}

function withOneReading(problem: PedigreeProblem): PedigreeProblem {
  const members = problem.members.map((m, i) =>
    i === problem.members.length - 1 ? { ...m, evidence: [...m.evidence, aFact("one more", [0.9, 0.8, 0.1])] } : m,
  );
  return { ...problem, members };
}

interface Goat {
  readonly id: string;
  readonly alleles: string;
  readonly isDoe: boolean;
  readonly dam: Goat | undefined;
  readonly sire: Goat | undefined;
}

/** A herd over the years: a fifth of the does and half of the bucks replaced each year, twins most often. */
function herdBook(size: { animals: number; does: number; bucks: number }, random: Random): PedigreeProblem {
  const pick = <T>(from: readonly T[]): T => present(from[Math.floor(random.next() * from.length)], "one of several");
  const all: Goat[] = [];
  const born = (isDoe: boolean, dam?: Goat, sire?: Goat): Goat => {
    const allele = (parent: Goat | undefined) =>
      parent ? pick(parent.alleles.split("")) : random.next() < 0.2 ? "P" : "p";
    const id = `${isDoe ? "doe" : "buck"}${all.length}`;
    const goat = { id, isDoe, dam, sire, alleles: allele(dam) + allele(sire) };
    all.push(goat);
    return goat;
  };
  const isFertile = (goat: Goat) => goat.alleles !== "PP";
  let does = Array.from({ length: size.does }, () => born(true)).filter(isFertile);
  let bucks = Array.from({ length: size.bucks }, () => born(false));
  while (all.length < size.animals) {
    const kids = does.flatMap((doe) => {
      const [litter, sire] = [random.next() < 0.3 ? 1 : 2, pick(bucks)];
      return Array.from({ length: litter }, () => born(random.next() < 0.5, doe, sire));
    });
    const daughters = kids.filter((k) => k.isDoe && isFertile(k));
    const sons = kids.filter((k) => !k.isDoe);
    const young = daughters.slice(0, Math.ceil(size.does / 5));
    does = [...does.slice(young.length), ...young];
    bucks = [...bucks.slice(Math.ceil(size.bucks / 2)), ...sons.slice(0, Math.ceil(size.bucks / 2))];
    if (bucks.length === 0) bucks = [born(false)];
  }
  return { locus: POLLED, members: recorded(all.slice(0, size.animals), random) };
}

/** What a keeper has written down of them. */
function recorded(herd: readonly Goat[], random: Random): readonly Member[] {
  const parents = new Set(herd.flatMap((g) => [g.dam, g.sire]));
  return herd.map((goat): Member => {
    const head = goat.alleles.includes("P") ? "polled" : "horned";
    const facts = [
      ...(random.next() < READ ? [{ fact: `${goat.id} head`, likelihood: grownHeadLikelihood(head) }] : []),
      { fact: `${goat.id} look`, likelihood: sexLookLikelihood(goat.isDoe ? "doe" : "buck") },
      ...(parents.has(goat)
        ? [{ fact: `${goat.id} kidded`, likelihood: goat.isDoe ? FERTILE_DAM : FERTILE_SIRE }]
        : []),
    ];
    return {
      id: animalId(goat.id),
      dam: goat.dam && animalId(goat.dam.id),
      sires: goat.sire
        ? [
            { sire: animalId(goat.sire.id), weight: 1 - WRONG_SIRE },
            { sire: undefined, weight: WRONG_SIRE },
          ]
        : [],
      xx: 0.5,
      breed: undefined,
      evidence: facts,
    };
  });
}

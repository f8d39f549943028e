import { present, type Random, seededRandom } from "@pollard/base";
import { inferLoci, type LociAnswer, type Member, type PedigreeProblem } from "@pollard/genetics";
import { at, FOUR_LOCI, herdBook } from "./herds/herd-book.ts";

/** What it costs to ask several loci together, and how far the answer is off where it is no longer exact. */
const HERDS = [
  { animals: 30, does: 6, bucks: 1 },
  { animals: 100, does: 20, bucks: 2 },
  { animals: 300, does: 40, bucks: 3 },
] as const;
/** Herds with pens of two bucks, which an exact answer still reaches, and a budget that it does not. */
const PENS = [
  { animals: 30, does: 6, bucks: 1 },
  { animals: 60, does: 12, bucks: 2 },
] as const;
const SEEDS = [1, 2, 3, 4, 5, 6];
const PENNED = 0.3;
const LARGE = 1 << 25;
const SMALL = 100_000;

export function bench() {
  const times = HERDS.flatMap((size) =>
    [2, 3, 4].map((loci) => {
      const herd = herdBook(size, seededRandom(7));
      const problems = FOUR_LOCI.slice(0, loci).map((locus) => at(locus, herd));
      const start = performance.now();
      const answer = inferLoci(problems);
      for (const a of answer.answers) for (const m of herd.members) a.belief(m.id);
      const error = answer.method === "exact" ? "" : `, error about ${answer.error.toExponential(0)}`;
      const note = `${answer.method}${error}`;
      return {
        what: `${loci} loci together, ${size.animals} animals`,
        value: performance.now() - start,
        unit: "ms",
        note,
      };
    }),
  );
  return [
    ...times,
    ...errors("two loci of two alleles", [0, 1]),
    ...errors("a locus of two alleles, one of five", [1, 3]),
  ];
}

/** For each herd that can be answered both ways: the error that is named beside the true one. */
function errors(what: string, loci: readonly number[]) {
  const found = PENS.flatMap((size) =>
    SEEDS.flatMap((seed) => {
      const herd = inPens(herdBook(size, seededRandom(seed)), seededRandom(seed + 5));
      const problems = loci.map((l) => at(present(FOUR_LOCI[l], "a locus"), herd));
      const exact = inferLoci(problems, { cellBudget: LARGE });
      const other = inferLoci(problems, { cellBudget: SMALL });
      if (exact.method !== "exact" || other.method === "exact") return [];
      return [{ named: other.error, real: worst(herd, exact, other) }];
    }),
  );
  const share = Math.min(...found.map(({ named, real }) => named / real));
  const largest = Math.max(...found.map(({ real }) => real));
  return [
    {
      what: `told one by one, ${what}: least share of the true error that is named`,
      value: share,
      unit: "",
      note: `${found.length} herds; the largest true error ${largest.toExponential(1)}`,
    },
  ];
}

/** Some kids may be of another buck just as well. */
function inPens(problem: PedigreeProblem, random: Random): PedigreeProblem {
  const members = problem.members.map((m, i): Member => {
    const first = m.sires[0]?.sire;
    if (first === undefined || random.next() >= PENNED) return m;
    const other = problem.members.slice(0, i).find((x) => x.id.startsWith("buck") && x.id !== first)?.id;
    return {
      ...m,
      sires: [
        { sire: first, weight: 0.6 },
        { sire: other, weight: 0.4 },
      ],
    };
  });
  return { ...problem, members };
}

function worst({ members }: PedigreeProblem, exact: LociAnswer, other: LociAnswer): number {
  const apart = members.flatMap(({ id }) => [
    ...exact.answers.flatMap((a, l) =>
      a.belief(id).genotypes.map((p, g) => p - (other.answers[l]?.belief(id).genotypes[g] ?? Number.NaN)),
    ),
    ...[...exact.sires(id)].map(([sire, p]) => p - (other.sires(id).get(sire) ?? Number.NaN)),
  ]);
  return Math.max(...apart.map(Math.abs));
}

import { present, type Random, seededRandom } from "@pollard/base";
import { inferLoci, layoutMemory, type LociAnswer, type Member, type PedigreeProblem } from "@pollard/genetics";
import { aFact } from "@pollard/genetics/testing";
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
const SMALL = 60_000;

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
    ...entries(),
    ...errors("two loci of two alleles", [0, 1]),
    ...errors("a locus of two alleles, one of five", [1, 3]),
  ];
}

/** After one finding more in a herd of 300 with some kids of pens of two bucks: each locus alone, and told of sires. */
function entries() {
  const whole = herdBook(HERDS[2], seededRandom(7));
  return [0.004, 0.03, 0.1].flatMap((share) =>
    [2, 3, 4].map((loci) => {
      const herd = inPens(whole, seededRandom(3), share);
      const problems = FOUR_LOCI.slice(0, loci).map((locus) => at(locus, herd));
      const alone = again(problems, 2);
      const afresh = again(problems, 0.02, layoutMemory);
      const told = again(problems, 0.02);
      const pens = herd.members.filter((m, i) => m !== whole.members[i]).length;
      return {
        what: `${loci} loci, 300 animals, ${pens} of pens, after one finding more`,
        value: told.ms,
        unit: "ms",
        note: `${told.last.told.size} sires told of, error about ${told.last.error.toExponential(0)}; ${(told.ms / alone.ms).toFixed(1)} times as long as alone; afresh ${(afresh.ms / told.ms).toFixed(1)} times`,
      };
    }),
  );
}

/** The same memory at each turn. */
function oneMemory(): typeof layoutMemory {
  const layouts = layoutMemory();
  return () => layouts;
}

/** The best of some turns. No chance moves by 2: then every locus is alone. */
function again(problems: readonly PedigreeProblem[], leastTold: number, memory = oneMemory()) {
  const first = present(problems[0], "a locus");
  const members = first.members.map((m, i) =>
    i === 250 ? { ...m, evidence: [...m.evidence, aFact("one more", [0.9, 0.8, 0.1])] } : m,
  );
  const turns = [problems, [{ ...first, members }, ...problems.slice(1)]];
  const runs = Array.from({ length: 6 }, (_, turn) => {
    const start = performance.now();
    const last = inferLoci(present(turns[turn % 2], "a turn"), { layouts: memory(), leastTold });
    for (const a of last.answers) for (const m of first.members) a.belief(m.id);
    return { ms: performance.now() - start, last };
  });
  return runs.slice(2).reduce((a, b) => (b.ms < a.ms ? b : a));
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
      what: `beyond the budget, ${what}: least share of the true error that is named`,
      value: share,
      unit: "",
      note: `${found.length} herds; the largest true error ${largest.toExponential(1)}`,
    },
  ];
}

/** Some kids may be of another buck just as well. */
function inPens(problem: PedigreeProblem, random: Random, share = PENNED): PedigreeProblem {
  const members = problem.members.map((m, i): Member => {
    const first = m.sires[0]?.sire;
    if (first === undefined || random.next() >= share) return m;
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

import { present } from "@pollard/base";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { POLLED } from "../loci/polled.ts";
import { aFact, aLocus, aMember, byEnumeration, withSires } from "../testing.ts";
import { type AnimalId, animalId } from "../vocabulary.ts";
import type { PedigreeProblem } from "../pedigree/pedigree-problem.ts";
import { inferGenotypes } from "../genotypes/infer-genotypes.ts";
import { inferLoci, type LociAnswer } from "./several-loci.ts";
import { toldMembers } from "./told-members.ts";

const WATTLED = aLocus(["W", "w"]);
const SIRES = [
  ["one", 2],
  ["two", 1],
  [undefined, 1],
] as const;
const [first, second] = [animalId("first"), animalId("second")];

/** Two bucks, a doe and her twins of one of them or of both; the first twin has a kid of a doubtful buck of its own. */
function herdAt(
  locus: PedigreeProblem["locus"],
  mixed: number,
  looks: readonly (readonly number[])[],
): PedigreeProblem {
  const look = (k: number) => [aFact(`${locus.id} ${k}`, looks[k] ?? [1, 1, 1])];
  const twin = { dam: "doe", sires: SIRES, litter: { id: "spring", mixed } };
  return {
    locus,
    members: [
      aMember("one", { xx: 0, evidence: look(0) }),
      aMember("two", { xx: 0, evidence: look(1) }),
      aMember("doe", { xx: 1, evidence: look(5) }),
      aMember("first", { xx: 1, ...twin, evidence: look(2) }),
      aMember("second", { xx: 0, ...twin, evidence: look(3) }),
      aMember("last", { xx: 0, dam: "first", sires: SIRES.slice(0, 2), evidence: look(4) }),
    ],
  };
}

/** The slow way: every combination of sires, each locus enumerated with those alone, weighed by how often litters are so. */
function worstError(problems: readonly PedigreeProblem[], mixed: number, answer: LociAnswer): number {
  const members = problems[0]?.members ?? [];
  const weights = SIRES.map(([, w]) => w / 4);
  const ways = SIRES.flatMap((_, a) => SIRES.flatMap((__, b) => [0, 1].map((c) => [a, b, c] as const))).map(
    (chosen) => {
      const [a, b, c] = chosen;
      const [p, q] = [weights[a] ?? 0, weights[b] ?? 0];
      const prior = ((a === b ? (1 - mixed) * p : 0) + mixed * p * q) * (c === 0 ? 2 / 3 : 1 / 3);
      const picks = new Map<AnimalId, number>([
        [first, a],
        [second, b],
        [animalId("last"), c],
      ]);
      const found = problems.map((problem) => byEnumeration(withSires(problem, picks)));
      return { chosen, found, weight: found.reduce((w, f) => w * f.total, prior) };
    },
  );
  const total = ways.reduce((sum, { weight }) => sum + weight, 0);
  const mean = (of: (way: (typeof ways)[number]) => number): number =>
    ways.reduce((sum, way) => sum + (way.weight === 0 ? 0 : way.weight * of(way)), 0) / total;
  const ofSires = [first, second, animalId("last")].flatMap((id, d) =>
    [...answer.sires(id).values()].map((p, k) => Math.abs(p - mean(({ chosen }) => (chosen[d] === k ? 1 : 0)))),
  );
  const ofGenotypes = answer.answers.flatMap((each, l) =>
    members.flatMap((m) =>
      each.belief(m.id).genotypes.map((p, g) => {
        const want = mean(({ found }) => {
          const { XX = [], XY = [] } = found[l]?.bySex.get(m.id) ?? {};
          return ((XX[g] ?? 0) + (XY[g] ?? 0)) / (found[l]?.total ?? 1);
        });
        return Math.abs(p - want);
      }),
    ),
  );
  expect([ofSires.length, ofGenotypes.length]).toEqual([8, 36]);
  return Math.max(...ofSires, ...ofGenotypes);
}

describe("loci that know of litters", () => {
  test("[GE-73] what one locus shows of one twin counts at the other locus of its mate", () => {
    const known = [
      [0, 0, 1],
      [1, 0, 0],
    ];
    const sure = (look: readonly number[]) => herdAt(WATTLED, 0.4, [...known, look]);
    const quiet = herdAt(POLLED, 0.4, [...known]);
    const before = inferLoci([quiet, sure([1, 1, 1])]).answers[0]?.belief(second);
    const answer = inferLoci([quiet, sure([1, 0, 0])]); // only the second buck, or a stranger, hands on W
    const after = answer.answers[0]?.belief(second);
    expect(answer.sires(second).get(animalId("one"))).toBeLessThan(0.25);
    expect(after?.genotypes[0] ?? 0).toBeGreaterThan(1.2 * (before?.genotypes[0] ?? 1));
    expect([...answer.told].sort()).toEqual(["first", "last", "second"]);
  });

  test("[GE-73] of a litter the loci tell each other of all kids or of none", () => {
    const problems = [POLLED, WATTLED].map((locus) =>
      herdAt(locus, 0.4, [
        [1, 0, 0],
        [0, 0, 1],
        [0.1, 1, 1],
      ]),
    );
    const answer = inferLoci(problems, { leastTold: 0.01 });
    expect(answer.told.has(first)).toBe(true);
    expect(answer.told.has(second)).toBe(true);
    expect(answer.told.has(animalId("last"))).toBe(false);
    const ways = present(answer.answers[0], "a locus").siresTogether([first, second]);
    for (const [sire, p] of answer.sires(second))
      expect(ways.reduce((sum, w) => (w.sires[1] === sire ? sum + w.chance : sum), 0)).toBeCloseTo(p, 12);
  });

  test("[GE-73] asked on at one locus by itself, with what the others say of a litter's sires, it says what all say together", () => {
    const bucks = [
      [0, 0, 1],
      [1, 0, 0],
    ];
    for (const mixed of [0, 0.6, 1]) {
      const problems = [
        herdAt(POLLED, mixed, [...bucks, [0.3, 1, 0.8], [1, 1, 0.2], [1, 1, 1], [0, 1, 0]]),
        herdAt(WATTLED, mixed, [...bucks.toReversed(), [0.8, 1, 0.1], [0.5, 0.2, 1], [1, 1, 1], [0, 1, 0]]),
      ];
      const { answers, alone, told } = inferLoci(problems);
      problems.forEach((problem, l) => {
        const together = present(answers[l], "a locus");
        const members = toldMembers(problem, { together, alone: present(alone[l], "a locus alone"), told });
        const asked = inferGenotypes({ ...problem, members });
        const everything = toldMembers(problem, { together });
        const blank = { ...problem, members: everything.map((m) => ({ ...m, evidence: [] })) };
        for (const id of [first, second])
          for (const [sire, p] of together.belief(id).sires) {
            // The parents are known, so a kid's look says nothing of its mate's sire but by way of its own.
            expect(asked.belief(id).sires.get(sire)).toBeCloseTo(p, 9);
            expect(inferGenotypes(blank).belief(id).sires.get(sire)).toBeCloseTo(p, 9);
          }
      });
    }
  });

  describe("laws", () => {
    const anyLook = fc.array(fc.constantFrom(0.1, 0.3, 0.8, 1), { minLength: 3, maxLength: 3 });
    const anyLooks = fc.array(anyLook, { minLength: 5, maxLength: 5 });

    test("[GE-73] twins at two loci: as by trying every combination of sires at every locus", () => {
      fc.assert(
        fc.property(anyLooks, anyLooks, fc.constantFrom(0, 0.6, 1), (a, b, mixed) => {
          const problems = [herdAt(POLLED, mixed, a), herdAt(WATTLED, mixed, b)];
          const answer = inferLoci(problems);
          expect(answer.method).toBe("exact");
          expect(worstError(problems, mixed, answer)).toBeLessThan(1e-9);
        }),
        { numRuns: 6 },
      );
    });

    test("[GE-75] beyond the budget of all loci the error that is named is at least a fifth of the true one", () => {
      let oneByOne = 0;
      fc.assert(
        fc.property(
          anyLooks,
          anyLooks,
          fc.constantFrom(0, 0.6),
          fc.constantFrom(1700, 2500),
          (a, b, mixed, cellBudget) => {
            const problems = [herdAt(POLLED, mixed, a), herdAt(WATTLED, mixed, b)];
            const answer = inferLoci(problems, { cellBudget });
            if (answer.method === "approximate") oneByOne++;
            expect(5 * answer.error + 1e-9).toBeGreaterThan(worstError(problems, mixed, answer));
          },
        ),
        { numRuns: 8 },
      );
      expect(oneByOne).toBeGreaterThan(3);
    });
  });
});

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { POLLED } from "../loci/polled.ts";
import { aFact, aLocus, aMember, byEnumeration } from "../testing.ts";
import { animalId } from "../vocabulary.ts";
import { inferGenotypes } from "./infer-genotypes.ts";
import type { Member, PedigreeProblem } from "./pedigree-problem.ts";
import { inferLoci } from "./several-loci.ts";

const WATTLED = aLocus(["W", "w"]);
const COLOURS = aLocus(["A", "B", "C"]);
const kid = animalId("kid");

/** Two bucks, a doe and a kid of one of them; a younger kid, known to be the first buck's. */
const herdAt = (
  locus: PedigreeProblem["locus"],
  facts: Readonly<Record<string, readonly number[]>>,
): PedigreeProblem => {
  const look = (id: string) => (facts[id] ? [aFact(`${locus.id} ${id}`, facts[id])] : []);
  return {
    locus,
    members: [
      aMember("one", { xx: 0, evidence: look("one") }),
      aMember("two", { xx: 0, evidence: look("two") }),
      aMember("doe", { xx: 1, evidence: look("doe") }),
      aMember("kid", {
        dam: "doe",
        sires: [
          ["one", 2],
          ["two", 1],
          [undefined, 1],
        ],
        evidence: look("kid"),
      }),
      aMember("later", { xx: 0, dam: "doe", sire: "one", evidence: look("later") }),
    ],
  };
};

/** The slow way: every candidate in turn as the only sire, each locus enumerated, the products compared. */
function siresByHand(problems: readonly PedigreeProblem[]): readonly number[] {
  const doubt = problems[0]?.members.find((m) => m.id === kid)?.sires ?? [];
  const weights = doubt.map(({ sire, weight }) =>
    problems.reduce((product, problem) => {
      const members = problem.members.map(
        (m): Member => (m.id === kid ? { ...m, sires: sire === undefined ? [] : [{ sire, weight: 1 }] } : m),
      );
      return product * byEnumeration({ ...problem, members }).total;
    }, weight),
  );
  const total = weights.reduce((a, b) => a + b, 0);
  return weights.map((w) => w / total);
}

describe("inferLoci", () => {
  test("[GE-26] polledness leaves two bucks open, wattles decide between them", () => {
    const polled = herdAt(POLLED, { one: [1, 1, 0], two: [1, 1, 0], doe: [0, 0, 1], kid: [1, 1, 0] });
    const wattled = herdAt(WATTLED, { one: [0, 0, 1], two: [1, 1, 0], doe: [0, 0, 1], kid: [0.99, 0.99, 0.01] });
    const answer = inferLoci([polled, wattled]);
    const alone = inferGenotypes(polled).belief(kid).sires.get(animalId("two")) ?? 0;
    const together = answer.sires(kid).get(animalId("two")) ?? 0;
    expect(alone).toBeLessThan(0.45);
    expect(together).toBeGreaterThan(0.75);
    for (const a of answer.answers) expect(a.belief(kid).sires.get(animalId("two"))).toBeCloseTo(together, 8);
  });

  test("[GE-26] one locus alone, or no doubt at all, is as before", () => {
    const polled = herdAt(POLLED, { one: [1, 1, 0], kid: [1, 1, 0] });
    expect([...inferLoci([polled]).sires(kid)]).toEqual([...inferGenotypes(polled).belief(kid).sires]);
    expect(inferLoci([polled]).method).toBe("exact");
    const sure = { ...polled, members: polled.members.filter((m) => m.id !== kid) };
    expect(inferLoci([sure, sure]).method).toBe("exact");
  });

  test("[GE-26] loci that rule out every sire between them do not break the answer", () => {
    const one = herdAt(POLLED, { one: [0, 0, 1], two: [1, 0, 0], doe: [0, 0, 1], kid: [0, 0, 1] });
    const two = herdAt(WATTLED, { one: [1, 0, 0], two: [0, 0, 1], doe: [0, 0, 1], kid: [0, 0, 1] });
    const members = (p: PedigreeProblem) =>
      p.members.map((m) => (m.id === kid ? { ...m, sires: m.sires.slice(0, 2) } : m));
    const answer = inferLoci([
      { ...one, members: members(one) },
      { ...two, members: members(two) },
    ]);
    expect([...answer.sires(kid).values()].reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
  });

  describe("laws", () => {
    const anyLook = (size: number) => fc.array(fc.constantFrom(0.1, 0.3, 0.8, 1), { minLength: size, maxLength: size });
    const anyFacts = (size: number) =>
      fc.record({
        one: anyLook(size),
        two: anyLook(size),
        doe: anyLook(size),
        kid: anyLook(size),
        later: anyLook(size),
      });

    test("[GE-26] one doubtful kid at three loci: as by trying each sire at every locus", () => {
      fc.assert(
        fc.property(anyFacts(3), anyFacts(3), anyFacts(6), (a, b, c) => {
          const problems = [herdAt(POLLED, a), herdAt(WATTLED, b), herdAt(COLOURS, c)];
          const answer = inferLoci(problems);
          expect(answer.method).toBe("exact");
          const want = siresByHand(problems);
          [...answer.sires(kid).values()].forEach((p, k) => {
            expect(p).toBeCloseTo(want[k] ?? Number.NaN, 8);
          });
        }),
        { numRuns: 8 },
      );
    });
  });
});

import { seededRandom } from "@pollard/base";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { genotypesOf } from "../locus.ts";
import { POLLED } from "../loci/polled.ts";
import { FERTILE_DAM, grownHeadLikelihood, sexLookLikelihood } from "../loci/polled-evidence.ts";
import { aFact, aMember, byEnumeration } from "../testing.ts";
import { animalId } from "../vocabulary.ts";
import { herdDrawer } from "./herd-draws.ts";
import { inferGenotypes } from "../genotypes/infer-genotypes.ts";
import type { Member, PedigreeProblem } from "../pedigree/pedigree-problem.ts";

const herd = (...members: readonly Member[]): PedigreeProblem => ({
  locus: POLLED,
  members,
  frequencies: { default: [0.4, 0.6] },
});
const drawerOf = (problem: PedigreeProblem) => {
  const draw = herdDrawer(problem, inferGenotypes(problem));
  if (!draw) throw new Error("too entangled");
  return draw;
};
const DRAWS = 4000;

describe("herdDrawer", () => {
  test("[GE-32] every drawn herd fits: no polled kid of two horned parents, no PP dam", () => {
    const problem = herd(
      aMember("dam", { evidence: [{ fact: "kidded", likelihood: FERTILE_DAM }] }),
      aMember("sire"),
      ...[1, 2, 3].map((k) => aMember(`k${k}`, { dam: "dam", sire: "sire" })),
    );
    const draw = drawerOf(problem);
    const random = seededRandom(3);
    for (let k = 0; k < 300; k++) {
      const drawn = draw(random);
      const of = (id: string) => drawn.get(animalId(id))?.genotype ?? Number.NaN;
      expect(of("dam")).not.toBe(0);
      expect(drawn.get(animalId("dam"))?.sex).toBe("XX");
      if (of("dam") === 2 && of("sire") === 2) expect([1, 2, 3].map((i) => of(`k${i}`))).toEqual([2, 2, 2]);
    }
  });

  test("[GE-32] the same seed draws the same herds; a herd of nobody is drawn too", () => {
    const problem = herd(aMember("a"), aMember("b"), aMember("k", { dam: "a", sire: "b" }));
    const draws = (seed: number) => {
      const random = seededRandom(seed);
      return Array.from({ length: 5 }, () => [...drawerOf(problem)(random)]);
    };
    expect(draws(1)).toEqual(draws(1));
    expect(drawerOf(herd())(seededRandom(1)).size).toBe(0);
  });

  test("[GE-32] sex and genotype are drawn together: an intersex kid of carriers is mostly XX PP", () => {
    const carrier = (id: string) => aMember(id, { founderPrior: [0, 1, 0] });
    const kid = aMember("kid", {
      dam: "d",
      sire: "s",
      evidence: [{ fact: "look", likelihood: sexLookLikelihood("intersex") }],
    });
    const problem = herd(carrier("d"), carrier("s"), kid);
    const draw = drawerOf(problem);
    const random = seededRandom(5);
    const share = Array.from({ length: DRAWS }, () => draw(random).get(animalId("kid"))).filter(
      (k) => k?.genotype === 0 && k.sex === "XX",
    ).length;
    const want = inferGenotypes(problem).belief(animalId("kid")).bySex.XX[0] ?? Number.NaN;
    expect(Math.abs(share / DRAWS - want)).toBeLessThan((5 * 0.5) / Math.sqrt(DRAWS));
  });

  describe("laws", () => {
    test("[GE-32] combinations are drawn as often as enumeration says, within five standard errors", () => {
      const anyHead = fc.constantFrom("polled" as const, "horned" as const);
      fc.assert(
        fc.property(anyHead, anyHead, fc.nat(1000), (one, two, seed) => {
          const problem = herd(
            aMember("a", { xx: 0 }),
            aMember("b", { xx: 1, evidence: [aFact("b", [0.2, 1, 0.5])] }),
            aMember("c", {
              xx: 1,
              dam: "b",
              sire: "a",
              evidence: [{ fact: "c", likelihood: grownHeadLikelihood(one) }],
            }),
            aMember("d", {
              xx: 0,
              dam: "c",
              sires: [
                ["a", 1],
                [undefined, 1],
              ],
              evidence: [{ fact: "d", likelihood: grownHeadLikelihood(two) }],
            }),
          );
          const draw = drawerOf(problem);
          const random = seededRandom(seed);
          const counts = new Map<string, number>();
          for (let k = 0; k < DRAWS; k++) {
            const drawn = draw(random);
            const key = problem.members.map((m) => genotypesOf(POLLED)[drawn.get(m.id)?.genotype ?? -1]).join();
            counts.set(key, (counts.get(key) ?? 0) + 1);
          }
          const { total, combinations } = byEnumeration(problem);
          for (const [key, weight] of combinations) {
            const p = weight / total;
            const slack = 5 * Math.sqrt((p * (1 - p)) / DRAWS) + 1 / DRAWS;
            expect(Math.abs((counts.get(key) ?? 0) / DRAWS - p)).toBeLessThan(slack);
          }
          for (const key of counts.keys()) expect(combinations.has(key)).toBe(true);
        }),
        { numRuns: 4 },
      );
    });
  });
});

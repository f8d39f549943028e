import { present } from "@pollard/base";
import {
  animalId,
  DNA_TEST_ERROR,
  type GenotypeAnswer,
  grownHeadLikelihood,
  type Member,
  POLLED,
  POLLED_GENOTYPES,
} from "@pollard/genetics";
import { aMember, byEnumeration } from "@pollard/genetics/testing";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { beforeTests, testPairs, testWorth } from "./test-worth.ts";

const id = animalId;
const head = (fact: string, grew: "polled" | "horned") => ({ fact, likelihood: grownHeadLikelihood(grew) });

/** Two bucks, two does: which buck for which doe, a horned kid costs 1, a PP one (half of them sex-reversed) 2, a buck 0.05. */
const BUCKS = ["b1", "b2"].map(id);
const DOES = ["d1", "d2"].map(id);
const cost = (PP: number, pp: number, buck: number) => pp + 2 * PP + (buck === 0 ? 0 : 0.05);
const leastLoss = (answer: GenotypeAnswer): number =>
  DOES.reduce((sum, doe) => {
    const losses = BUCKS.map((buck, b) => {
      const [PP = 0, , pp = 0] = answer.kid(buck, doe);
      return cost(PP, pp, b);
    });
    return sum + Math.min(...losses);
  }, 0);

/** The slow way: every genotype of every animal, every result of every test, every plan. */
function worthBySight(members: readonly Member[], tested: readonly string[], error: number): number {
  const names = members.map((m) => String(m.id));
  const worlds = [...byEnumeration({ locus: POLLED, members }).combinations].map(([key, weight]) => {
    const genotypes = key.split(/[^PpY]+/).map((g) => POLLED_GENOTYPES.indexOf(g as "PP"));
    return { of: (name: string) => genotypes[names.indexOf(name)] ?? -1, weight };
  });
  const P = [1, 0.5, 0];
  const loss = (weighted: typeof worlds): number =>
    DOES.reduce((sum, doe) => {
      const perBuck = BUCKS.map((buck, b) =>
        weighted.reduce((s, { of, weight }) => {
          const [x = 0, y = 0] = [P[of(buck)], P[of(doe)]];
          return s + weight * cost(x * y, (1 - x) * (1 - y), b);
        }, 0),
      );
      return sum + Math.min(...perBuck);
    }, 0);
  const total = worlds.reduce((s, w) => s + w.weight, 0);
  let results: number[][] = [[]];
  for (const _ of tested) results = results.flatMap((r) => [0, 1, 2].map((g) => [...r, g]));
  const after = results.reduce((sum, result) => {
    const weighted = worlds.map((w) => ({
      ...w,
      weight: tested.reduce((x, name, i) => x * (w.of(name) === result[i] ? 1 - error : error / 2), w.weight),
    }));
    return sum + loss(weighted);
  }, 0);
  return (loss(worlds) - after) / total;
}

const herd = (seen: readonly ("polled" | "horned" | undefined)[]): Member[] => {
  const of = (i: number) => (seen[i] === undefined ? [] : [head(`h${i}`, seen[i])]);
  return [
    aMember("b1", { xx: 0, evidence: of(0) }),
    aMember("b2", { xx: 0, evidence: of(1) }),
    aMember("d1", { xx: 1, evidence: of(2) }),
    aMember("d2", { xx: 1, dam: "d1", sire: "b1", evidence: of(3) }),
  ];
};

describe("testWorth", () => {
  test("[PA-13] a buck nothing is known of is worth testing, since there is another; a horned doe is not", () => {
    const members = herd([undefined, undefined, "horned", undefined]);
    const start = beforeTests({ problem: { locus: POLLED, members }, leastLoss });
    expect(testWorth(start, [id("b1")]).worth).toBeGreaterThan(0.05);
    expect(testWorth(start, [id("d1")]).worth).toBeLessThan(0.005);
  });

  test("[PA-13] what could change nothing is worth nothing", () => {
    const start = beforeTests({
      problem: { locus: POLLED, members: herd(["polled", "horned", undefined, undefined]) },
      leastLoss: (answer) => answer.kid(id("b1"), id("d1"))[2] ?? 0,
    });
    for (const animal of ["b1", "d1", "d2"]) expect(testWorth(start, [id(animal)]).worth).toBeCloseTo(0, 6);
  });

  describe("laws", () => {
    const seen = fc.array(fc.constantFrom("polled" as const, "horned" as const, undefined), {
      minLength: 4,
      maxLength: 4,
    });
    const tested = fc.uniqueArray(fc.constantFrom("b1", "b2", "d1", "d2"), { minLength: 1, maxLength: 2 });

    test("[PA-13] equals going through every genotype, every result and every plan", () => {
      fc.assert(
        fc.property(seen, tested, fc.constantFrom(0, DNA_TEST_ERROR.value, 0.1), (heads, names, error) => {
          const members = herd(heads);
          const start = beforeTests({ problem: { locus: POLLED, members }, leastLoss, error });
          const { worth, outcomes } = testWorth(start, names.map(id));
          expect(worth).toBeCloseTo(worthBySight(members, names, error), 6);
          expect(outcomes.reduce((sum, o) => sum + o.chance, 0)).toBeCloseTo(1, 6);
        }),
        { numRuns: 40 },
      );
    });

    test("[PA-13] knowing more never costs: no test is worth less than nothing, two are worth as much as the better", () => {
      fc.assert(
        fc.property(seen, (heads) => {
          const start = beforeTests({ problem: { locus: POLLED, members: herd(heads) }, leastLoss });
          const [pair] = testPairs(start, ["b1", "d1"].map(id));
          for (const animal of ["b1", "d1"]) {
            const { worth } = testWorth(start, [id(animal)]);
            expect(worth).toBeGreaterThan(-1e-9);
            expect(present(pair, "a pair").worth).toBeGreaterThan(worth - 1e-6);
          }
        }),
        { numRuns: 25 },
      );
    });
  });
});

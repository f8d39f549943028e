import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { genotypesOf } from "../locus.ts";
import { POLLED } from "../loci/polled.ts";
import { aFact, aLocus, aMember, byEnumeration } from "../testing.ts";
import { animalId } from "../vocabulary.ts";
import { inferGenotypes } from "../genotypes/infer-genotypes.ts";
import type { Member, PedigreeProblem } from "../pedigree/pedigree-problem.ts";
import { beliefAcross, chanceOfAll, genotypesWith, influences, mostProbable, withoutFacts } from "./questions.ts";

const herd = (...members: readonly Member[]): PedigreeProblem => ({
  locus: POLLED,
  members,
  frequencies: { default: [0.4, 0.6] },
});

describe("questions of a herd", () => {
  test("[GE-31] three polled daughters of a horned doe all carry horns", () => {
    const problem = herd(
      aMember("doe", { evidence: [aFact("doe", [0, 0, 1])] }),
      ...["x", "y", "z"].map((id) => aMember(id, { dam: "doe", evidence: [aFact(id, [1, 1, 0])] })),
    );
    const carriers = new Map(["x", "y", "z"].map((id) => [animalId(id), ["Pp"]]));
    expect(chanceOfAll(problem, inferGenotypes(problem), carriers)).toBeCloseTo(1, 12);
    expect(chanceOfAll(problem, inferGenotypes(problem), new Map([[animalId("x"), ["PP"]]]))).toBe(0);
  });

  test("[GE-31] without this reading: his own head and the horned kid make the buck a carrier, the doe hardly", () => {
    const problem = herd(
      aMember("buck", { evidence: [aFact("buck", [1, 1, 0.01])] }),
      aMember("doe", { evidence: [aFact("doe", [0.01, 0.01, 1])] }),
      aMember("kid", { dam: "doe", sire: "buck", evidence: [aFact("kid", [0.01, 0.01, 1])] }),
      aMember("stranger", { evidence: [aFact("stranger", [1, 1, 0])] }),
    );
    const answer = inferGenotypes(problem);
    const found = influences(problem, answer, animalId("buck"));
    expect(found.map((i) => i.fact)).toEqual(["buck", "kid", "doe"]);
    const without = inferGenotypes(withoutFacts(problem, new Set(["kid"]))).belief(animalId("buck")).genotypes;
    without.forEach((p, g) => expect(found[1]?.without[g]).toBeCloseTo(p, 12));
    expect(influences(problem, answer, animalId("buck"), new Set(["doe"])).map((i) => i.fact)).toEqual(["doe"]);
  });

  test("[GE-31] how far a belief leans on what is assumed of founders", () => {
    const problem = herd(
      aMember("a", { evidence: [aFact("a", [1, 1, 0])] }),
      aMember("b", { evidence: [aFact("b", [0, 1, 0])] }),
    );
    const across = (id: string) =>
      beliefAcross(problem, animalId(id), [{ default: [0.1, 0.9] }, { default: [0.5, 0.5] }]).map(
        (b) => b[0] ?? Number.NaN,
      );
    const [rare = 0, common = 0] = across("a");
    expect(rare).toBeCloseTo(0.01 / 0.19, 12);
    expect(common).toBeCloseTo(1 / 3, 12);
    expect(across("b")).toEqual([0, 0]);
  });

  test("[GE-31] genotypes by the copies of an allele", () => {
    expect(genotypesWith(herd(), "p")).toEqual(["Pp", "pp"]);
    expect(genotypesWith(herd(), "P", 1)).toEqual(["Pp"]);
    const xLinked = { ...herd(), locus: aLocus(["X", "x"], "x-linked") };
    expect(genotypesWith(xLinked, "x")).toEqual(["Xx", "xx", "x/Y"]);
  });

  describe("laws", () => {
    const anyLook = fc.constantFrom([1, 1, 0.1], [0.1, 0.1, 1], [0.4, 1, 0.2], [1, 1, 1], [0, 1, 1]);
    const anyHerd = fc.tuple(anyLook, anyLook, anyLook, anyLook, anyLook).map((looks) => {
      const evidence = looks.map((l, i) => [aFact(`f${i}`, l)]);
      return herd(
        aMember("a", { xx: 0, evidence: evidence[0] ?? [] }),
        aMember("b", { xx: 1, evidence: evidence[1] ?? [] }),
        aMember("c", { xx: 1, dam: "b", sire: "a", evidence: evidence[2] ?? [] }),
        aMember("d", { xx: 0, dam: "c", sire: "a", evidence: evidence[3] ?? [] }),
        aMember("e", { xx: 1, evidence: evidence[4] ?? [] }),
      );
    });
    const shares = (problem: PedigreeProblem) => {
      const { total, combinations } = byEnumeration(problem);
      return [...combinations].map(([key, w]) => ({ names: key.split(","), chance: w / total }));
    };

    test("[GE-31] the chance of all is the sum over the combinations that have it", () => {
      const anyNames = fc.subarray([...genotypesOf(POLLED)], { minLength: 1 });
      fc.assert(
        fc.property(anyHerd, anyNames, anyNames, anyNames, (problem, forB, forD, forE) => {
          const wanted = new Map([
            [animalId("b"), forB],
            [animalId("d"), forD],
            [animalId("e"), forE],
          ]);
          const want = shares(problem)
            .filter(
              ({ names: [, b = "", , d = "", e = ""] }) => forB.includes(b) && forD.includes(d) && forE.includes(e),
            )
            .reduce((s, x) => s + x.chance, 0);
          expect(chanceOfAll(problem, inferGenotypes(problem), wanted)).toBeCloseTo(want, 10);
        }),
        { numRuns: 30 },
      );
    });

    /** The same herd with what may be in doubt of it: who the last kid's sire is, and an animal's sex. */
    const anyDoubt = fc
      .tuple(anyHerd, fc.constantFrom(1, 3), fc.constantFrom(0, 0.5, 1))
      .map(([problem, weight, xx]) => ({
        ...problem,
        members: problem.members.map((m) =>
          m.id === animalId("d")
            ? {
                ...m,
                xx,
                sires: [
                  { sire: animalId("a"), weight },
                  { sire: undefined, weight: 1 },
                ],
              }
            : m,
        ),
      }));

    test("[GE-31] without a fact, and with other founders, it is what enumerating that herd gives", () => {
      fc.assert(
        fc.property(anyDoubt, fc.constantFrom("a", "b", "c", "d"), (problem, name) => {
          const id = animalId(name);
          const slowly = (changed: PedigreeProblem): readonly number[] => {
            const { total, bySex } = byEnumeration(changed);
            const { XX = [], XY = [] } = bySex.get(id) ?? {};
            return genotypesOf(POLLED).map((_, g) => ((XX[g] ?? 0) + (XY[g] ?? 0)) / total);
          };
          const answer = inferGenotypes(problem);
          const found = influences(problem, answer, id);
          expect(found.map((i) => i.fact).sort()).toEqual(["f0", "f1", "f2", "f3"]); // "e" is nobody's kin
          for (const { fact, without, shift } of found) {
            const want = slowly(withoutFacts(problem, new Set([fact])));
            want.forEach((p, g) => expect(without[g]).toBeCloseTo(p, 10));
            const moved = want.reduce((sum, p, g) => sum + Math.abs(p - (slowly(problem)[g] ?? 0)), 0) / 2;
            expect(shift).toBeCloseTo(moved, 10);
          }
          const founders = [{ default: [0.1, 0.9] }, { default: [0.7, 0.3] }];
          beliefAcross(problem, id, founders).forEach((belief, at) =>
            slowly({ ...problem, frequencies: founders[at] ?? {} }).forEach((p, g) =>
              expect(belief[g]).toBeCloseTo(p, 10),
            ),
          );
        }),
        { numRuns: 20 },
      );
    });

    test("[GE-31] a most probable way is no likelier than its genotypes are, and no single way is likelier, sires in doubt", () => {
      fc.assert(
        fc.property(anyDoubt, (problem) => {
          const best = mostProbable(problem, inferGenotypes(problem));
          const mine = problem.members.map((m) => best?.genotypes.get(m.id)).join();
          const all = shares(problem);
          const asGenotypes = all.find((s) => s.names.join() === mine)?.chance ?? Number.NaN;
          // Ways are genotypes along with who the sire is: here of one kid, one of two.
          const ways = all.map((s) => s.chance / 2);
          expect(best?.chance ?? Number.NaN).toBeLessThanOrEqual(asGenotypes + 1e-10);
          expect(best?.chance ?? Number.NaN).toBeGreaterThanOrEqual(Math.max(...ways) - 1e-10);
        }),
        { numRuns: 30 },
      );
    });

    test("[GE-31] the most probable way is the combination of most weight", () => {
      fc.assert(
        fc.property(anyHerd, (problem) => {
          const best = mostProbable(problem, inferGenotypes(problem));
          const top = Math.max(...shares(problem).map((s) => s.chance));
          expect(best?.chance).toBeCloseTo(top, 10);
          const mine = problem.members.map((m) => best?.genotypes.get(m.id)).join();
          expect(shares(problem).find((s) => s.names.join() === mine)?.chance).toBeCloseTo(top, 10);
        }),
        { numRuns: 30 },
      );
    });
  });
});

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import progeny from "../../published/genotypes/geno_01_progeny_test.json";
import inbreedingLoop from "../../published/genotypes/geno_03_inbreeding_loop.json";
import marriageLoop from "../../published/genotypes/geno_04_marriage_loop.json";
import impossible from "../../published/genotypes/geno_09_impossible.json";
import { POLLED } from "../loci/polled.ts";
import { aFact, aMember } from "../testing.ts";
import { animalId } from "../vocabulary.ts";
import { parseGenotypeFile } from "../pedigree/genotype-file.ts";
import { inferGenotypes } from "./infer-genotypes.ts";
import type { Member, PedigreeProblem } from "../pedigree/pedigree-problem.ts";

/** No family of more than one animal can be worked out exactly with so few cells. */
const NO_BUDGET = { cellBudget: 1 };

function problemIn(file: unknown): PedigreeProblem {
  const read = parseGenotypeFile(file);
  if (!read.ok) throw new Error(read.error.code);
  return read.value;
}

/** The largest difference of any chance between the approximate answer and the exact one. */
function worstError(problem: PedigreeProblem): number {
  const [exact, peeled] = [inferGenotypes(problem), inferGenotypes(problem, NO_BUDGET)];
  expect([exact.method, peeled.method]).toEqual(["exact", "approximate"]);
  const errors = problem.members.flatMap(({ id }) =>
    exact.belief(id).genotypes.map((p, g) => Math.abs(p - (peeled.belief(id).genotypes[g] ?? Number.NaN))),
  );
  return Math.max(...errors);
}

/** A herd in which every buck and doe comes from the one before: bucks b0, b1, …, does d0, d1, …, full of loops. */
const entangled = (looks: readonly (readonly number[])[]): PedigreeProblem => {
  const members: Member[] = [];
  looks.forEach((likelihood, i) => {
    const evidence = [aFact(`f${i}`, likelihood)];
    const isBuck = i % 3 === 0;
    const before = members.filter((m) => m.id.startsWith("d")).at(-1 - (i % 2));
    const sire = members.filter((m) => m.id.startsWith("b")).at(-1);
    members.push(
      aMember(`${isBuck ? "b" : "d"}${i}`, {
        ...(i > 3 && before ? { dam: before.id } : {}),
        ...(i > 3 && sire
          ? {
              sires: [
                [sire.id, 0.9],
                [undefined, 0.1],
              ],
            }
          : {}),
        evidence,
      }),
    );
  });
  return { locus: POLLED, members, frequencies: { default: [0.4, 0.6] } };
};
const anyLook = fc.constantFrom([1, 1, 0.01], [0.01, 0.01, 1], [1, 1, 1], [0.3, 0.6, 0.9]);

describe("beyond the budget", () => {
  test("[GE-16] the answer says that it is approximate, and how far off it may be", () => {
    const answer = inferGenotypes(problemIn(marriageLoop), NO_BUDGET);
    expect(answer.method).toBe("approximate");
    expect(answer.error).toBeGreaterThan(0);
    expect(inferGenotypes(problemIn(marriageLoop)).error).toBe(0);
  });

  test("[GE-16] a contradiction is found there too", () => {
    const answer = inferGenotypes(problemIn(impossible), NO_BUDGET);
    expect(answer.method).toBe("approximate");
    expect(answer.conflicts.map((c) => [...c.facts].sort())).toEqual([["d#1", "k#1", "s#1"]]);
    expect(answer.belief(animalId("k")).genotypes.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9);
  });

  test("[GE-16] planned kids and forecasts are answered", () => {
    const problem = problemIn(inbreedingLoop);
    const [exact, peeled] = [inferGenotypes(problem), inferGenotypes(problem, NO_BUDGET)];
    const [sire, dam] = [animalId("y"), animalId("x2")];
    exact.kid(sire, dam).forEach((p, g) => {
      expect(Math.abs(p - (peeled.kid(sire, dam)[g] ?? Number.NaN))).toBeLessThan(0.01);
    });
    exact.forecast(sire).genotypes.forEach((p, g) => {
      expect(Math.abs(p - (peeled.forecast(sire).genotypes[g] ?? Number.NaN))).toBeLessThan(0.01);
    });
  });

  test("[GE-63] a kid of half sibs among forty of whom nothing is known: the error is what its inbreeding makes it", () => {
    const members = [aMember("buck")];
    for (let i = 0; i < 20; i++) members.push(aMember(`doe${i}`), aMember(`kid${i}`, { dam: `doe${i}`, sire: "buck" }));
    members.push(aMember("inbred", { dam: "kid0", sire: "kid1" }));
    const P = 0.3;
    const { error } = inferGenotypes({ locus: POLLED, members, frequencies: { default: [P, 1 - P] } }, NO_BUDGET);
    expect(error).toBeCloseTo((2 * P * (1 - P)) / 8, 9); // F of a kid of half sibs is 1/8 [wright1922]
  });

  describe("laws", () => {
    test("[GE-63] little or nothing seen: the error that is named is at least a fifth of the true one", () => {
      fc.assert(
        fc.property(
          fc.array(fc.constantFrom([1, 1, 1], [1, 1, 1], [1, 1, 1], [1, 1, 0.01]), { minLength: 20, maxLength: 50 }),
          (looks) => {
            const problem = entangled(looks);
            expect(5 * inferGenotypes(problem, NO_BUDGET).error).toBeGreaterThan(worstError(problem));
          },
        ),
        { numRuns: 10 },
      );
    });

    test("[GE-16] without loops peeling is exact, likelihood, sires and planned kids included", () => {
      const anyTree = fc.array(fc.tuple(anyLook, anyLook, fc.boolean()), { minLength: 1, maxLength: 6 });
      fc.assert(
        fc.property(anyTree, (rows) => {
          const members = [aMember("buck"), aMember("other")];
          rows.forEach(([look, kidLook, inDoubt], i) => {
            const sires = inDoubt
              ? ([
                  ["buck", 2],
                  ["other", 1],
                  [undefined, 1],
                ] as const)
              : ([["buck", 1]] as const);
            // Two doubtful kids of the same two bucks would close a loop.
            const isFirst = !rows.slice(0, i).some(([, , d]) => d);
            members.push(
              aMember(`doe${i}`, { evidence: [aFact(`d${i}`, look)] }),
              aMember(`kid${i}`, {
                dam: `doe${i}`,
                sires: isFirst ? sires : [["buck", 1]],
                evidence: [aFact(`k${i}`, kidLook)],
              }),
            );
          });
          const problem: PedigreeProblem = { locus: POLLED, members };
          expect(worstError(problem)).toBeLessThan(1e-7);
          const [exact, peeled] = [inferGenotypes(problem), inferGenotypes(problem, NO_BUDGET)];
          expect(peeled.logLikelihood).toBeCloseTo(exact.logLikelihood, 6);
          expect(peeled.error).toBe(1e-6); // no less is ever claimed
          const ids = [animalId("buck"), animalId("doe0")] as const;
          for (const [id, chance] of exact.belief(animalId("kid0")).sires)
            expect(peeled.belief(animalId("kid0")).sires.get(id)).toBeCloseTo(chance, 6);
          exact.kid(...ids).forEach((p, g) => {
            expect(p).toBeCloseTo(peeled.kid(...ids)[g] ?? Number.NaN, 6);
          });
        }),
        { numRuns: 20 },
      );
    });

    test("[GE-16] the error that is named is of the size of the true one: at least a fifth of it", () => {
      fc.assert(
        fc.property(fc.array(anyLook, { minLength: 12, maxLength: 24 }), (looks) => {
          const problem = entangled(looks);
          const named = inferGenotypes(problem, NO_BUDGET).error;
          expect(5 * named).toBeGreaterThan(worstError(problem));
        }),
        { numRuns: 12 },
      );
    });
  });

  describe("published", () => {
    // Worst posterior error of loopy belief propagation, found by another program: 0.003 (file 03), 0.008 (file 04).
    test.each([
      [progeny, 0],
      [inbreedingLoop, 0.003],
      [marriageLoop, 0.008],
    ])("[GE-16] file %#: peeling is off by what another program's loopy propagation is off", (file, want) => {
      expect(Math.abs(worstError(problemIn(file)) - want)).toBeLessThan(0.0005); // printed to three decimals
    });
  });
});

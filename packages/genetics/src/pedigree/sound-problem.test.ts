import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { POLLED } from "../loci/polled.ts";
import { aFact, aLocus, aMember } from "../testing.ts";
import { animalId } from "../vocabulary.ts";
import { inferGenotypes } from "../genotypes/infer-genotypes.ts";
import type { Member, PedigreeProblem } from "./pedigree-problem.ts";
import { checkProblem } from "./sound-problem.ts";

const herd = (...members: readonly Member[]): PedigreeProblem => ({ locus: POLLED, members });
const codes = (problem: PedigreeProblem) => checkProblem(problem).map((i) => i.code);

describe("checkProblem", () => {
  test("[GE-9] a sound problem has no issues", () => {
    expect(checkProblem(herd(aMember("a"), aMember("b"), aMember("k", { dam: "a", sire: "b" })))).toEqual([]);
  });

  test("[GE-9] an animal that is its own ancestor: the link that closes the ring is named and left out", () => {
    const problem = herd(
      aMember("a", { dam: "c" }),
      aMember("b", { dam: "a" }),
      aMember("c", { dam: "b" }),
      aMember("self", { sire: "self" }),
    );
    const issues = checkProblem(problem);
    expect(issues).toContainEqual({ code: "own-ancestor", animal: "self", parent: "self" });
    expect(issues.filter((i) => i.code === "own-ancestor")).toHaveLength(2);
    for (const m of problem.members) expect(inferGenotypes(problem).belief(m.id).genotypes[1]).toBeCloseTo(0.32, 12);
  });

  test("[GE-9] a parent that is not there, an id twice, a dam as sire, a sex against the role", () => {
    const problem = herd(
      aMember("doe", { xx: 0 }),
      aMember("buck", { xx: 1 }),
      aMember("buck", { xx: 0 }),
      aMember("k1", { dam: "doe", sire: "buck" }),
      aMember("k2", {
        dam: "ghost",
        sires: [
          ["spectre", 1],
          ["doe", 1],
        ],
      }),
    );
    expect(checkProblem(problem)).toEqual([
      { code: "duplicate-id", animal: "buck" },
      { code: "missing-dam", animal: "k2", parent: "ghost" },
      { code: "missing-sire", animal: "k2", parent: "spectre" },
      { code: "dam-used-as-sire", animal: "k2", parent: "doe" },
      { code: "sex-against-role", animal: "doe", role: "dam" },
      { code: "sex-against-role", animal: "buck", role: "sire" },
    ]);
    expect(inferGenotypes(problem).belief(animalId("k2")).sires.size).toBe(0);
  });

  test("[GE-9] numbers that are no chances", () => {
    expect(
      codes({
        locus: { ...POLLED, founders: { ...POLLED.founders, breeds: {} } },
        frequencies: { default: [0.5, 0.6] },
        members: [
          aMember("a", { xx: 1.5, evidence: [aFact("f", [1, -1, 1]), aFact("g", [1, 1]), aFact("h", [1, 1, 1])] }),
          aMember("b", { xx: Number.NaN, founderPrior: [0.5, 0.5, 0.5] }),
          aMember("k", {
            sires: [
              ["a", -2],
              ["b", Number.NaN],
            ],
            founderPrior: [1, 0, 0],
            dam: "b",
          }),
        ],
      }),
    ).toEqual([
      "bad-weight",
      "bad-weight",
      "bad-frequencies",
      "bad-sex-chance",
      "bad-likelihood",
      "bad-likelihood",
      "bad-sex-chance",
      "bad-founder-prior",
      "founder-prior-unused",
    ]);
  });

  test("[GE-9] a locus without alleles, or with one twice", () => {
    const none: PedigreeProblem = { locus: aLocus([]), members: [aMember("a")] };
    expect(codes(none)[0]).toBe("locus-without-alleles");
    expect(inferGenotypes(none).belief(animalId("a")).genotypes).toEqual([]);
    expect(codes({ locus: aLocus(["A", "A"]), members: [] })).toEqual(["allele-twice"]);
  });

  describe("laws", () => {
    test("[GE-9] no structure crashes the engine, and every animal keeps a belief that sums to 1", () => {
      const anyName = fc.constantFrom("a", "b", "c", "d", "ghost");
      const anyMember = fc
        .record({
          id: anyName,
          dam: fc.option(anyName, { nil: "nobody" }),
          sires: fc.array(fc.tuple(anyName, fc.constantFrom(1, 0.5, 0, -1, Number.NaN)), { maxLength: 3 }),
          xx: fc.constantFrom(0, 0.5, 1, 2),
          facts: fc.array(fc.constantFrom([1, 1, 0], [0, 0, 1], [0.2, 0.5, 0.9], [0, 0, 0], [1, -1, 1]), {
            maxLength: 2,
          }),
        })
        .map(({ id, facts, ...m }) => aMember(id, { ...m, evidence: facts.map((f, i) => aFact(`${id}${i}`, f)) }));
      fc.assert(
        fc.property(fc.array(anyMember, { maxLength: 7 }), (members) => {
          const answer = inferGenotypes(herd(...members));
          expect(Number.isFinite(answer.logLikelihood)).toBe(true);
          for (const m of members) expect(answer.belief(m.id).genotypes.reduce((s, p) => s + p, 0)).toBeCloseTo(1, 9);
        }),
        { numRuns: 200 },
      );
    });
  });
});

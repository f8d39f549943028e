import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { genotypesOf, type Locus } from "../locus.ts";
import { inferGenotypes } from "../genotypes/infer-genotypes.ts";
import { aMember } from "../testing.ts";
import { animalId } from "../vocabulary.ts";
import { parseLocus } from "./parse-locus.ts";
import {
  ALPHA_S1_CASEIN,
  MPS_IIID,
  MYOTONIA,
  PRNP_146,
  PRNP_222,
  SHIPPED_LOCI,
  SHORT_EARS,
  WATTLES,
} from "./shipped.ts";
import { amountsOf, expectedAmount, phenotypeChances, traitLikelihood } from "./trait.ts";

const seen = (locus: Locus, trait: string, phenotype: string, error?: number) => {
  const result = traitLikelihood(locus, { trait, phenotype }, error);
  if (!result.ok) throw new Error(result.error.code);
  return { fact: phenotype, likelihood: result.value };
};

describe("shipped loci", () => {
  test("[GE-24] two goats without wattles do not have a kid with them: a conflict where there is no error", () => {
    const answer = inferGenotypes({
      locus: WATTLES,
      members: [
        aMember("dam", { evidence: [seen(WATTLES, "wattles", "absent", 0)] }),
        aMember("sire", { evidence: [seen(WATTLES, "wattles", "absent", 0)] }),
        aMember("kid", { dam: "dam", sire: "sire", evidence: [seen(WATTLES, "wattles", "present", 0)] }),
      ],
    });
    expect(answer.conflicts).toHaveLength(1);
  });

  test("[GE-24] where sources disagree both views are there, and each can be asked for", () => {
    const views = (MYOTONIA.traits ?? []).map((t) => t.expression.source);
    expect(views).toEqual(["omia-000698", "vgl-myotonia"]);
    const carrier = views.map((view) => {
      const result = traitLikelihood(MYOTONIA, { trait: "stiffness", phenotype: "myotonic", view }, 0);
      return result.ok ? result.value.XX[1] : undefined;
    });
    expect(carrier).toEqual([1, 0]);
    expect((SHORT_EARS.traits ?? []).map((t) => t.standing)).toEqual(["belief", "disputed"]);
  });

  test("[GE-24] a trait or phenotype the locus does not have is a problem", () => {
    expect(traitLikelihood(WATTLES, { trait: "ears", phenotype: "elf" })).toEqual({
      ok: false,
      error: { code: "unknown-trait", got: "ears", allowed: ["wattles"] },
    });
    expect(traitLikelihood(WATTLES, { trait: "wattles", phenotype: "maybe" }).ok).toBe(false);
  });

  test("[GE-25] a keeper's own locus is read, and works", () => {
    const read = parseLocus({
      id: "beard",
      name: "Beard",
      alleles: ["T", "t"],
      inheritance: "x-linked",
      frequencies: { T: 0.25, t: 0.75 },
      breeds: { " Boer ": { T: 0.5, t: 0.5 } },
      trait: {
        id: "beard",
        phenotypes: ["yes", "no"],
        shown: { TT: { yes: 1 }, Tt: { yes: 0.5, no: 0.5 }, tt: { no: 1 }, "T/Y": { yes: 1 }, "t/Y": { no: 1 } },
      },
    });
    if (!read.ok) throw new Error(read.error.code);
    const buck = aMember("buck", { xx: 0, breed: "boer", evidence: [seen(read.value, "beard", "yes", 0)] });
    const { genotypes } = inferGenotypes({ locus: read.value, members: [buck] }).belief(animalId("buck"));
    expect(genotypes).toEqual([0, 0, 0, 1, 0]);
  });

  test("[GE-25] what is wrong with a keeper's locus is named with its place", () => {
    const good = { id: "x", name: "X", alleles: ["A", "a"], inheritance: "autosomal", frequencies: { A: 0.5, a: 0.5 } };
    const problemOf = (change: object) => {
      const read = parseLocus({ ...good, ...change });
      return read.ok ? undefined : read.error;
    };
    expect(problemOf({})).toBeUndefined();
    expect(problemOf({ alleles: [] })).toEqual({ code: "too-few-alleles", path: "alleles", got: 0 });
    expect(problemOf({ alleles: ["A", "A"] })).toEqual({ code: "allele-twice", path: "alleles", got: "A" });
    expect(problemOf({ frequencies: { A: 0.5, a: 0.6 } })).toEqual({
      code: "not-shares",
      path: "frequencies",
      names: ["A", "a"],
    });
    expect(problemOf({ frequencies: { A: 0.5, b: 0.5 } })?.code).toBe("not-shares");
    expect(problemOf({ frequencies: { A: 0.5, a: 0.5, b: 0 } })?.code).toBe("not-shares");
    expect(problemOf({ inheritance: "maternal" })?.code).toBe("not-one-of");
    expect(problemOf({ name: " " })).toEqual({ code: "not-text", path: "name" });
    expect(problemOf({ breeds: { Boer: { A: 2, a: -1 } } })?.path).toBe("breeds.Boer");
    expect(problemOf({ trait: { id: "t", phenotypes: ["y"], shown: { AA: { y: 1 }, Aa: { y: 1 } } } })).toEqual({
      code: "not-an-object",
      path: "trait.shown.aa",
    });
    expect(problemOf({ alleles: "ABCDEFGHIJKLM".split("") })?.code).toBe("too-many-alleles");
    expect(parseLocus(null)).toEqual({ ok: false, error: { code: "not-an-object", path: "$" } });
  });

  describe("laws", () => {
    test("[GE-24] every shipped locus is sound: frequencies and expressions sum to 1, lengths fit", () => {
      for (const locus of SHIPPED_LOCI) {
        const answer = inferGenotypes({ locus, members: [] });
        expect([locus.id, answer.issues]).toEqual([locus.id, []]);
        for (const f of [locus.founders.default, ...Object.values(locus.founders.breeds)]) {
          expect(f.value).toHaveLength(locus.alleles.length);
          expect(f.value.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
        }
        for (const t of locus.traits ?? [])
          for (const sex of ["XX", "XY"] as const) {
            expect(t.expression.value[sex]).toHaveLength(genotypesOf(locus, sex).length);
            for (const row of t.expression.value[sex]) expect(row.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
          }
      }
      expect(new Set(SHIPPED_LOCI.map((l) => l.id)).size).toBe(SHIPPED_LOCI.length);
    });

    test("[GE-24] the chances of all phenotypes sum to 1, and so do their likelihoods for each genotype", () => {
      for (const locus of SHIPPED_LOCI)
        for (const t of locus.traits ?? []) {
          const answer = inferGenotypes({ locus, members: [aMember("a")] });
          expect(phenotypeChances(t, answer.belief(animalId("a")).bySex).reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
          genotypesOf(locus).forEach((_, g) => {
            const sum = t.phenotypes.reduce((s, p) => s + (seen(locus, t.id, p, 0.07).likelihood.XX[g] ?? 0), 0);
            expect(sum).toBeCloseTo(1, 12);
          });
        }
    });

    test("[GE-25] no JSON crashes the reader of loci", () => {
      fc.assert(
        fc.property(fc.jsonValue(), fc.jsonValue(), (a, b) => {
          expect(typeof parseLocus(a).ok).toBe("boolean");
          expect(
            typeof parseLocus({ id: "x", name: "x", alleles: a, inheritance: "autosomal", frequencies: b }).ok,
          ).toBe("boolean");
        }),
      );
    });
  });

  describe("published", () => {
    test("[GE-24] casein sums by genotype, g/l, from the amounts per copy of [dst2010-casein]", () => {
      const want: Readonly<Record<string, number>> = {
        AA: 7,
        AE: 4.6,
        AF: 3.95,
        AO: 3.5,
        EE: 2.2,
        EF: 1.55,
        EO: 1.1,
        FF: 0.9,
        FO: 0.45,
        OO: 0,
      };
      const amount = ALPHA_S1_CASEIN.amounts?.[0];
      if (!amount) throw new Error("no amount");
      const sums = amountsOf(ALPHA_S1_CASEIN, amount);
      for (const [genotype, grams] of Object.entries(want))
        expect(sums[genotypesOf(ALPHA_S1_CASEIN).indexOf(genotype)]).toBeCloseTo(grams, 12);
      const half = genotypesOf(ALPHA_S1_CASEIN).map((g) => (g === "AA" || g === "OO" ? 0.5 : 0));
      expect(expectedAmount(ALPHA_S1_CASEIN, amount, half)).toBeCloseTo(3.5, 12);
    });

    test("[GE-24] US Nubians and MPS IIID: 74.2 % clear, 23.9 % carriers, 1.9 % affected [mps-policy2016]", () => {
      const answer = inferGenotypes({ locus: MPS_IIID, members: [aMember("a", { breed: "Nubian" })] });
      const [clear = 0, carrier = 0, affected = 0] = answer.belief(animalId("a")).genotypes;
      // Printed to a tenth of a percent.
      expect(Math.abs(clear - 0.742)).toBeLessThan(0.0006);
      expect(Math.abs(carrier - 0.239)).toBeLessThan(0.0006);
      expect(Math.abs(affected - 0.019)).toBeLessThan(0.0006);
    });

    // Printed to a tenth of a percent; Savanna's interval goes from 30.8 to 89.9, and chance meetings reach 50 at most.
    test.each([
      ["NS", "all", 0.22, PRNP_146, 0.0005],
      ["NS", "Boer", 0.367, PRNP_146, 0.0005],
      ["NS", "Nubian", 0.363, PRNP_146, 0.0005],
      ["NS", "LaMancha", 0.356, PRNP_146, 0.0005],
      ["NS", "Savanna", 0.655, PRNP_146, 0.655 - 0.308],
      ["QK", "all", 0.006, PRNP_222, 0.0005],
      ["QK", "Oberhasli", 0.231, PRNP_222, 0.0005],
      ["QK", "Toggenburg", 0.22, PRNP_222, 0.0005],
    ] as const)(
      "[GE-24] codons of scrapie, %s in %s goats of the USA: %d [zeineldin2021]",
      (genotype, breed, printed, locus, slack) => {
        const { genotypes } = inferGenotypes({ locus, members: [aMember("a", { breed })] }).belief(animalId("a"));
        const share = genotypes[genotypesOf(locus).indexOf(genotype)] ?? Number.NaN;
        expect(Math.abs(share - printed)).toBeLessThan(slack);
      },
    );
  });
});

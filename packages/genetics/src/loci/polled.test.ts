import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { breedKey, founderFrequencies, genotypesOf } from "../locus.ts";
import { inferGenotypes } from "../genotypes/infer-genotypes.ts";
import type { Evidence, Member } from "../pedigree/pedigree-problem.ts";
import { aLocus, aMember } from "../testing.ts";
import { animalId, POLLED_GENOTYPES, type PolledGenotype } from "../vocabulary.ts";
import { dnaTestLikelihood } from "./dna-test.ts";
import { POLLED } from "./polled.ts";
import {
  FERTILE_DAM,
  FERTILE_SIRE,
  grownHeadLikelihood,
  knobsLikelihood,
  NO_POLLED_EVIDENCE,
  type SexLook,
  sexLookLikelihood,
} from "./polled-evidence.ts";
import { carrierHerdYear, polledOutcome } from "./polled-herd.ts";
import { kidOfIndependent } from "./segregation.ts";

const fact = (name: string, likelihood: Evidence["likelihood"]): Evidence => ({ fact: name, likelihood });
const certain = (genotype: PolledGenotype) => POLLED_GENOTYPES.map((g) => (g === genotype ? 1 : 0));
const answer = (...members: readonly Member[]) => inferGenotypes({ locus: POLLED, members });
const tested = (alleles: readonly string[]): Evidence["likelihood"] => {
  const result = dnaTestLikelihood(POLLED, alleles);
  if (!result.ok) throw new Error(result.error.code);
  return result.value;
};

describe("the polled locus", () => {
  test("[GE-6] genotypes are written as breeders write them, in a fixed order", () => {
    expect(genotypesOf(POLLED)).toEqual([...POLLED_GENOTYPES]);
    expect(genotypesOf(aLocus(["A", "B1"]))).toEqual(["A/A", "A/B1", "B1/B1"]);
    expect(genotypesOf(aLocus(["X", "x"], "x-linked"))).toEqual(["XX", "Xx", "xx", "X/Y", "x/Y"]);
  });

  test("[GE-7] a breed's own frequencies, however it is spelt; an unknown breed takes the default", () => {
    const q = (breed?: string) => founderFrequencies(POLLED.founders, breed).value[1];
    expect(q("  SAANEN ")).toBe(0.775);
    expect(q("Alpine Chamoisée")).toBe(q("alpine chamoisee"));
    expect(q("Moonshadow")).toBe(q(undefined));
    expect(q("constructor")).toBe(q(undefined));
  });

  test("[GE-12] a polled doe that has kidded carries horns", () => {
    const doe = aMember("doe", {
      xx: 1,
      evidence: [fact("head", grownHeadLikelihood("polled")), fact("kidded", FERTILE_DAM)],
    });
    const { genotypes } = answer(doe).belief(animalId("doe"));
    expect(genotypes[0]).toBe(0);
    expect(genotypes[1]).toBeGreaterThan(0.98);
  });

  test("[GE-12] a PP buck that has sired kids is believed half as much as before", () => {
    const odds = (...evidence: readonly Evidence[]) => {
      const [PP = 0, Pp = 0] = answer(aMember("b", { xx: 0, evidence })).belief(animalId("b")).genotypes;
      return PP / Pp;
    };
    expect(odds(fact("sired", FERTILE_SIRE)) / odds()).toBeCloseTo(0.5, 12);
  });

  test("[GE-11] a polled kid of two polled parents that looks like a doe is not cleared", () => {
    const parent = (id: string, xx: number) => aMember(id, { xx, founderPrior: [0, 1, 0] });
    const kid = aMember("kid", {
      dam: "dam",
      sire: "sire",
      evidence: [fact("head", grownHeadLikelihood("polled")), fact("look", sexLookLikelihood("doe"))],
    });
    const { bySex } = answer(parent("dam", 1), parent("sire", 0), kid).belief(animalId("kid"));
    const reversed = bySex.XX[0] ?? 0;
    // Of doe-like polled XX kids: 1/3 PP, of which half x 7/13 look like does; 2/3 Pp.
    const byHand = ((1 / 3) * 0.5 * (7 / 13)) / ((1 / 3) * 0.5 * (7 / 13) + (2 / 3) * 0.995);
    expect(reversed / (reversed + (bySex.XX[1] ?? 0))).toBeCloseTo(byHand, 12);
    expect(reversed).toBeGreaterThan(0.1);
  });

  test("[GE-11] signs of both sexes on a polled kid of polled parents: sex-reversed, not a rare accident", () => {
    const parent = (id: string) => aMember(id, { founderPrior: [0, 1, 0] });
    const kid = aMember("kid", { dam: "dam", sire: "sire", evidence: [fact("look", sexLookLikelihood("intersex"))] });
    const { bySex } = answer(parent("dam"), parent("sire"), kid).belief(animalId("kid"));
    expect(bySex.XX[0]).toBeGreaterThan(0.95);
  });

  test("[GE-13] scurs on a natural head mean Pp; on a disbudded one, or on a young one, nothing", () => {
    const [PP = 0, Pp = 1] = knobsLikelihood({ shape: "unsure", scurs: "seen", ageDays: 120, head: "natural" }).XX;
    expect(PP / Pp).toBeLessThan(0.05);
    for (const seen of [
      { shape: "rounded-apart", scurs: "seen", ageDays: 120, head: "disbudded" },
      { shape: "rounded-apart", scurs: "none", ageDays: 200, head: "disbudded" },
      { shape: "beans-in-v", scurs: "seen", ageDays: 40, head: "natural" },
      { shape: "unsure", scurs: "unsure", ageDays: 200, head: "natural" },
    ] as const)
      expect(knobsLikelihood(seen)).toEqual(NO_POLLED_EVIDENCE);
  });

  test("[GE-8] a DNA result is believed nearly wholly; an allele the locus does not have is a problem", () => {
    const { genotypes } = answer(aMember("b", { evidence: [fact("lab", tested(["p", "P"]))] })).belief(animalId("b"));
    expect(genotypes[1]).toBeGreaterThan(0.98);
    expect(dnaTestLikelihood(POLLED, ["P", "q"])).toEqual({
      ok: false,
      error: { code: "unknown-allele", got: "q", allowed: ["P", "p"] },
    });
    expect(dnaTestLikelihood(POLLED, []).ok).toBe(false);
    const xLinked = aLocus(["X", "x"], "x-linked");
    expect(dnaTestLikelihood(xLinked, ["x"], 0.1)).toEqual({
      ok: true,
      value: { XX: [0.05, 0.05, 0.9], XY: [0.1, 0.9] },
    });
  });

  describe("laws", () => {
    test("[GE-11] every look at birth has some chance, and the chances of all looks sum to 1", () => {
      const looks: readonly SexLook[] = ["doe", "buck", "intersex"];
      for (const sex of ["XX", "XY"] as const)
        for (let g = 0; g < 3; g++)
          expect(looks.reduce((s, look) => s + (sexLookLikelihood(look)[sex][g] ?? 0), 0)).toBeCloseTo(1, 12);
    });

    test("[GE-8] the chances of all results of a test sum to 1, whatever the locus and the genotype", () => {
      fc.assert(
        fc.property(
          fc.constantFrom(POLLED, aLocus(["A", "B", "C"])),
          fc.double({ min: 0, max: 1, noNaN: true }),
          (locus, error) => {
            const rows = genotypesOf(locus).map((g) => dnaTestLikelihood(locus, g.split(""), error));
            genotypesOf(locus).forEach((_, g) => {
              const total = rows.reduce((s, r) => s + (r.ok ? (r.value.XX[g] ?? 0) : Number.NaN), 0);
              expect(total).toBeCloseTo(1, 9);
            });
          },
        ),
      );
    });

    test("[GE-6] which parent is which makes no difference to a kid away from the sex chromosomes", () => {
      const anyBelief = fc
        .tuple(fc.nat(99), fc.nat(99), fc.integer({ min: 1, max: 99 }))
        .map((w) => w.map((x) => x / 297));
      fc.assert(
        fc.property(anyBelief, anyBelief, (a, b) => {
          kidOfIndependent(POLLED, a, b).forEach((p, g) => {
            expect(p).toBeCloseTo(kidOfIndependent(POLLED, b, a)[g] ?? Number.NaN, 12);
          });
        }),
      );
    });

    test("[GE-7] a breed's key is its own key", () => {
      fc.assert(
        fc.property(fc.string(), (s) => {
          expect(breedKey(breedKey(s))).toBe(breedKey(s));
        }),
      );
    });
  });

  describe("published", () => {
    // facts of the mating table: horned, Pp, PP, sex-reversed share of all kids [hancock-louca1975 with Mendel, derived].
    const TABLE = [
      ["pp", "pp", 1, 0, 0, 0],
      ["Pp", "pp", 1 / 2, 1 / 2, 0, 0],
      ["PP", "pp", 0, 1, 0, 0],
      ["Pp", "Pp", 1 / 4, 1 / 2, 1 / 4, 1 / 8],
      ["PP", "Pp", 0, 1 / 2, 1 / 2, 1 / 4],
    ] as const;
    test.each(TABLE)("[GE-6] %s buck on %s doe: horned %d, Pp %d, PP %d, sex-reversed %d", (sire, dam, ...want) => {
      const herd = answer(
        aMember("s", { xx: 0, founderPrior: certain(sire) }),
        aMember("d", { xx: 1, founderPrior: certain(dam) }),
      );
      for (const kid of [
        herd.kid(animalId("s"), animalId("d")),
        kidOfIndependent(POLLED, certain(sire), certain(dam)),
      ]) {
        const { horned, Pp, PP, sexReversed } = polledOutcome(kid);
        expect([horned, Pp, PP, sexReversed]).toEqual(want);
      }
    });

    test("[GE-10] 66 polled kids and no horned one: the buck is PP (Saanen buck of [eaton1945])", () => {
      const kids = Array.from({ length: 66 }, (_, i) =>
        aMember(`k${i}`, { sire: "buck", evidence: [fact(`h${i}`, grownHeadLikelihood("polled"))] }),
      );
      const buck = aMember("buck", { xx: 0, evidence: [fact("head", grownHeadLikelihood("polled"))] });
      const [PP = 0, Pp = 0] = answer(buck, ...kids).belief(animalId("buck")).genotypes;
      expect(PP / Pp).toBeGreaterThan(1e6);
      const oneHorned = aMember("k", { sire: "buck", evidence: [fact("h", grownHeadLikelihood("horned"))] });
      const few = answer(buck, ...kids.slice(0, 3), oneHorned).belief(animalId("buck")).genotypes;
      expect(few[1]).toBeGreaterThan(0.97);
    });

    test("[GE-14] a herd on Pp bucks settles at 2 - √2 Pp does and 7.3 % intersex kids; PP bucks on them give 14.6 %", () => {
      // [kondo]: "will approach 7.3 %" with heterozygous sires, "14.6 %" with homozygous ones, at most 25 %.
      let does = 0.1;
      for (let year = 0; year < 60; year++) does = carrierHerdYear(does, "Pp").carrierDaughters;
      expect(does).toBeCloseTo(2 - Math.SQRT2, 12);
      expect(carrierHerdYear(does, "Pp").kids.sexReversed).toBeCloseTo(0.073, 3);
      expect(carrierHerdYear(does, "PP").kids.sexReversed).toBeCloseTo(0.146, 3);
      expect(carrierHerdYear(1, "PP").kids.sexReversed).toBeCloseTo(0.25, 12);
    });
  });
});

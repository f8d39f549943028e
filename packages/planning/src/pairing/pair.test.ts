import { probability } from "@pollard/base";
import {
  animalId,
  type Evidence,
  FERTILE_DAM,
  FERTILE_SIRE,
  grownHeadLikelihood,
  inferGenotypes,
  kidOfIndependent,
  type Member,
  POLLED,
  POLLED_GENOTYPES,
  type PolledGenotype,
} from "@pollard/genetics";
import { aMember } from "@pollard/genetics/testing";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { kidCounts, kidsOf, pairOutlook } from "./pair.ts";

const id = animalId;
const infer = (...members: readonly Member[]) => inferGenotypes({ locus: POLLED, members });
const fact = (name: string, likelihood: Evidence["likelihood"]): Evidence => ({ fact: name, likelihood });
const head = (name: string, grew: "polled" | "horned") => fact(name, grownHeadLikelihood(grew));
const known = (name: string, genotype: PolledGenotype, xx: number) =>
  aMember(name, { xx, founderPrior: POLLED_GENOTYPES.map((g) => (g === genotype ? 1 : 0)) });

describe("pairOutlook", () => {
  test("[PA-1] a carrier buck on a horned doe: half the kids horned, next to none intersex", () => {
    const { kids, bothPolled, fertile } = pairOutlook(
      infer(known("s", "Pp", 0), known("d", "pp", 1)),
      id("s"),
      id("d"),
    );
    expect(kids.horned).toBeCloseTo(0.5, 12);
    expect(kids.intersex).toBeCloseTo(0.003, 12);
    expect(bothPolled).toBe(0);
    expect(fertile).toBe(1);
  });

  test("[PA-1] two carriers: a quarter horned, an eighth sex-reversed, a PP buck in sixteen barren", () => {
    const { kids, bothPolled } = pairOutlook(infer(known("s", "Pp", 0), known("d", "Pp", 1)), id("s"), id("d"));
    expect(kids.horned).toBeCloseTo(0.25, 12);
    expect(kids.intersex).toBeCloseTo(1 / 8 + (7 / 8) * 0.003, 12);
    expect(kids.infertile).toBeCloseTo(1 / 8 + (7 / 8) * 0.003 + (1 / 16) * 0.997, 12);
    expect(bothPolled).toBe(1);
  });

  test("[PA-1] a polled doe that may be PP gives kids only if she is not", () => {
    const herd = infer(
      known("s", "pp", 0),
      aMember("d", { xx: 1, founderPrior: [0.5, 0.5, 0], evidence: [head("h", "polled")] }),
    );
    const { fertile, matings } = pairOutlook(herd, id("s"), id("d"));
    expect(fertile).toBeCloseTo(0.5, 12);
    expect(matings.map(({ dam }) => dam)).toEqual(["Pp"]);
  });

  test("[PA-1] a buck not bought yet is weighed by what is believed of him", () => {
    const herd = infer(known("d", "pp", 1));
    const maybe = { PP: probability(0.5), Pp: probability(0.5), pp: probability(0) };
    expect(pairOutlook(herd, maybe, id("d"), 1).kids.horned).toBeCloseTo(0.25, 12);
    // Half of the PP bucks could have no kids, so of bucks with kids two in three are Pp.
    expect(pairOutlook(herd, maybe, id("d")).kids.horned).toBeCloseTo(1 / 3, 12);
  });

  test("[PA-2] PP or Pp is doubt, which kids come of a Pp is luck", () => {
    const herd = infer(known("d", "pp", 1));
    const maybe = { PP: probability(0.5), Pp: probability(0.5), pp: probability(0) };
    const { matings } = pairOutlook(herd, maybe, id("d"), 1);
    const two = kidCounts(matings, 2);
    expect(two.chances).toEqual([0.5 + 0.125, 0.25, 0.125]);
    expect(two.mean).toBeCloseTo(0.5, 12);
    expect(two.luck).toBeCloseTo(Math.sqrt(0.25), 12);
    expect(two.doubt).toBeCloseTo(0.5, 12);
    const sure = kidCounts(pairOutlook(infer(known("s", "Pp", 0), known("d", "pp", 1)), id("s"), id("d")).matings, 2);
    expect(sure.doubt).toBe(0);
  });

  describe("laws", () => {
    const seen = fc.constantFrom("polled" as const, "horned" as const, undefined);
    /** A buck, two does, a daughter of his, and kids that show: the daughter and her sire are entangled. */
    const herds = fc
      .tuple(seen, seen, seen, fc.array(seen, { maxLength: 3 }))
      .map(([s, d, daughter, kids]) =>
        infer(
          aMember("s", { xx: 0, evidence: s ? [head("hs", s)] : [] }),
          aMember("d", { xx: 1, evidence: d ? [head("hd", d)] : [] }),
          aMember("e", { xx: 1, dam: "d", sire: "s", evidence: daughter ? [head("he", daughter)] : [] }),
          ...kids.map((k, i) =>
            aMember(`k${i}`, { dam: i % 2 === 0 ? "d" : "e", sire: "s", evidence: k ? [head(`k${i}`, k)] : [] }),
          ),
        ),
      );

    test("[PA-1] the kids of a buck and his own daughter are those of the joint belief", () => {
      fc.assert(
        fc.property(herds, (herd) => {
          const outlook = pairOutlook(herd, id("s"), id("e"));
          const joint = herd.kid(id("s"), id("e"), { dam: FERTILE_DAM, sire: FERTILE_SIRE });
          for (const [g, of] of POLLED_GENOTYPES.entries())
            expect(of === "pp" ? outlook.kids.horned : outlook.kids[of]).toBeCloseTo(joint[g] ?? Number.NaN, 9);
        }),
        { numRuns: 40 },
      );
    });

    test("[PA-1] shares of horned, Pp and PP sum to 1, and nobody intersex can breed", () => {
      fc.assert(
        fc.property(herds, (herd) => {
          const { kids, matings } = pairOutlook(herd, id("s"), id("d"));
          expect(kids.horned + kids.Pp + kids.PP).toBeCloseTo(1, 9);
          expect(kids.infertile).toBeGreaterThanOrEqual(kids.intersex);
          expect(matings.reduce((sum, m) => sum + m.chance, 0)).toBeCloseTo(1, 9);
        }),
        { numRuns: 40 },
      );
    });

    test("[PA-2] luck and doubt make up the whole spread, and the counts are those of every litter in turn", () => {
      fc.assert(
        fc.property(herds, fc.integer({ min: 0, max: 5 }), (herd, kids) => {
          const { matings } = pairOutlook(herd, id("s"), id("e"));
          const { chances, mean, luck, doubt } = kidCounts(matings, kids);
          const slow = Array.from({ length: kids + 1 }, () => 0);
          for (let litter = 0; litter < 2 ** kids; litter++) {
            const horned = Array.from({ length: kids }, (_, k) => (litter >> k) & 1).reduce((a, b) => a + b, 0);
            for (const m of matings)
              slow[horned] =
                (slow[horned] ?? 0) + m.chance * m.kids.horned ** horned * (1 - m.kids.horned) ** (kids - horned);
          }
          chances.forEach((c, k) => expect(c).toBeCloseTo(slow[k] ?? Number.NaN, 9));
          const variance = chances.reduce((sum, c, k) => sum + c * (k - mean) ** 2, 0);
          expect(luck ** 2 + doubt ** 2).toBeCloseTo(variance, 9);
        }),
        { numRuns: 40 },
      );
    });
  });

  describe("published", () => {
    test.each([
      ["pp", "pp", 1, 0],
      ["Pp", "pp", 1 / 2, 0],
      ["PP", "pp", 0, 0],
      ["Pp", "Pp", 1 / 4, 1 / 8],
      ["PP", "Pp", 0, 1 / 4],
    ] as const)("[PA-1] %s on %s as in the mating table of [hancock-louca1975]", (sire, dam, horned, reversed) => {
      const kids = kidsOf(sire, dam);
      expect(kids.horned).toBe(horned);
      expect(kids.intersex - (1 - reversed) * 0.003).toBeCloseTo(reversed, 12);
      const row = kidOfIndependent(POLLED, certain(sire), certain(dam));
      expect([kids.PP, kids.Pp, kids.horned]).toEqual(row);
    });
  });
});

const certain = (genotype: PolledGenotype) => POLLED_GENOTYPES.map((g) => (g === genotype ? 1 : 0));

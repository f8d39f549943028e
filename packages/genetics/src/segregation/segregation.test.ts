import fc from "fast-check";
import { describe, expect, test } from "vitest";
import binomial from "../../published/statistics/binomial_exact.json";
import carriers from "../../published/statistics/published_bayes_carrier.json";
import lods from "../../published/statistics/published_lod.json";
import progeny from "../../published/statistics/published_progeny_test.json";
import { POLLED } from "../loci/polled.ts";
import { inferGenotypes } from "../genotypes/infer-genotypes.ts";
import { aFact, aMember } from "../testing.ts";
import { animalId } from "../vocabulary.ts";
import {
  binomialAtLeast,
  binomialAtMost,
  binomialChance,
  binomialTest,
  countInterval,
  logFactorial,
  shareInterval,
} from "./binomial.ts";
import { bestLodPhaseKnown, bestLodPhaseUnknown, lodPhaseKnown, lodPhaseUnknown } from "./linkage.ts";
import { homozygousAfter, kidsToCatch, missedIfCarrier } from "./progeny-test.ts";

/** Printed to 13 digits, from 40-digit arithmetic. */
const PRINTED = 10;

describe("counting kids", () => {
  test("[GE-27] ten kids of a carrier and horned does: three to seven polled ones are no surprise, one is", () => {
    expect(countInterval(10, 0.5)).toEqual({ low: 2, high: 8 });
    expect(binomialTest(5, 10, 0.5)).toBeCloseTo(1, 12);
    expect(binomialTest(1, 10, 0.5)).toBeCloseTo(22 / 1024, 12);
  });

  test("[GE-27] without kids nothing is ruled out and nothing is strange", () => {
    expect(shareInterval(0, 0)).toEqual({ low: 0, high: 1 });
    expect(binomialTest(0, 0, 0.3)).toBe(1);
    expect(countInterval(0, 0.3)).toEqual({ low: 0, high: 0 });
  });

  test("[GE-29] linkage without kids says nothing", () => {
    expect(bestLodPhaseKnown(0, 0)).toEqual({ theta: 0.5, lod: 0 });
    expect(lodPhaseUnknown(0, 0, 0.2)).toBeCloseTo(0, 12);
    expect(lodPhaseKnown(5, 1, 0)).toBe(Number.NEGATIVE_INFINITY);
  });

  describe("laws", () => {
    const anyCount = fc
      .integer({ min: 1, max: 40 })
      .chain((n) => fc.tuple(fc.constant(n), fc.integer({ min: 0, max: n })));
    const anyShare = fc.double({ min: 0.001, max: 0.999, noNaN: true });

    test("[GE-27] chances of all counts sum to 1, tails meet, and mirror images agree", () => {
      fc.assert(
        fc.property(anyCount, anyShare, ([n, k], p) => {
          expect(binomialAtMost(n, n, p)).toBeCloseTo(1, 10);
          expect(binomialAtMost(k, n, p) + binomialAtLeast(k + 1, n, p)).toBeCloseTo(1, 10);
          expect(binomialChance(k, n, p)).toBeCloseTo(binomialChance(n - k, n, 1 - p), 10);
        }),
      );
    });

    test("[GE-27] a factorial is the product of the numbers up to it", () => {
      let log = 0;
      for (let n = 1; n <= 300; n++) {
        log += Math.log(n);
        expect(Math.abs(logFactorial(n) - log)).toBeLessThan(1e-11 * Math.max(1, log));
      }
    });

    test("[GE-27] the interval's ends are where the tails have the size asked for", () => {
      fc.assert(
        fc.property(anyCount, ([n, k]) => {
          const { low, high } = shareInterval(k, n);
          if (k > 0) expect(binomialAtLeast(k, n, low)).toBeCloseTo(0.025, 9);
          if (k < n) expect(binomialAtMost(k, n, high)).toBeCloseTo(0.025, 9);
          expect(low).toBeLessThanOrEqual(k / n);
          expect(high).toBeGreaterThanOrEqual(k / n);
        }),
      );
    });

    test("[GE-27] counts inside the interval of counts leave at most the tails outside", () => {
      fc.assert(
        fc.property(anyCount, anyShare, ([n], p) => {
          const { low, high } = countInterval(n, p);
          expect(binomialAtMost(low - 1, n, p)).toBeLessThanOrEqual(0.025 + 1e-12);
          expect(binomialAtMost(low, n, p)).toBeGreaterThan(0.025 - 1e-12);
          expect(binomialAtLeast(high + 1, n, p)).toBeLessThanOrEqual(0.025 + 1e-12);
        }),
      );
    });

    test("[GE-28] it is what the pedigree says of a buck of such parents and such kids", () => {
      fc.assert(
        fc.property(fc.integer({ min: 0, max: 4 }), fc.integer({ min: 0, max: 4 }), (recessive, carrier) => {
          const polled = [1, 1, 0];
          const mate = (kind: string, prior: readonly number[], count: number) => [
            aMember(kind, { founderPrior: prior }),
            ...Array.from({ length: count }, (_, i) =>
              aMember(`${kind}${i}`, { dam: kind, sire: "buck", evidence: [aFact(`${kind}${i}`, polled)] }),
            ),
          ];
          const answer = inferGenotypes({
            locus: POLLED,
            members: [
              aMember("buck", { founderPrior: [0.4, 0.6, 0] }),
              ...mate("horned", [0, 0, 1], recessive),
              ...mate("carrier", [0, 1, 0], carrier),
            ],
          });
          const want = homozygousAfter(0.4, [
            { kids: recessive, chanceIfCarrier: 1 / 2 },
            { kids: carrier, chanceIfCarrier: 3 / 4 },
          ]);
          expect(answer.belief(animalId("buck")).genotypes[0]).toBeCloseTo(want, 12);
        }),
        { numRuns: 20 },
      );
    });

    test("[GE-29] no other fraction has a higher lod than the best", () => {
      fc.assert(
        fc.property(anyCount, fc.double({ min: 0, max: 0.5, noNaN: true }), ([n, k], theta) => {
          expect(bestLodPhaseKnown(n, k).lod).toBeGreaterThanOrEqual(lodPhaseKnown(n, k, theta) - 1e-9);
          expect(bestLodPhaseUnknown(k, n - k).lod).toBeGreaterThanOrEqual(lodPhaseUnknown(k, n - k, theta) - 1e-6);
        }),
      );
    });
  });

  describe("published", () => {
    test("[GE-27] intervals of shares, as R, mpmath and scipy have them", () => {
      for (const [
        hits = 0,
        trials = 0,
        confidence = 0,
        low = 0,
        high = 0,
      ] of binomial.clopperPearson_x_n_conf_lower_upper) {
        const got = shareInterval(hits, trials, confidence);
        expect(got.low).toBeCloseTo(low, PRINTED);
        expect(got.high).toBeCloseTo(high, PRINTED);
      }
      const { low, high } = shareInterval(5, 25); // printed by influentialpoints.com: 0.068 to 0.407
      expect([low.toFixed(3), high.toFixed(3)]).toEqual(["0.068", "0.407"]);
    });

    test("[GE-27] how strange a count is, as R, mpmath and scipy have it", () => {
      for (const [hits, trials, p, side, want] of binomial.pvalues_x_n_p0_alternative_p) {
        const args = [Number(hits), Number(trials), Number(p)] as const;
        const got =
          side === "two.sided"
            ? binomialTest(...args)
            : side === "less"
              ? binomialAtMost(...args)
              : binomialAtLeast(...args);
        expect(got).toBeCloseTo(Number(want), PRINTED);
      }
    });

    test.each(progeny.rows)("[GE-28] $mates", (row) => {
      const chance = fraction(row.P_dominant_kid_if_sire_carrier);
      for (const [kids, caught] of Object.entries(row["detection_1_minus_pk^n"]))
        expect(1 - missedIfCarrier([{ kids: Number(kids), chanceIfCarrier: chance }])).toBeCloseTo(caught, PRINTED);
      for (const [sureness, kids] of Object.entries(row.smallest_n_for_detection))
        expect(kidsToCatch(chance, Number(sureness))).toBe(kids);
      const priors = [
        [1 / 3, row.posterior_PP_prior_1_3],
        [1 / 2, row.posterior_PP_prior_1_2],
      ] as const;
      for (const [prior, after] of priors)
        for (const [kids, want] of Object.entries(after))
          expect(homozygousAfter(prior, [{ kids: Number(kids), chanceIfCarrier: chance }])).toBeCloseTo(want, PRINTED);
    });

    test("[GE-28] two recessive dams and three carrier dams, five dominant kids: 27 in 256 if he carries", () => {
      const all = [
        { kids: 2, chanceIfCarrier: 1 / 2 },
        { kids: 3, chanceIfCarrier: 3 / 4 },
      ];
      expect(missedIfCarrier(all)).toBe(progeny.mixedExample.value);
    });

    test("[GE-28] the sound sib of an affected one, with n sound kids by an affected mate: 2 in 2 + 2^n carries", () => {
      const sibs = carriers.rows.filter((r) => r.n !== undefined);
      expect(sibs.length).toBeGreaterThan(5);
      for (const { n = 0, value } of sibs) {
        // Carrier or clear, clear with one third: the question is turned round.
        expect(1 - homozygousAfter(1 / 3, [{ kids: n, chanceIfCarrier: 1 / 2 }])).toBeCloseTo(value ?? Number.NaN, 12);
      }
    });

    test("[GE-1] a sound stranger from a population with q = 1/4, and the kid of a known carrier (Thompson)", () => {
      const row = carriers.rows.find((r) => r.id === "hwe_spouse");
      const answer = inferGenotypes({
        locus: POLLED,
        frequencies: { default: [0.75, 0.25] },
        members: [
          aMember("spouse", { evidence: [aFact("sound", [1, 1, 0])] }),
          aMember("carrier", { founderPrior: [0, 1, 0] }),
          aMember("other", { evidence: [aFact("sound too", [1, 1, 0])] }),
        ],
      });
      const [spouse, carrier, other] = ["spouse", "carrier", "other"].map(animalId);
      expect(answer.belief(animalId("spouse")).genotypes[0]).toBeCloseTo(row?.P_NN_given_normal ?? Number.NaN, 12);
      const { NN, ND, DD } = row?.child_with_known_carrier ?? { NN: 0, ND: 0, DD: 0 };
      answer.kid(spouse, carrier).forEach((p, g) => expect(p).toBeCloseTo([NN, ND, DD][g] ?? Number.NaN, 12));
      const both = row?.child_both_unknown_normal ?? { NN: 0, ND: 0, DD: 0 };
      answer
        .kid(spouse, other)
        .forEach((p, g) => expect(p).toBeCloseTo([both.NN, both.ND, both.DD][g] ?? Number.NaN, 12));
    });

    test.each(lods.phaseKnown)("[GE-29] phase known: $n kids, $r recombinants", (row) => {
      row.thetas.forEach((theta, k) =>
        expect(lodPhaseKnown(row.n, row.r, theta)).toBeCloseTo(row.lod[k] ?? Number.NaN, 9),
      );
      if (row.maxTheta !== undefined) expect(bestLodPhaseKnown(row.n, row.r).theta).toBeCloseTo(row.maxTheta, 12);
    });

    test.each(lods.phaseUnknown)("[GE-29] phase unknown: $a and $b", (row) => {
      row.thetas.forEach((theta, k) => {
        expect(lodPhaseUnknown(row.a, row.b, theta)).toBeCloseTo(row.lod[k] ?? Number.NaN, 9);
        // Another program, printed to six decimals and good to 2e-6.
        expect(Math.abs(lodPhaseUnknown(row.a, row.b, theta) - (row.fastlink_mlink[k] ?? Number.NaN))).toBeLessThan(
          3e-6,
        );
      });
    });
  });
});

/** "3/4", as a number. */
function fraction(text: string): number {
  const [over = Number.NaN, under = 1] = text.split("/").map(Number);
  return over / under;
}

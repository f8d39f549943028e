import fc from "fast-check";
import { describe, expect, test } from "vitest";
import published from "../../published/binomial-exact.json" with { type: "json" };
import { binomialChances, binomialP, exactInterval, hitChances, type Tail, tailOf } from "./exact-binomial.ts";

const TAILS: Readonly<Record<string, Tail>> = { "two.sided": "two-sided", less: "less", greater: "greater" };

describe("exact tests", () => {
  test("[PA-14] ten of ten horned where half were expected: once in 512", () => {
    expect(binomialP(10, 10, 0.5, "two-sided")).toBeCloseTo(2 / 1024, 12);
    expect(binomialP(5, 10, 0.5, "two-sided")).toBeCloseTo(1, 12);
  });

  test("[PA-14] a count that is not among the outcomes is our own mistake", () => {
    expect(() => tailOf([0.5, 0.5], 2, "less")).toThrow("tailOf");
    expect(() => binomialChances(3, 1.5)).toThrow("binomial");
  });

  describe("laws", () => {
    test("[PA-14] kids with a chance each: the same as going through every litter", () => {
      fc.assert(
        fc.property(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 8 }), (each) => {
          const slow = Array.from({ length: each.length + 1 }, () => 0);
          for (let bits = 0; bits < 2 ** each.length; bits++) {
            let [chance, hits] = [1, 0];
            each.forEach((p, i) => {
              const hit = (bits >> i) & 1;
              chance *= hit ? p : 1 - p;
              hits += hit;
            });
            slow[hits] = (slow[hits] ?? 0) + chance;
          }
          hitChances(each).forEach((c, k) => expect(c).toBeCloseTo(slow[k] ?? Number.NaN, 12));
        }),
      );
    });

    test("[PA-14] equal chances are the binomial, also for thousands", () => {
      fc.assert(
        fc.property(fc.integer({ min: 0, max: 30 }), fc.double({ min: 0, max: 1, noNaN: true }), (n, p) => {
          const same = hitChances(Array.from({ length: n }, () => p));
          binomialChances(n, p).forEach((c, k) => expect(c).toBeCloseTo(same[k] ?? Number.NaN, 9));
        }),
      );
      expect(binomialChances(5000, 0.3).reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9);
    });

    test("[PA-14] an interval of nine in ten holds the truth at least nine times in ten", () => {
      for (const p of [0.02, 0.3, 0.5, 0.9]) {
        const n = 15;
        const held = binomialChances(n, p).reduce((sum, chance, x) => {
          const { low, high } = exactInterval(x, n, 0.9);
          return sum + (low <= p && p <= high ? chance : 0);
        }, 0);
        expect(held).toBeGreaterThanOrEqual(0.9);
      }
    });
  });

  describe("published", () => {
    test("[PA-14] every printed p value", () => {
      for (const [x, n, p0, alternative, p] of published.pvalues_x_n_p0_alternative_p) {
        const tail = TAILS[String(alternative)];
        if (tail === undefined) throw new Error(String(alternative));
        expect(binomialP(Number(x), Number(n), Number(p0), tail)).toBeCloseTo(Number(p), 9);
      }
      expect(published.pvalues_x_n_p0_alternative_p.length).toBeGreaterThan(20);
    });

    test("[PA-14] every printed interval", () => {
      for (const [x, n, confidence, low, high] of published.clopperPearson_x_n_conf_lower_upper) {
        const interval = exactInterval(Number(x), Number(n), Number(confidence));
        expect(interval.low).toBeCloseTo(Number(low), 9);
        expect(interval.high).toBeCloseTo(Number(high), 9);
      }
      expect(published.clopperPearson_x_n_conf_lower_upper.length).toBeGreaterThan(20);
    });
  });
});

import { binomialAtLeast, binomialAtMost, binomialTest } from "@pollard/genetics";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { binomialChances, hitChances, tailOf } from "./count-chances.ts";

describe("exact tests of counts", () => {
  test("[PA-14] ten of ten horned where half were expected: once in 512", () => {
    expect(tailOf(binomialChances(10, 0.5), 10, "two-sided")).toBeCloseTo(2 / 1024, 12);
    expect(tailOf(binomialChances(10, 0.5), 5, "two-sided")).toBeCloseTo(1, 12);
  });

  test("[PA-14] a count that is not among the outcomes is our own mistake", () => {
    expect(() => tailOf([0.5, 0.5], 2, "less")).toThrow("tailOf");
  });

  describe("laws", () => {
    const chance = fc.double({ min: 0, max: 1, noNaN: true });

    test("[PA-14] kids with a chance each: the same as going through every litter", () => {
      fc.assert(
        fc.property(fc.array(chance, { maxLength: 8 }), (each) => {
          const slow = Array.from({ length: each.length + 1 }, () => 0);
          for (let bits = 0; bits < 2 ** each.length; bits++) {
            let [weight, hits] = [1, 0];
            each.forEach((p, i) => {
              const hit = (bits >> i) & 1;
              weight *= hit ? p : 1 - p;
              hits += hit;
            });
            slow[hits] = (slow[hits] ?? 0) + weight;
          }
          hitChances(each).forEach((c, k) => expect(c).toBeCloseTo(slow[k] ?? Number.NaN, 12));
        }),
      );
    });

    test("[PA-14] equal chances: the binomial test, which reproduces R's values (genetics)", () => {
      fc.assert(
        fc.property(fc.integer({ min: 0, max: 30 }), chance, fc.nat(30), (n, p, at) => {
          const x = at % (n + 1);
          const each = hitChances(Array.from({ length: n }, () => p));
          expect(tailOf(each, x, "less")).toBeCloseTo(binomialAtMost(x, n, p), 9);
          expect(tailOf(each, x, "greater")).toBeCloseTo(binomialAtLeast(x, n, p), 9);
          expect(tailOf(binomialChances(n, p), x, "two-sided")).toBeCloseTo(binomialTest(x, n, p), 9);
        }),
      );
    });
  });
});

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { counted, countedOf, outOfHundred } from "./counted.ts";

const said = (chance: number) => {
  const c = counted(chance, "open");
  return `${c.sense} ${c.count} of ${c.of}`;
};

describe("counted", () => {
  test.each([
    [0.75, "about 3 of 4"],
    [0.5, "about 2 of 4"],
    [0.9, "about 9 of 10"],
    [0.85, "about 17 of 20"],
    [0.125, "about 13 of 100"],
    [0.985, "about 99 of 100"],
    [0.96, "about 19 of 20"],
    [0.002, "under-one 0 of 100"],
    [0.9999, "all-but-one 100 of 100"],
  ])("[AD-1] %d is said as: %s", (chance, words) => {
    expect(said(chance)).toBe(words);
  });

  test("[AD-1] all or none is said only of what is proven", () => {
    expect(counted(1, "proven")).toEqual({ of: 4, count: 4, sense: "proven" });
    expect(counted(1, "open").sense).toBe("all-but-one");
    expect(counted(0, "open").sense).toBe("under-one");
  });

  describe("laws", () => {
    const chance = fc.double({ min: 0, max: 1, noNaN: true });

    test("[AD-1] what is said is never more than 2 in 100 off", () => {
      fc.assert(
        fc.property(chance, (p) => {
          const c = counted(p, "open");
          expect(Math.abs(c.count / c.of - p)).toBeLessThanOrEqual(0.02 + 1e-12);
        }),
      );
    });

    test("[AD-1] both sides add up to the denominator, whichever is counted", () => {
      fc.assert(
        fc.property(chance, fc.constantFrom(4, 10, 20, 100), (p, of) => {
          const one = countedOf(p, of);
          const other = countedOf(1 - p, of);
          // Exact halves round up on both sides; everywhere else the two sides complete each other.
          expect(Math.abs(one.count + other.count - of)).toBeLessThanOrEqual(
            Math.abs(((p * of) % 1) - 0.5) < 1e-9 ? 1 : 0,
          );
        }),
      );
    });

    test("[AD-85] shares of a whole are counted out of 100 and sum to it, none a whole count off", () => {
      expect(outOfHundred([0.115, 0.885])).toEqual([12, 88]);
      expect(outOfHundred([1 / 3, 1 / 3, 1 / 3])).toEqual([34, 33, 33]);
      fc.assert(
        fc.property(fc.array(fc.nat(1000), { minLength: 1, maxLength: 8 }), (weights) => {
          const total = weights.reduce((a, b) => a + b, 0);
          fc.pre(total > 0);
          const counts = outOfHundred(weights.map((w) => w / total));
          expect(counts.reduce((a, b) => a + b, 0)).toBe(100);
          for (const [at, w] of weights.entries())
            expect(Math.abs((counts[at] ?? 0) - (100 * w) / total)).toBeLessThan(1);
        }),
      );
    });
  });
});

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fromLogOdds, logOdds, probability } from "./probability.ts";
import { seededRandom } from "./random.ts";

describe("probability", () => {
  test("[BA-3] what is no chance is our own mistake, and says so", () => {
    for (const x of [-0.01, 1.01, Number.NaN, Number.POSITIVE_INFINITY])
      expect(() => probability(x)).toThrow("not a probability");
    expect(probability(1 + 1e-12)).toBe(1);
  });

  test("[BA-3] log-odds there and back", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-9, max: 1 - 1e-9, noNaN: true }), (p) => {
        expect(fromLogOdds(logOdds(p))).toBeCloseTo(p, 12);
      }),
    );
  });
});

describe("seededRandom", () => {
  test("[BA-4] the same seed gives the same draws, another seed others", () => {
    const a = seededRandom(7);
    const b = seededRandom(7);
    const c = seededRandom(8);
    const first = [a.next(), a.next(), a.next()];
    expect([b.next(), b.next(), b.next()]).toEqual(first);
    expect([c.next(), c.next(), c.next()]).not.toEqual(first);
  });

  test("[BA-4] draws fill [0, 1) evenly: mean of 20,000 within 5 standard errors of 1/2", () => {
    const r = seededRandom(1);
    const n = 20_000;
    let sum = 0;
    for (let i = 0; i < n; i++) sum += r.next();
    expect(Math.abs(sum / n - 0.5)).toBeLessThan(5 * Math.sqrt(1 / 12 / n));
  });
});

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import published from "../../published/wilson.json" with { type: "json" };
import { type Call, calibration, scoreOf, wilson } from "./forecast-score.ts";

const call = (horns: number, grew: Call["grew"]): Call => ({ horns, grew });
const anyCall: fc.Arbitrary<Call> = fc.record({
  horns: fc.double({ min: 0, max: 1, noNaN: true }),
  grew: fc.constantFrom("horns", "polled"),
});

describe("scoreOf", () => {
  test("[HD-26] two kids called 0.8 and 0.3, both horned", () => {
    const score = scoreOf([call(0.8, "horns"), call(0.3, "horns")]);
    expect(score?.brier).toBeCloseTo((0.04 + 0.49) / 2, 12);
    expect(score?.logScore).toBeCloseTo(-(Math.log(0.8) + Math.log(0.3)) / 2, 12);
  });

  test("[HD-26] half and half always gets a quarter, perfect calls get nothing, no calls no score", () => {
    expect(scoreOf([call(0.5, "horns"), call(0.5, "polled")])?.brier).toBe(0.25);
    expect(scoreOf([call(1, "horns"), call(0, "polled")])).toEqual({ kids: 2, brier: 0, logScore: 0 });
    expect(scoreOf([])).toBeUndefined();
  });

  test("[HD-26] one wrong record cannot drown everything", () => {
    expect(scoreOf([call(0, "horns")])?.logScore).toBeCloseTo(Math.log(1000), 9);
  });

  describe("laws", () => {
    test("[HD-26] horns and polled are alike: turning every call round changes nothing", () => {
      fc.assert(
        fc.property(fc.array(anyCall, { minLength: 1 }), (calls) => {
          const turned = calls.map((c) => call(1 - c.horns, c.grew === "horns" ? "polled" : "horns"));
          expect(scoreOf(turned)?.brier).toBeCloseTo(scoreOf(calls)?.brier ?? Number.NaN, 9);
        }),
      );
    });

    test("[HD-26] honesty pays: of all fixed calls, the share that came true scores best", () => {
      fc.assert(
        fc.property(fc.integer({ min: 1, max: 19 }), fc.double({ min: 0.01, max: 0.99, noNaN: true }), (yes, other) => {
          const of = (p: number) =>
            scoreOf(Array.from({ length: 20 }, (_, i) => call(p, i < yes ? "horns" : "polled")));
          expect(of(yes / 20)?.brier).toBeLessThanOrEqual((of(other)?.brier ?? 0) + 1e-12);
          expect(of(yes / 20)?.logScore).toBeLessThanOrEqual((of(other)?.logScore ?? 0) + 1e-12);
        }),
      );
    });
  });
});

describe("calibration", () => {
  test("[HD-26] of the calls of about 9 in 10, how many came true", () => {
    const calls = [...Array.from({ length: 9 }, () => call(0.92, "horns")), call(0.92, "polled"), call(0.05, "polled")];
    const bins = calibration(calls);
    expect(bins.map(({ from, kids, horned }) => ({ from, kids, horned }))).toEqual([
      { from: 0, kids: 1, horned: 0 },
      { from: 0.9, kids: 10, horned: 9 },
    ]);
    expect(bins[1]?.meanCall).toBeCloseTo(0.92, 12);
  });

  describe("laws", () => {
    test("[HD-26] every call is in one bin, and each bin's interval holds its own share", () => {
      fc.assert(
        fc.property(fc.array(anyCall), (calls) => {
          const bins = calibration(calls);
          expect(bins.reduce((a, b) => a + b.kids, 0)).toBe(calls.length);
          for (const b of bins) {
            expect(b.low).toBeLessThanOrEqual(b.horned / b.kids + 1e-12);
            expect(b.high).toBeGreaterThanOrEqual(b.horned / b.kids - 1e-12);
          }
        }),
      );
    });
  });

  describe("published", () => {
    test.each(published.intervals)("[HD-26] newcombe1998: $yes of $n", ({ yes, n, low, high }) => {
      const got = wilson(yes, n, published.z);
      expect(got.low).toBeCloseTo(low, 4);
      expect(got.high).toBeCloseTo(high, 4);
    });
  });
});

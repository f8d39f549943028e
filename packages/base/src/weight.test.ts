import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { KG_A_POUND, keptKg, typedWeight, WEIGHT_UNITS, weightIn } from "./weight.ts";
import published from "../published/pounds.json" with { type: "json" };

describe("weights", () => {
  test("[BA-31] what is kept of a weight in pounds is kilograms to the gram, and it comes back as typed", () => {
    expect(keptKg(7.9, "lb")).toBe(3.583);
    expect(typedWeight(3.583, "lb")).toBe(7.9);
    expect([keptKg(3.45, "kg"), typedWeight(3.45, "kg")]).toEqual([3.45, 3.45]);
  });

  describe("laws", () => {
    test("[BA-31] every step of a hundredth up to the heaviest goat comes back, in both units", () => {
      const lost: string[] = [];
      for (const unit of WEIGHT_UNITS)
        for (let hundredths = 1; hundredths <= 56_000; hundredths++) {
          const typed = Number(`${Math.floor(hundredths / 100)}.${String(hundredths % 100).padStart(2, "0")}`);
          if (typedWeight(keptKg(typed, unit), unit) !== typed) lost.push(`${typed} ${unit}`);
        }
      expect(lost).toEqual([]);
    });

    test("[BA-30] heavier in one unit is heavier in the other, and nothing weighs more in kilograms than in pounds", () => {
      const weights = fc.double({ min: 0.1, max: 250, noNaN: true });
      fc.assert(
        fc.property(weights, weights, (a, b) => {
          expect(Math.sign(weightIn(a, "lb") - weightIn(b, "lb"))).toBe(Math.sign(a - b));
          expect(weightIn(a, "lb")).toBeGreaterThan(weightIn(a, "kg"));
        }),
      );
    });
  });

  describe("published", () => {
    test("[BA-30] the pound of the law, and a printed table of ten", () => {
      expect(KG_A_POUND).toBe(published.exactKgAPound);
      for (const [pounds = 0, kg] of published.kgOfPounds) expect(keptKg(pounds, "lb")).toBe(kg);
    });
  });
});

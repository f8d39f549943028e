import { keptKg, typedWeight, WEIGHT_UNITS } from "@pollard/base";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readWeight } from "./typed-weight.ts";

describe("a weight as it is typed", () => {
  test("[UI-202] the same figure is another weight in the other unit", () => {
    expect(readWeight({ text: "7,9", unit: "lb" })).toEqual({ state: "weight", kg: 3.583 });
    expect(readWeight({ text: "7.9", unit: "kg" })).toEqual({ state: "weight", kg: 7.9 });
  });

  test("[UI-202] heavier than any goat is told, by the unit in which it was typed; nought is no weight", () => {
    const stateOf = (text: string, unit: "kg" | "lb") => readWeight({ text, unit }).state;
    expect([stateOf("250", "kg"), stateOf("251", "kg"), stateOf("551", "lb"), stateOf("552", "lb")]).toEqual([
      "weight",
      "heavy",
      "weight",
      "heavy",
    ]);
    expect([stateOf("0", "lb"), stateOf("1,200", "lb"), stateOf("", "lb")]).toEqual(["unclear", "unclear", "empty"]);
  });

  describe("laws", () => {
    test("[UI-202] what is kept, shown again in the unit in which it was typed, is what was typed", () => {
      fc.assert(
        fc.property(fc.integer({ min: 1, max: 25_000 }), fc.constantFrom(...WEIGHT_UNITS), (hundredths, unit) => {
          const read = readWeight({ text: (hundredths / 100).toFixed(2), unit });
          // The slow way: the kilograms exactly, to the gram by hand.
          const exact = unit === "kg" ? hundredths * 10 : (hundredths * 453.59237) / 100;
          const kg = read.state === "weight" ? read.kg : 0;
          expect(Math.abs(kg * 1000 - exact)).toBeLessThanOrEqual(0.5000001);
          if (kg === 0) expect(keptKg(hundredths / 100, unit)).toBe(0);
          else expect(typedWeight(kg, unit)).toBe(hundredths / 100);
        }),
      );
    });
  });
});

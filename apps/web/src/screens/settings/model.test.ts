import { LOSS_SETTINGS, WINDOW_SETTINGS } from "@pollard/advice";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { lossKey, lossStep, windowKey } from "./model.ts";

describe("settings", () => {
  test("[UI-32] each figure is kept under the key that advice reads it from", () => {
    for (const [key, [sex, figure]] of Object.entries(WINDOW_SETTINGS)) expect(windowKey(sex, figure)).toBe(key);
    for (const [key, loss] of Object.entries(LOSS_SETTINGS)) expect(lossKey(loss)).toBe(key);
  });

  describe("laws", () => {
    test("[UI-32] more is more and less is less, until an end of the scale", () => {
      fc.assert(
        fc.property(fc.double({ min: 0, max: 50, noNaN: true }), (amount) => {
          expect(lossStep(amount, "more")).toBeGreaterThanOrEqual(amount);
          expect(lossStep(amount, "less")).toBeLessThanOrEqual(amount);
          const up = lossStep(amount, "more");
          if (up < 50 && up > amount) expect(lossStep(lossStep(up, "more"), "less")).toBe(up);
        }),
      );
    });
  });
});

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { axisFromZero, axisOfWholes } from "./plot-scales.ts";

describe("the axes of pictures", () => {
  test("[UI-128] an axis begins at nothing, ends at or beyond the largest value, and has few round ticks", () => {
    expect(axisFromZero(18, { from: 100, to: 0 }).ticks).toEqual([0, 5, 10, 15, 20]);
    expect(axisFromZero(0, { from: 100, to: 0 }).place(0)).toBe(100);
    expect(axisOfWholes(1, 5, { from: 0, to: 80, most: 5 }).ticks).toEqual([1, 2, 3, 4, 5]);
    expect(axisOfWholes(1, 1, { from: 0, to: 80, most: 5 }).ticks).toEqual([1]);
  });

  describe("laws", () => {
    test("[UI-128] values keep their order and stay inside, ticks rise by even steps and are never many", () => {
      fc.assert(
        fc.property(
          fc.double({ min: 0.01, max: 5000, noNaN: true }),
          fc.double({ min: 0, max: 1, noNaN: true }),
          (most, share) => {
            const axis = axisFromZero(most, { from: 0, to: 200 });
            expect(axis.place(share * most)).toBeGreaterThanOrEqual(0);
            expect(axis.place(share * most)).toBeLessThanOrEqual(200 + 1e-9);
            expect(axis.ticks.length).toBeLessThanOrEqual(8);
            const steps = axis.ticks.slice(1).map((tick, i) => tick - (axis.ticks[i] ?? 0));
            for (const step of steps) expect(step).toBeCloseTo(steps[0] ?? 0, 9);
            expect(axis.ticks.at(-1)).toBeGreaterThanOrEqual(most * 0.999);
          },
        ),
      );
    });
  });
});

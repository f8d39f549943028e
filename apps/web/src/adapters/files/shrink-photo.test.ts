import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { sizeWithin, USUAL } from "./shrink-photo.ts";

describe("a picture small enough to keep", () => {
  test("[UI-83] a phone's picture, upright or lying, and one that is small already", () => {
    expect(sizeWithin({ width: 4000, height: 3000 }, USUAL.longest)).toEqual({ width: 1600, height: 1200 });
    expect(sizeWithin({ width: 3000, height: 4000 }, USUAL.longest)).toEqual({ width: 1200, height: 1600 });
    expect(sizeWithin({ width: 800, height: 600 }, USUAL.longest)).toEqual({ width: 800, height: 600 });
  });

  describe("laws", () => {
    test("[UI-83] within the longest side, never without a pixel, and as long as it was wide", () => {
      const side = fc.integer({ min: 1, max: 20_000 });
      fc.assert(
        fc.property(side, side, (width, height) => {
          const small = sizeWithin({ width, height }, USUAL.longest);
          expect(Math.max(small.width, small.height)).toBeLessThanOrEqual(USUAL.longest);
          expect(Math.min(small.width, small.height)).toBeGreaterThanOrEqual(1);
          // A pixel is the most that rounding moves a side.
          const by = small.width / width;
          expect(Math.abs(small.height - Math.max(1, height * by))).toBeLessThanOrEqual(1 + height / width);
        }),
      );
    });
  });
});

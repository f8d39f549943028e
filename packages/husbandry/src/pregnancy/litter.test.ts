import { present } from "@pollard/base";
import { describe, expect, test } from "vitest";
import published from "../../published/litter-sizes.json" with { type: "json" };
import { countLikelihood, LITTER_SIZE_SD, litterSizes, litterSizesOf, MEAN_LITTER_SIZE } from "./litter.ts";

const mean = (sizes: readonly number[]) => sizes.reduce((s, p, i) => s + p * (i + 1), 0);
const spread = (sizes: readonly number[]) =>
  Math.sqrt(sizes.reduce((s, p, i) => s + p * (i + 1) ** 2, 0) - mean(sizes) ** 2);

describe("litter sizes", () => {
  test("[HD-30] a doe at her first kidding is expected to have fewer", () => {
    const first = mean(litterSizes({ kiddedBefore: "no" }));
    const later = mean(litterSizes({ kiddedBefore: "yes" }));
    expect(later - first).toBeGreaterThan(0.4);
    expect(later - first).toBeLessThan(0.6);
  });

  test("[HD-30] twenty litters of triplets draw the herd half-way to three", () => {
    const drawn = mean(litterSizes({ own: { kiddings: 20, kids: 60 } }));
    expect(drawn).toBeGreaterThan(2.35);
    expect(drawn).toBeLessThan(2.5);
  });

  test("[HD-34] a count speaks loudest in its best days", () => {
    const ratio = (days: number) => countLikelihood(2, 2, days) / countLikelihood(1, 2, days);
    expect(ratio(60)).toBeGreaterThan(ratio(120));
    expect(ratio(120)).toBeGreaterThan(1);
  });

  test("[HD-30] every mean gives chances that add up, and larger means larger litters", () => {
    let before = 0;
    for (let m = 1; m <= 3; m += 0.05) {
      const sizes = litterSizesOf(m);
      expect(sizes.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9);
      expect(mean(sizes)).toBeGreaterThan(before);
      before = mean(sizes);
    }
  });

  test("[HD-30] the printed mean and spread come out", () => {
    const sizes = litterSizes({});
    expect(Math.abs(mean(sizes) - MEAN_LITTER_SIZE.value)).toBeLessThan(0.03);
    expect(Math.abs(spread(sizes) - LITTER_SIZE_SD.value)).toBeLessThan(0.01);
  });

  test.each(published)("[HD-30] the bell fits $source, $where", ({ shares, tolerance }) => {
    const total = shares.reduce((a, b) => a + b, 0);
    const printed = shares.map((s) => s / total);
    // The bell is placed by the printed mean alone; its shape is what is tested.
    const fitted = litterSizesOf(placed(mean(printed)));
    for (const [i, share] of printed.entries())
      expect(Math.abs(present(fitted[i], "a size") - share), `${i + 1} kids`).toBeLessThan(tolerance);
  });
});

/** Where the bell must stand so that litters have this mean. */
function placed(wanted: number): number {
  let [low, high] = [0, 4];
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (mean(litterSizesOf(middle)) < wanted) low = middle;
    else high = middle;
  }
  return low;
}

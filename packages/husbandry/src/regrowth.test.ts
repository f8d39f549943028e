import { describe, expect, test } from "vitest";
import { PRINTED_REGROWTH, REGROWTHS, regrowthPrior, TECHNIQUES } from "./regrowth.ts";

describe("regrowthPrior", () => {
  test("[HD-20] a bud that was removed grows nothing three times in four; one left on does so once in five", () => {
    const nothing = TECHNIQUES.map((t) => (regrowthPrior(t)[0] ?? 0) / 40);
    expect(nothing[0]).toBeGreaterThan(0.7);
    expect(nothing[1]).toBeLessThan(0.25);
  });

  describe("published", () => {
    test("[HD-20] hempstead2018: every share we start from lies inside the printed interval", () => {
      for (const technique of TECHNIQUES)
        for (const [i, r] of REGROWTHS.entries()) {
          const printed = PRINTED_REGROWTH.value[technique][r];
          const share = (regrowthPrior(technique)[i] ?? 0) / 40;
          if (printed === undefined) expect(share).toBeLessThan(0.005);
          else {
            expect(share).toBeGreaterThanOrEqual(printed.low);
            expect(share).toBeLessThanOrEqual(printed.high);
          }
        }
    });
  });
});

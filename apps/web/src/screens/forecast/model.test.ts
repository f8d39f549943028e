import { describe, expect, test } from "vitest";
import { bandOf, mostOf, RUNS, runInSteps, shownYears, STEP } from "./model.ts";

describe("a forecast on the screen", () => {
  test("[UI-93] it goes on in steps, and tells how far it is", async () => {
    let runs = 0;
    const told: number[] = [];
    const done = await runInSteps(
      async (n) => (runs += n),
      () => true,
      (n) => told.push(n),
    );
    expect(done).toBe(RUNS);
    expect(told).toHaveLength(RUNS / STEP);
    expect(told.at(-1)).toBe(RUNS);
  });

  test("[UI-93] stopped, it keeps what was done and asks no more", async () => {
    let asked = 0;
    const done = await runInSteps(
      async () => (asked += STEP),
      () => asked < 3 * STEP,
      () => undefined,
    );
    expect([done, asked]).toEqual([3 * STEP, 3 * STEP]);
  });

  test("[UI-93] a run that another one has replaced comes to its end", async () => {
    expect(
      await runInSteps(
        async () => 0,
        () => true,
        () => undefined,
      ),
    ).toBe(0);
  });

  test("[UI-94] one year is shown once; five as the first, the middle and the last", () => {
    const years = (n: number) => ({ years: Array.from({ length: n }) }) as never;
    expect(shownYears(years(1))).toEqual([0]);
    expect(shownYears(years(5))).toEqual([0, 2, 4]);
  });

  test("[UI-128] a picture's steps are the years' own figures, shares out of ten, on one scale for all policies", () => {
    const year = (low: number, median: number, high: number) => ({
      horned: { low, median, high, mean: median },
      polledDoes: { low: low / 100, median: median / 100, high: high / 100, mean: median / 100 },
    });
    const policies = [{ years: [year(4, 8, 12), year(2, 5, 9)] }, { years: [year(10, 20, 40)] }] as never[];
    const [first] = policies;
    expect(bandOf(first as never, "horned")).toEqual([
      { at: 1, low: 4, middle: 8, high: 12 },
      { at: 2, low: 2, middle: 5, high: 9 },
    ]);
    expect(bandOf(first as never, "polledDoes")[0]?.middle).toBeCloseTo(0.8, 12);
    expect(mostOf({ policies } as never, "horned")).toBe(40);
  });
});

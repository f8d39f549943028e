import { describe, expect, test } from "vitest";
import { RUNS, runInSteps, shownYears, STEP } from "./model.ts";

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
});

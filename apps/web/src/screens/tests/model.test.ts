import { probability } from "@pollard/base";
import { screens } from "@pollard/words";
import { describe, expect, test } from "vitest";
import { settledSaid, testValue } from "./model.ts";

const result = (genotypes: readonly string[], chance: number) => ({ genotypes, chance: probability(chance) });

describe("what a test would settle", () => {
  test("[UI-299] the likeliest result first; what is hardly possible is left out", () => {
    const results = [result(["PP"], 0.3), result(["pp"], 0.001), result(["Pp"], 0.699)];
    expect(settledSaid(screens, { results })).toBe("Settles: Pp / PP");
  });

  test("[UI-299] of two tests together both results stand side by side", () => {
    expect(settledSaid(screens, { results: [result(["Pp", "pp"], 1)] })).toBe("Settles: Pp + pp");
  });

  test("[UI-299] of a kid whose head is not read yet, no result is told before eyes have looked", () => {
    expect(settledSaid(screens, { results: [] })).toBe("Read its head first.");
  });

  test("[UI-322] a goat that is known already has nothing to weigh in the table, rather than nought", () => {
    const known = { animals: [], worth: 0, price: 0.5, advice: "known-already" as const, results: [] };
    expect([testValue(known, "saves"), testValue(known, "price")]).toEqual([undefined, undefined]);
    expect(testValue({ ...known, advice: "not-worth-it" }, "saves")).toBe(0);
  });
});

import { probability } from "@pollard/base";
import { screens } from "@pollard/words";
import { describe, expect, test } from "vitest";
import { settledSaid } from "./model.ts";

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
});

import { probability } from "@pollard/base";
import { describe, expect, test } from "vitest";
import { likeliest, seenValue, type SeenColumn } from "./table-model.ts";

const line = (seen: number, of: number, mean: number) => ({
  of: "bucks" as const,
  seen: { seen, of, mean, low: 0, high: of, p: probability(1), verdict: "unusual" as const },
});

describe("the season's tables", () => {
  test("[UI-322] a line of which no kid is known has no figure but the none it rests on", () => {
    const columns: readonly SeenColumn[] = ["seen", "of", "expected", "verdict"];
    expect(columns.map((column) => seenValue(line(0, 0, 0), column))).toEqual([undefined, 0, undefined, undefined]);
    expect(columns.map((column) => seenValue(line(3, 8, 4), column))).toEqual([3, 8, 4, 1]);
  });

  test("[UI-322] of a belief the likeliest genotype is named", () => {
    const belief = (PP: number, Pp: number, pp: number) => ({
      PP: probability(PP),
      Pp: probability(Pp),
      pp: probability(pp),
    });
    expect(likeliest(belief(0.1, 0.7, 0.2))).toBe("Pp");
    expect(likeliest(belief(0, 0.3, 0.7))).toBe("pp");
  });
});

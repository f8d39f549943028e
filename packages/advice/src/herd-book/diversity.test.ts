import { describe, expect, test } from "vitest";
import { goat, kidding, situation } from "../testing.ts";
import { herdDiversity } from "./diversity.ts";

const TODAY = "2026-03-20";

describe("what is left of what came into a group", () => {
  test("[AD-55] the herd's young: their founders, and the buck through whom half of it came", () => {
    const s = situation(
      [
        goat("Rook", "buck"),
        goat("Ash", "doe"),
        goat("Elm", "doe"),
        kidding("Ash", "2025-03-01", { a1: "doe" }, ["Rook"]),
        kidding("Elm", "2025-03-02", { e1: "doe" }, ["Rook"]),
      ],
      TODAY,
    );
    const found = herdDiversity(s);
    expect(found?.animals).toBe(2);
    expect(found?.founders.map(({ who, share }) => [who.name, share])).toEqual([
      ["Rook", 0.5],
      ["Ash", 0.25],
      ["Elm", 0.25],
    ]);
    expect(found?.effectiveFounders).toBeCloseTo(1 / (0.25 + 2 / 16), 12);
    expect(found?.completeGenerations).toBe(1);
    expect(found?.effectiveSize).toBeUndefined();
  });

  test("[AD-55] where a sire is not known, founders never count for more than there are", () => {
    const kids = ["Ash", "Elm"].map((dam) => kidding(dam, "2025-03-01", { [`${dam}-1`]: "doe" }));
    const found = herdDiversity(situation([goat("Ash", "doe"), goat("Elm", "doe"), ...kids], TODAY));
    expect(found?.founders).toHaveLength(2);
    expect(found?.effectiveFounders).toBeCloseTo(2, 12);
    expect(found?.effectiveAncestors).toBeCloseTo(2, 12);
  });

  test("[AD-55] without young there is nothing to say", () => {
    expect(herdDiversity(situation([goat("Rook", "buck")], TODAY))).toBeUndefined();
  });
});

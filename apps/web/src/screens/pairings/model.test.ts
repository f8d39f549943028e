import { goat, outcome, kidding, situation } from "@pollard/advice/testing";
import { pairingsModel } from "@pollard/advice";
import { loadSolver } from "@pollard/planning";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cellAfter, gridOf, neverText } from "./model.ts";

const herd = [
  goat("Rook", "buck", { head: "polled" }),
  goat("Gale", "buck", { head: "horned" }),
  goat("Ash", "doe", { head: "horned" }),
  goat("Sedge", "doe", { head: "polled" }),
  kidding("Sedge", "2025-03-01", { s1: "doe" }, ["Gale"]),
  outcome("s1", "2025-07-01", "horn"),
];

describe("the grid of pairings", () => {
  test("[UI-90] two polled parents are closed, a horned doe's polled buck is chosen, all on one denominator", async () => {
    const model = pairingsModel(situation(herd, "2025-09-01"), await loadSolver(), { around: "nothing" });
    const cells = gridOf(model).flat();
    const at = (doe: string, buck: string) => cells.find((c) => c.doe.name === doe && c.buck.name === buck);
    expect(at("Sedge", "Rook")?.state).toBe("closed");
    expect(at("Sedge", "Gale")?.state).toBe("chosen");
    expect(at("Ash", "Rook")?.state).toBe("chosen");
    expect(at("Ash", "Gale")?.horned).toBe(20);
    for (const cell of cells) expect(cell.horned >= 0 && cell.horned <= 20).toBe(true);
  });

  test("[UI-91] the arrow keys move one cell, Home and End along the row", () => {
    const size = { rows: 3, columns: 2 };
    expect(cellAfter("ArrowRight", { row: 1, column: 0 }, size)).toEqual({ row: 1, column: 1 });
    expect(cellAfter("End", { row: 2, column: 0 }, size)).toEqual({ row: 2, column: 1 });
    expect(cellAfter("Enter", { row: 2, column: 0 }, size)).toBeUndefined();
  });

  test("[UI-92] a wish against a buck is added once and taken back whole", () => {
    expect(neverText(["a"], "b", "never")).toBe("a,b");
    expect(neverText(["a", "b"], "b", "never")).toBe("a,b");
    expect(neverText(["a", "b"], "b", "free")).toBe("a");
    expect(neverText(["b"], "b", "must")).toBe("");
  });

  describe("laws", () => {
    test("[UI-91] no key leads off the grid", () => {
      const keys = fc.array(fc.constantFrom("ArrowUp", "ArrowDown", "ArrowLeft", "ArrowRight", "Home", "End"));
      fc.assert(
        fc.property(keys, fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 9 }), (pressed, rows, columns) => {
          let at = { row: 0, column: 0 };
          for (const key of pressed) at = { ...at, ...cellAfter(key, at, { rows, columns }) };
          expect(at.row >= 0 && at.row < rows && at.column >= 0 && at.column < columns).toBe(true);
        }),
      );
    });
  });
});

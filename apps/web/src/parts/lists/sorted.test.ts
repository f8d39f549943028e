import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { sorted, sortingAfter } from "./sorted.ts";

const up = (values: readonly (string | number | undefined)[]) => sorted(values, (value) => value, "up");

describe("sorting a table", () => {
  test("[UI-125] 9 before 10 in tags too, capitals beside small letters, what is not known last either way", () => {
    expect(up(["SB 10", undefined, "SB 9", "sb 11"])).toEqual(["SB 9", "SB 10", "sb 11", undefined]);
    expect(sorted([undefined, 3, 20], (value) => value, "down")).toEqual([20, 3, undefined]);
  });

  test("[UI-125] a head pressed sorts up, pressed again down, another head up", () => {
    expect(sortingAfter({ by: "name", way: "up" }, "name")).toEqual({ by: "name", way: "down" });
    expect(sortingAfter({ by: "name", way: "down" }, "name")).toEqual({ by: "name", way: "up" });
    expect(sortingAfter<string>({ by: "name", way: "up" }, "born")).toEqual({ by: "born", way: "up" });
  });

  describe("laws", () => {
    const rows = fc.array(
      fc.record({ value: fc.option(fc.integer({ min: 0, max: 5 }), { nil: undefined }), id: fc.nat() }),
    );
    test("[UI-125] nothing is lost, the order holds, and rows that agree stay as they were", () => {
      fc.assert(
        fc.property(rows, fc.constantFrom("up", "down"), (all, way) => {
          const found = sorted(all, ({ value }) => value, way);
          expect(new Set(found)).toEqual(new Set(all));
          expect(found).toHaveLength(all.length);
          for (const [i, row] of found.entries()) {
            const next = found[i + 1];
            if (next === undefined) continue;
            if (row.value === undefined) expect(next.value).toBeUndefined();
            else if (next.value !== undefined)
              expect(way === "up" ? next.value - row.value : row.value - next.value).toBeGreaterThanOrEqual(0);
            if (row.value === next.value) expect(all.indexOf(row)).toBeLessThanOrEqual(all.lastIndexOf(next));
          }
        }),
      );
    });
  });
});

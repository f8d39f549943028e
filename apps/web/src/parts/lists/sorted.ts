import { words } from "../../house/wording.ts";

/** What a table is sorted by: a column, and which way. */
export interface Sorting<K extends string> {
  readonly by: K;
  readonly way: "up" | "down";
}

/**
 * Rows in the order of a column; those of which it says nothing come last either way, and rows that agree keep their order.
 *
 * Numbers by size, words as a reader would look them up, with 9 before 10.
 */
export function sorted<R>(
  rows: readonly R[],
  valueOf: (row: R) => string | number | undefined,
  way: "up" | "down",
): readonly R[] {
  const turn = way === "up" ? 1 : -1;
  return rows
    .map((row) => ({ row, value: valueOf(row) }))
    .sort(({ value: one }, { value: other }) => {
      if (one === undefined || other === undefined) return Number(one === undefined) - Number(other === undefined);
      if (typeof one === "number" && typeof other === "number") return turn * (one - other);
      return turn * words.inOrder(String(one), String(other));
    })
    .map(({ row }) => row);
}

/** Pressing a column's head: sorts by it upwards, pressed again downwards. */
export const sortingAfter = <K extends string>(now: Sorting<K>, pressed: K): Sorting<K> => ({
  by: pressed,
  way: now.by === pressed && now.way === "up" ? "down" : "up",
});

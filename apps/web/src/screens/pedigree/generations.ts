import type { Family } from "./family.ts";

/**
 * The row of every symbol, the oldest generation first.
 *
 * A kid stands one row below the lower of its parents. Whoever has no parents drawn stands just above its first kids,
 * beside whom it was bred with, and a parent nobody knows beside the other parent.
 *
 * Shape: rows count from 0; no row between is empty.
 */
export function generationsOf({ symbols, matings }: Family): ReadonlyMap<string, number> {
  const bornOf = new Map(matings.flatMap((mating) => mating.kids.map((kid) => [kid, mating] as const)));
  const parentsOf = (id: string): readonly string[] => {
    const mating = bornOf.get(id);
    return mating === undefined ? [] : [...mating.sires, mating.dam].map(({ symbol }) => symbol);
  };
  const rows = new Map<string, number>();
  const rowOf = (id: string): number => {
    const known = rows.get(id);
    if (known !== undefined) return known;
    const row = Math.max(-1, ...parentsOf(id).map(rowOf)) + 1;
    rows.set(id, row);
    return row;
  };
  for (const id of symbols.keys()) rowOf(id);
  const firstKids = new Map<string, number>();
  for (const { sires, dam, kids } of matings) {
    const row = Math.min(...kids.map(rowOf));
    for (const { symbol } of [...sires, dam]) firstKids.set(symbol, Math.min(row, firstKids.get(symbol) ?? row));
  }
  for (const id of symbols.keys()) {
    const first = firstKids.get(id);
    if (!bornOf.has(id) && first !== undefined) rows.set(id, first - 1);
  }
  return rows;
}

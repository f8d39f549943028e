import { present } from "@pollard/base";
import type { AnimalId, DoubtfulParentage, ExpectedKinship } from "@pollard/genetics";

/** An ancestor that both parents have, and how much of their kids' inbreeding comes from him or her. */
export interface CommonAncestor {
  readonly ancestor: AnimalId;
  readonly share: number;
}

/**
 * Whose genes the kids of two animals could get twice.
 *
 * Wright's paths: each way up from both parents that meets in one animal and in no younger one is that animal's. An animal
 * that is the parent of the other counts itself.
 *
 * Shape:   the largest share first; shares sum to the kids' inbreeding. Where sires are in doubt, a mean over them.
 * Assumes: `kin` was made from the same rows; a parent without a row is a founder, unrelated to everybody.
 * Source:  [wright1922]; rule PA-3.
 */
export function commonAncestors(
  rows: ReadonlyMap<AnimalId, DoubtfulParentage>,
  kin: ExpectedKinship,
  sire: AnimalId,
  dam: AnimalId,
): readonly CommonAncestor[] {
  const depth = depths(rows);
  const known = new Map<string, ReadonlyMap<AnimalId, number>>();
  const visit = (a: AnimalId, b: AnimalId): ReadonlyMap<AnimalId, number> => {
    if (!rows.has(a) || !rows.has(b)) return new Map();
    if (a === b) return new Map([[a, kin.kinship(a, a)]]);
    const [young, old] = depth(a) >= depth(b) ? [a, b] : [b, a];
    const key = `${young} ${old}`;
    const found = known.get(key);
    if (found !== undefined) return found;
    const shares = new Map<AnimalId, number>();
    const row = present(rows.get(young), "an animal's row");
    const through = (parent: AnimalId | undefined, weight: number): void => {
      if (parent === undefined) return;
      for (const [ancestor, share] of visit(parent, old))
        shares.set(ancestor, (shares.get(ancestor) ?? 0) + (weight * share) / 2);
    };
    through(row.dam, 1);
    for (const { sire: candidate, weight } of row.sires) through(candidate, weight);
    known.set(key, shares);
    return shares;
  };
  return [...visit(sire, dam)]
    .map(([ancestor, share]) => ({ ancestor, share }))
    .filter(({ share }) => share > 0)
    .sort((a, b) => b.share - a.share);
}

/** How many generations of known ancestors an animal has at most; a parent always has fewer. */
function depths(rows: ReadonlyMap<AnimalId, DoubtfulParentage>): (id: AnimalId) => number {
  const known = new Map<AnimalId, number>();
  const depth = (id: AnimalId): number => {
    const found = known.get(id);
    if (found !== undefined) return found;
    const row = rows.get(id);
    const parents = row === undefined ? [] : [row.dam, ...row.sires.map((s) => s.sire)];
    const value = Math.max(0, ...parents.map((p) => (p === undefined ? 0 : 1 + depth(p))));
    known.set(id, value);
    return value;
  };
  return depth;
}

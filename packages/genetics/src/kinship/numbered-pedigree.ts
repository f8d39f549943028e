import { present } from "@pollard/base";
import type { AnimalId } from "../vocabulary.ts";

/** One animal and its parents, as a herd book lists them. */
export interface Parentage {
  readonly id: AnimalId;
  readonly sire: AnimalId | undefined;
  readonly dam: AnimalId | undefined;
}

/** What does not fit in a list of parentages, and how it is taken. */
export type PedigreeIssue =
  /** The first row is kept. */
  | { readonly code: "duplicate-id"; readonly animal: AnimalId }
  /** A parent without a row of its own is taken as a founder, the same one wherever it is named. */
  | { readonly code: "parent-without-row"; readonly animal: AnimalId; readonly parent: AnimalId }
  /** The link that closed the ring is left out. */
  | { readonly code: "own-ancestor"; readonly animal: AnimalId; readonly parent: AnimalId }
  | { readonly code: "both-sire-and-dam"; readonly animal: AnimalId };

/**
 * A pedigree as numbers: parents always before their kids.
 *
 * Shape: `sire` and `dam` hold positions, -1 where unknown; sorted by generation, a founder's generation is 0, a kid's one
 *        more than the later of its parents'.
 */
export interface NumberedPedigree {
  readonly ids: readonly AnimalId[];
  readonly positions: ReadonlyMap<AnimalId, number>;
  readonly sire: Int32Array;
  readonly dam: Int32Array;
  readonly generation: Int32Array;
}

/**
 * Puts a list of parentages, in any order, into numbers. Never fails: what does not fit is named and mended.
 *
 * Cost: linear in the number of rows.
 */
export function numberedPedigree(rows: Iterable<Parentage>): {
  readonly pedigree: NumberedPedigree;
  readonly issues: readonly PedigreeIssue[];
} {
  const issues: PedigreeIssue[] = [];
  const ids: AnimalId[] = [];
  const at = new Map<AnimalId, number>();
  const kept: Parentage[] = [];
  for (const row of rows) {
    if (at.has(row.id)) {
      issues.push({ code: "duplicate-id", animal: row.id });
      continue;
    }
    at.set(row.id, ids.push(row.id) - 1);
    kept.push(row);
  }
  const sires: number[] = [];
  const dams: number[] = [];
  const place = (animal: AnimalId, parent: AnimalId | undefined): number => {
    if (parent === undefined) return -1;
    const known = at.get(parent);
    if (known !== undefined) return known;
    issues.push({ code: "parent-without-row", animal, parent });
    const added = ids.push(parent) - 1;
    at.set(parent, added);
    return added;
  };
  for (const { id, sire, dam } of kept) {
    sires.push(place(id, sire));
    dams.push(place(id, dam));
  }
  while (sires.length < ids.length) {
    sires.push(-1);
    dams.push(-1);
  }
  const damSet = new Set(dams);
  for (const s of new Set(sires))
    if (s >= 0 && damSet.has(s)) issues.push({ code: "both-sire-and-dam", animal: present(ids[s], "an id") });
  return { pedigree: sorted(ids, Int32Array.from(sires), Int32Array.from(dams), issues), issues };
}

/** Generations by depth first search, links that close a ring cut, then everything in order of generation. */
function sorted(
  ids: readonly AnimalId[],
  sires: Int32Array,
  dams: Int32Array,
  issues: PedigreeIssue[],
): NumberedPedigree {
  const n = ids.length;
  const generation = new Int32Array(n).fill(-1);
  const open = new Uint8Array(n);
  const line: number[] = [];
  for (let start = 0; start < n; start++) {
    if (generation[start] !== -1) continue;
    line.push(start);
    for (let i = line.at(-1); i !== undefined; i = line.at(-1)) {
      open[i] = 1;
      const next = [sires, dams].flatMap((parents) => {
        const p = parents[i] ?? -1;
        if (p < 0 || generation[p] !== -1) return [];
        if (open[p] === 0) return [p];
        parents[i] = -1;
        issues.push({ code: "own-ancestor", animal: present(ids[i], "an id"), parent: present(ids[p], "an id") });
        return [];
      })[0];
      if (next === undefined) {
        const [s = -1, d = -1] = [sires[i], dams[i]];
        generation[i] = 1 + Math.max(s < 0 ? -1 : (generation[s] ?? -1), d < 0 ? -1 : (generation[d] ?? -1));
        open[i] = 0;
        line.pop();
      } else line.push(next);
    }
  }
  return inOrder(ids, sires, dams, generation);
}

function inOrder(
  ids: readonly AnimalId[],
  sires: Int32Array,
  dams: Int32Array,
  generation: Int32Array,
): NumberedPedigree {
  const n = ids.length;
  const counts = new Int32Array(generation.reduce((a, b) => Math.max(a, b), -1) + 2);
  for (const g of generation) counts[g + 1] = (counts[g + 1] ?? 0) + 1;
  for (let g = 1; g < counts.length; g++) counts[g] = (counts[g] ?? 0) + (counts[g - 1] ?? 0);
  const rank = generation.map((g) => {
    const r = counts[g] ?? 0;
    counts[g] = r + 1;
    return r;
  });
  const out = {
    ids: ids.slice(),
    sire: new Int32Array(n),
    dam: new Int32Array(n),
    generation: new Int32Array(n),
    positions: new Map<AnimalId, number>(),
  };
  ids.forEach((id, i) => {
    const r = rank[i] ?? 0;
    const [s = -1, d = -1] = [sires[i], dams[i]];
    out.ids[r] = id;
    out.sire[r] = s < 0 ? -1 : (rank[s] ?? -1);
    out.dam[r] = d < 0 ? -1 : (rank[d] ?? -1);
    out.generation[r] = generation[i] ?? 0;
    out.positions.set(id, r);
  });
  return out;
}

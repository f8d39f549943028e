import { f64, i32 } from "../inference/cell.ts";
import { type Inbreeding } from "./inbreeding.ts";
import { meanKinship } from "./kinship.ts";
import type { NumberedPedigree } from "./numbered-pedigree.ts";

/**
 * The share each founder has in a group's genes.
 *
 * An unknown parent of an animal whose other parent is known counts as no founder: its half is left out.
 *
 * Shape:  by position; only founders have a share. Sums to 1 where no founder half is unknown.
 * Source: rule GE-21.
 */
export function founderShares({ sire, dam, ids }: NumberedPedigree, group: readonly number[]): Float64Array {
  const flow = new Float64Array(ids.length);
  for (const at of group) flow[at] = f64(flow, at) + 1 / group.length;
  for (let i = ids.length - 1; i >= 0; i--) {
    const [s, d] = [i32(sire, i), i32(dam, i)];
    if (s < 0 && d < 0) continue;
    const half = f64(flow, i) / 2;
    if (s >= 0) flow[s] = f64(flow, s) + half;
    if (d >= 0) flow[d] = f64(flow, d) + half;
    flow[i] = 0;
  }
  return flow;
}

/** How many founders of equal share would leave the same diversity: 1 / sum of squared shares. Source: [lacy1989]. */
export const effectiveFounders = (shares: Float64Array): number => 1 / shares.reduce((sum, p) => sum + p * p, 0);

/** An ancestor with what it adds to a group's genes beyond the ancestors chosen before it. */
export interface AncestorShare {
  readonly ancestor: number;
  readonly share: number;
}

/**
 * The ancestors, founders or not, that explain a group's genes one after the other, each with its marginal share.
 *
 * The ancestor of the largest marginal share is taken, its own parents are cut off, and all shares are found anew without
 * what already came from chosen ones; until nothing is left. So one buck through whom everything came counts as one.
 *
 * Shape:  largest first; ties go to the animal that stands first. Shares sum to 1 where no half of a founder is unknown.
 *         The group's own animals are not eligible.
 * Cost:   two walks over the pedigree for each ancestor chosen.
 * Source: [boichard1997]; rule GE-21.
 */
export function marginalAncestors(
  { sire, dam, ids }: NumberedPedigree,
  group: readonly number[],
  most: number = ids.length,
): readonly AncestorShare[] {
  const n = ids.length;
  const isMember = new Uint8Array(n);
  for (const at of group) isMember[at] = 1;
  const isChosen = new Uint8Array(n);
  const chosen: AncestorShare[] = [];
  while (chosen.length < most) {
    // What the group has from each animal, with chosen ancestors cut off from their parents …
    const flow = new Float64Array(n);
    for (const at of group) flow[at] = f64(flow, at) + 1 / group.length;
    // … and which part of each animal already comes from chosen ones.
    const taken = new Float64Array(n);
    const parentOf = (parents: Int32Array, i: number): number => (isChosen[i] === 1 ? -1 : i32(parents, i));
    for (let i = n - 1; i >= 0; i--) {
      const half = f64(flow, i) / 2;
      for (const p of [parentOf(sire, i), parentOf(dam, i)]) if (p >= 0) flow[p] = f64(flow, p) + half;
    }
    let best = -1;
    let share = 0;
    for (let i = 0; i < n; i++) {
      taken[i] =
        isChosen[i] === 1
          ? 1
          : [i32(sire, i), i32(dam, i)].reduce((sum, p) => sum + (p < 0 ? 0 : f64(taken, p) / 2), 0);
      const marginal = f64(flow, i) * (1 - f64(taken, i));
      if (isMember[i] === 0 && marginal > share + TIE) [best, share] = [i, marginal];
    }
    if (best < 0) break;
    chosen.push({ ancestor: best, share });
    isChosen[best] = 1;
  }
  return chosen;
}

/** Shares that differ by less are equal: rounding alone. */
const TIE = 1e-12;

/** How many ancestors of equal share would explain the group as well: 1 / sum of squared shares. Source: [boichard1997]. */
export const effectiveAncestors = (ancestors: readonly AncestorShare[]): number =>
  1 / ancestors.reduce((sum, { share }) => sum + share * share, 0);

/**
 * How many founders would have the group's diversity if they were unrelated and none of their alleles had been lost:
 * 1 / (2 x mean kinship).
 */
export const founderGenomes = (known: Inbreeding, group: readonly number[]): number =>
  1 / (2 * meanKinship(known, group));

import { f64, i32 } from "../inference/cell.ts";
import { AncestorWalk, type Inbreeding } from "./inbreeding.ts";

/**
 * The kinship of two animals: the inbreeding their kid would have. Of an animal with itself: (1 + F) / 2.
 *
 * Units:  positions in the pedigree.
 * Source: [colleau2002]; rule GE-20.
 */
export function kinship({ pedigree, own }: Inbreeding, a: number, b: number): number {
  const walk = new AncestorWalk(pedigree);
  const shares = walk.shareTable;
  walk.visit(a, (ancestor, share) => {
    shares[ancestor] = share;
  });
  let sum = 0;
  walk.visit(b, (ancestor, share) => {
    sum += share * f64(shares, ancestor) * f64(own, ancestor);
  });
  return sum / 2;
}

/**
 * The kinship of every animal to a group, each member of it with its weight: sum over the group of weight x kinship. With
 * weights that sum to 1 it is the mean kinship to the group.
 *
 * Shape:  by position. The matrix of all kinships is never built.
 * Cost:   two walks over the pedigree.
 * Source: [colleau2002]; rule GE-20.
 */
export function kinshipToGroup(
  { pedigree, own }: Inbreeding,
  weights: ReadonlyMap<number, number> | Float64Array,
): Float64Array {
  const { sire, dam } = pedigree;
  const n = pedigree.ids.length;
  const flow = new Float64Array(n);
  if (weights instanceof Float64Array) flow.set(weights);
  else for (const [at, w] of weights) flow[at] = w;
  for (let i = n - 1; i >= 0; i--) {
    const half = f64(flow, i) / 2;
    if (half === 0) continue;
    const [s, d] = [i32(sire, i), i32(dam, i)];
    if (s >= 0) flow[s] = f64(flow, s) + half;
    if (d >= 0) flow[d] = f64(flow, d) + half;
  }
  for (let i = 0; i < n; i++) {
    const [s, d] = [i32(sire, i), i32(dam, i)];
    const inherited = (s < 0 ? 0 : f64(flow, s) / 2) + (d < 0 ? 0 : f64(flow, d) / 2);
    flow[i] = f64(flow, i) * f64(own, i) + inherited;
  }
  return flow.map((x) => x / 2);
}

/** The mean kinship within a group, every animal with itself included: the inbreeding to come if it mated at random. */
export function meanKinship(known: Inbreeding, group: readonly number[]): number {
  const weights = new Map(group.map((at) => [at, 1 / group.length]));
  const to = kinshipToGroup(known, weights);
  return group.reduce((sum, at) => sum + f64(to, at), 0) / group.length;
}

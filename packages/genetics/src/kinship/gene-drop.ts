import type { Random } from "@pollard/base";
import { f64, i32 } from "../inference/cell.ts";
import type { NumberedPedigree } from "./numbered-pedigree.ts";

/**
 * The share of each founder's two alleles that is still somewhere in a group, on average.
 *
 * Every founder is given two alleles of its own, which are dropped through the pedigree again and again; what the group
 * holds at the end is counted.
 *
 * Shape:   by position; founders only, 0 elsewhere.
 * Assumes: an unknown parent of an animal whose other parent is known hands on an allele that is nobody's.
 * Cost:    `drops` walks over the pedigree; the standard error of a share is at most 0.5 / sqrt(drops).
 * Source:  [maccluer1986]; rule GE-21.
 */
export function alleleRetention(
  { sire, dam, ids }: NumberedPedigree,
  group: readonly number[],
  random: Random,
  drops: number,
): Float64Array {
  const n = ids.length;
  const alleles = new Int32Array(2 * n);
  const kept = new Float64Array(n);
  const seen = new Int32Array(2 * n);
  const inherit = (parent: number): number =>
    parent < 0 ? -1 : i32(alleles, 2 * parent + (random.next() < 0.5 ? 0 : 1));
  for (let drop = 1; drop <= drops; drop++) {
    for (let i = 0; i < n; i++) {
      const [s, d] = [i32(sire, i), i32(dam, i)];
      const isFounder = s < 0 && d < 0;
      alleles[2 * i] = isFounder ? 2 * i : inherit(s);
      alleles[2 * i + 1] = isFounder ? 2 * i + 1 : inherit(d);
    }
    for (const at of group)
      for (const allele of [i32(alleles, 2 * at), i32(alleles, 2 * at + 1)]) {
        if (allele < 0 || i32(seen, allele) === drop) continue;
        seen[allele] = drop;
        kept[allele >> 1] = f64(kept, allele >> 1) + 0.5;
      }
  }
  return kept.map((k) => k / drops);
}

/**
 * How many founders would have the group's diversity if no allele of theirs had been lost: 1 / sum(share² / retention).
 *
 * Shape:  `shares` as `founderShares`, `retention` as `alleleRetention` gives them.
 * Source: [lacy1989]; rule GE-21.
 */
export const founderGenomesByRetention = (shares: Float64Array, retention: Float64Array): number =>
  1 / shares.reduce((sum, p, i) => sum + (p > 0 ? (p * p) / f64(retention, i) : 0), 0);

import { f64, i32 } from "../inference/cell.ts";
import type { Inbreeding } from "./inbreeding.ts";
import type { NumberedPedigree } from "./numbered-pedigree.ts";

/** The effective size of a herd of so many breeding bucks and does. Source: [wright1931]; rule GE-22. */
export const effectiveSizeFromNumbers = (bucks: number, does: number): number =>
  bucks + does > 0 ? (4 * bucks * does) / (bucks + does) : 0;

/** The rise of inbreeding per generation that goes with an effective size. */
export const inbreedingRate = (effectiveSize: number): number => 1 / (2 * effectiveSize);

/**
 * How much of its pedigree is known of each animal, in generations: sum over known ancestors of (1/2)^generations back.
 *
 * Shape:  by position; a founder has 0, a kid of two founders 1.
 * Source: [maignel1996]; rule GE-22.
 */
export function completeGenerations({ sire, dam, ids }: NumberedPedigree): Float64Array {
  const known = new Float64Array(ids.length);
  for (let i = 0; i < known.length; i++)
    known[i] = [i32(sire, i), i32(dam, i)].reduce((sum, p) => sum + (p < 0 ? 0 : (f64(known, p) + 1) / 2), 0);
  return known;
}

/**
 * The effective size that a group's inbreeding and its depth of pedigree speak of: from each animal's own rate of
 * inbreeding, 1 - (1 - F)^(1 / (t - 1)), with t its complete generations.
 *
 * Shape:  `undefined` where no animal is known more than one generation deep or none is inbred: then nothing can be said.
 * Source: [gutierrez2009]; rule GE-22.
 */
export function effectiveSizeFromInbreeding({ pedigree, f }: Inbreeding, group: readonly number[]): number | undefined {
  const depth = completeGenerations(pedigree);
  const rates = group.filter((i) => f64(depth, i) > 1).map((i) => 1 - (1 - f64(f, i)) ** (1 / (f64(depth, i) - 1)));
  const mean = rates.reduce((a, b) => a + b, 0) / rates.length;
  return mean > 0 ? 1 / (2 * mean) : undefined;
}

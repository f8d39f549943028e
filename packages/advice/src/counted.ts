import { Bug } from "@pollard/base";

/**
 * A chance counted out for a person: `count` of `of` alike, e.g. 3 of 4.
 *
 * `about`: rounded to the nearest count. `under-one` / `all-but-one`: nearer to none or to all than the count can say.
 * `proven`: logic or a confirmed result, the only case in which none or all is said outright.
 */
export interface Counted {
  readonly of: 4 | 10 | 20 | 100;
  readonly count: number;
  readonly sense: "about" | "under-one" | "all-but-one" | "proven";
}

/** Denominators a person can picture, the smallest first. */
const DENOMINATORS = [4, 10, 20, 100] as const;
/** How far a count may stand from the chance before a larger denominator is taken; our judgement. */
const MISSTATEMENT = 0.02;

/**
 * Counts a chance out: the smallest of 4, 10, 20 or 100 that misstates it by at most 2 in 100.
 *
 * Neither none nor all is ever said of an unproven chance: below 1 in 100 it is `under-one`, above 99 in 100 `all-but-one`.
 *
 * Errors: Bug outside [0, 1].
 *
 * @example
 * counted(0.75, "open"); // { of: 4, count: 3, sense: "about" }
 */
export function counted(chance: number, surety: "open" | "proven"): Counted {
  if (!(chance >= 0 && chance <= 1)) throw new Bug(`counted: ${chance}`);
  if (surety === "proven" && (chance === 0 || chance === 1)) return { of: 4, count: chance * 4, sense: "proven" };
  for (const of of DENOMINATORS) {
    const counted = countedOf(chance, of);
    if (of === 100 || (counted.sense === "about" && Math.abs(counted.count / of - chance) <= MISSTATEMENT))
      return counted;
  }
  throw new Bug("counted: no denominator fits");
}

/** The same on a given denominator, for screens that show several chances side by side. */
export function countedOf(chance: number, of: Counted["of"]): Counted {
  const count = Math.round(chance * of);
  if (count === 0) return { of, count: 0, sense: "under-one" };
  if (count === of) return { of, count: of, sense: "all-but-one" };
  return { of, count, sense: "about" };
}

/** A chance counted before, on a given denominator; what is proven stays as it was said. */
export const recounted = (before: Counted, chance: number, of: Counted["of"]): Counted =>
  before.sense === "proven" ? before : countedOf(chance, of);

/**
 * Shares of a whole counted out of 100, so that the counts sum to 100: each rounded down, and the rest given to those that lose most.
 *
 * Units:  shares that sum to 1.
 * Source: the method of largest remainders.
 *
 * @example
 * outOfHundred([0.115, 0.885]); // [12, 88]
 */
export function outOfHundred(shares: readonly number[]): readonly number[] {
  const counts = shares.map((share) => Math.floor(share * 100));
  const byLoss = shares
    .map((share, at) => ({ at, lost: share * 100 - Math.floor(share * 100) }))
    .sort((a, b) => b.lost - a.lost || a.at - b.at);
  const left = Math.round(shares.reduce((a, b) => a + b, 0) * 100) - counts.reduce((a, b) => a + b, 0);
  for (const { at } of byLoss.slice(0, left)) counts[at] = (counts[at] ?? 0) + 1;
  return counts;
}

import { Bug, type Probability, probability } from "@pollard/base";
import { binomialChance } from "@pollard/genetics";

/** How far above its own an outcome's chance may lie and still count as no likelier; R's rule. */
const AS_LIKELY = 1 + 1e-7;

/** Which side counts as unexpected. */
export type Tail = "less" | "greater" | "two-sided";

/**
 * How often so many or something no likelier would come out by chance alone, where the chance of each count is known: of
 * kids that each have a chance of their own, of kids that share a doubt.
 *
 * Shape:  `chances` from none up; two-sided: the sum over all counts that are no likelier than the one seen.
 * Errors: Bug for a count that is not among them.
 * Source: exact test, the two-sided rule of [r-binom-test]; rule PA-14.
 *
 * @example
 * tailOf([0.25, 0.5, 0.25], 0, "two-sided"); // 0.5
 */
export function tailOf(chances: readonly number[], x: number, tail: Tail): Probability {
  const seen = chances[x];
  if (seen === undefined) throw new Bug(`tailOf: ${x} of ${chances.length - 1}`);
  const counts = (chance: number, k: number): boolean =>
    tail === "less" ? k <= x : tail === "greater" ? k >= x : chance <= seen * AS_LIKELY;
  return probability(chances.reduce((sum, chance, k) => sum + (counts(chance, k) ? chance : 0), 0));
}

/** Chance of each count from none to `n` where each has the same chance. */
export const binomialChances = (n: number, p: number): readonly number[] =>
  Array.from({ length: n + 1 }, (_, k) => binomialChance(k, n, p));

/** Chance of each count of hits where each case has its own chance (Poisson-binomial), by adding case after case. */
export function hitChances(each: readonly number[]): readonly number[] {
  let chances: readonly number[] = [1];
  for (const p of each) {
    const before = chances;
    chances = Array.from(
      { length: before.length + 1 },
      (_, k) => (before[k] ?? 0) * (1 - p) + (k > 0 ? (before[k - 1] ?? 0) * p : 0),
    );
  }
  return chances;
}

import { Bug, type Probability, probability } from "@pollard/base";

/** How far above its own an outcome's chance may lie and still count as no likelier; R's rule. */
const AS_LIKELY = 1 + 1e-7;
/** Halvings by which the ends of an interval are found; more than a double's 52 bits of fraction. */
const HALVINGS = 60;

/** Which side counts as unexpected. */
export type Tail = "less" | "greater" | "two-sided";

/**
 * How often so many of `n` or something no likelier would come out by chance alone, if each had chance `p`.
 *
 * Shape:  two-sided: the sum over all outcomes that are no likelier than the one seen.
 * Errors: Bug for counts that make no sense.
 * Source: exact binomial test; published/binomial-exact.json (R, mpmath, scipy); rule PA-14.
 *
 * @example
 * binomialP(0, 10, 0.5, "two-sided"); // 0.001953125
 */
export function binomialP(x: number, n: number, p: number, tail: Tail): Probability {
  return tailOf(binomialChances(n, p), x, tail);
}

/** The same for any list of chances of counts, e.g. of kids that each have a chance of their own. */
export function tailOf(chances: readonly number[], x: number, tail: Tail): Probability {
  const seen = chances[x];
  if (seen === undefined) throw new Bug(`tailOf: ${x} of ${chances.length - 1}`);
  const counts = (chance: number, k: number): boolean =>
    tail === "less" ? k <= x : tail === "greater" ? k >= x : chance <= seen * AS_LIKELY;
  return probability(chances.reduce((sum, chance, k) => sum + (counts(chance, k) ? chance : 0), 0));
}

/** Chance of each count from none to `n`, by logarithms of factorials: no size under- or overflows. */
export function binomialChances(n: number, p: number): readonly number[] {
  if (!(Number.isInteger(n) && n >= 0 && p >= 0 && p <= 1)) throw new Bug(`binomial: ${n}, ${p}`);
  if (p === 0 || p === 1) return Array.from({ length: n + 1 }, (_, k) => (k === n * p ? 1 : 0));
  let logs = n * Math.log1p(-p);
  return Array.from({ length: n + 1 }, (_, k) => {
    if (k > 0) logs += Math.log((n - k + 1) / k) + Math.log(p) - Math.log1p(-p);
    return Math.exp(logs);
  });
}

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

/**
 * Between which chances the true one may lie after `x` of `n`: the interval of Clopper and Pearson, which never promises more
 * than it holds.
 *
 * Units:  `confidence` e.g. 0.9.
 * Source: [clopper-pearson1934]; published/binomial-exact.json; rule PA-14.
 */
export function exactInterval(
  x: number,
  n: number,
  confidence: number,
): { readonly low: number; readonly high: number } {
  const half = (1 - confidence) / 2;
  const search = (isBelow: (p: number) => boolean): number => {
    let [low, high] = [0, 1];
    for (let i = 0; i < HALVINGS; i++) {
      const middle = (low + high) / 2;
      if (isBelow(middle)) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  };
  return {
    low: x === 0 ? 0 : search((p) => binomialP(x, n, p, "greater") < half),
    high: x === n ? 1 : search((p) => binomialP(x, n, p, "less") > half),
  };
}

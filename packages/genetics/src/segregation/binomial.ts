/** Factorials up to this are summed, beyond it Stirling's series is exact to the last digits. */
const SUMMED = 64;
const LOG_FACTORIALS = Array.from({ length: SUMMED + 1 }, () => 0);
for (let n = 1; n <= SUMMED; n++) LOG_FACTORIALS[n] = (LOG_FACTORIALS[n - 1] ?? 0) + Math.log(n);

/** Natural log of n!. */
export function logFactorial(n: number): number {
  if (n <= SUMMED) return LOG_FACTORIALS[n] ?? Number.NaN;
  const x = n + 1;
  return (
    (x - 0.5) * Math.log(x) - x + Math.log(2 * Math.PI) / 2 + 1 / (12 * x) - 1 / (360 * x ** 3) + 1 / (1260 * x ** 5)
  );
}

/** The chance of exactly `hits` in `trials` when each hits with chance `p`. */
export function binomialChance(hits: number, trials: number, p: number): number {
  if (hits < 0 || hits > trials) return 0;
  if (p === 0 || p === 1) return hits === trials * p ? 1 : 0;
  const ways = logFactorial(trials) - logFactorial(hits) - logFactorial(trials - hits);
  return Math.exp(ways + hits * Math.log(p) + (trials - hits) * Math.log1p(-p));
}

/** The chance of at most `hits`. */
export function binomialAtMost(hits: number, trials: number, p: number): number {
  let sum = 0;
  for (let k = 0; k <= Math.min(hits, trials); k++) sum += binomialChance(k, trials, p);
  return Math.min(1, sum);
}

/** The chance of at least `hits`. */
export function binomialAtLeast(hits: number, trials: number, p: number): number {
  let sum = 0;
  for (let k = trials; k >= Math.max(0, hits); k--) sum += binomialChance(k, trials, p);
  return Math.min(1, sum);
}

/** Outcomes whose chance is at most that of what was seen count as equally strange up to this much rounding. */
const AS_STRANGE = 1 + 1e-7;

/**
 * How strange a count is under a hypothesis: the chance of an outcome that is no more likely than the one seen.
 *
 * Units:  `p` is the share expected.
 * Source: the two-sided rule of [r-binom-test]; rule GE-27.
 */
export function binomialTest(hits: number, trials: number, p: number): number {
  const limit = binomialChance(hits, trials, p) * AS_STRANGE;
  let sum = 0;
  for (let k = 0; k <= trials; k++) {
    const chance = binomialChance(k, trials, p);
    if (chance <= limit) sum += chance;
  }
  return Math.min(1, sum);
}

/**
 * The shares that a count does not rule out, by exact tails: true shares lie outside in at most 1 - `confidence` of cases.
 *
 * Shape:  [0, 1] without trials.
 * Source: [clopper-pearson1934]; rule GE-27.
 */
export function shareInterval(
  hits: number,
  trials: number,
  confidence = 0.95,
): { readonly low: number; readonly high: number } {
  const tail = (1 - confidence) / 2;
  return {
    low: hits === 0 ? 0 : crossing((p) => binomialAtLeast(hits, trials, p) < tail),
    high: hits === trials ? 1 : crossing((p) => binomialAtMost(hits, trials, p) >= tail),
  };
}

/** Halvings that take an interval of 1 below the spacing of doubles. */
const HALVINGS = 60;

/** The place in [0, 1] up to which `holds` is true. */
function crossing(holds: (p: number) => boolean): number {
  let [low, high] = [0, 1];
  for (let k = 0; k < HALVINGS; k++) {
    const middle = (low + high) / 2;
    if (holds(middle)) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * The counts that are no surprise under a hypothesis: each tail beyond them has at most half of 1 - `confidence`.
 *
 * Shape: whole counts, both ends included.
 */
export function countInterval(
  trials: number,
  p: number,
  confidence = 0.95,
): { readonly low: number; readonly high: number } {
  const tail = (1 - confidence) / 2;
  let low = 0;
  for (let sum = binomialChance(0, trials, p); sum <= tail && low < trials; sum += binomialChance(low, trials, p))
    low++;
  let high = trials;
  for (let sum = binomialChance(trials, trials, p); sum <= tail && high > 0; sum += binomialChance(high, trials, p))
    high--;
  return { low, high };
}

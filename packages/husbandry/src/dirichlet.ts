import type { Random } from "@pollard/base";

/** One draw from the standard normal distribution (Box and Muller's pair, one half of it). */
function normalDraw(random: Random): number {
  return Math.sqrt(-2 * Math.log(1 - random.next())) * Math.cos(2 * Math.PI * random.next());
}

/**
 * The natural log of one draw from the gamma distribution with this shape and scale 1.
 *
 * Marsaglia and Tsang's squeeze for shapes from 1 on; below 1 a draw at shape + 1 times U^(1/shape), kept in logs because
 * for small shapes the draw itself underflows.
 *
 * Assumes: shape above 0.
 * Source:  [marsaglia-tsang2000], from memory; its mean and variance are checked in the tests.
 */
export function logGammaDraw(shape: number, random: Random): number {
  if (shape < 1) return logGammaDraw(shape + 1, random) + Math.log(1 - random.next()) / shape;
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = normalDraw(random);
    const v = (1 + c * x) ** 3;
    if (v > 0 && Math.log(1 - random.next()) < x * x * 0.5 + d * (1 - v + Math.log(v))) return Math.log(d * v);
  }
}

/** Smallest chance a draw may give: keeps log-odds finite where a small count draws an all but impossible answer. */
const LEAST_CHANCE = 1e-12;

/** One draw of a row's chances from its pseudo-counts (Dirichlet). Sums to 1; no chance is 0. */
export function dirichletDraw(counts: readonly number[], random: Random): readonly number[] {
  const logs = counts.map((c) => logGammaDraw(c, random));
  const top = Math.max(...logs);
  const weights = logs.map((l) => Math.max(LEAST_CHANCE, Math.exp(l - top)));
  const sum = weights.reduce((a, b) => a + b, 0);
  return weights.map((w) => w / sum);
}

/** Recombination fraction with the strength of evidence for it: base-10 log of the odds against no linkage. */
export interface Lod {
  readonly theta: number;
  readonly lod: number;
}

/** x ln(p), where nothing seen of something impossible counts as nothing. */
const logPower = (x: number, p: number): number => (x === 0 ? 0 : x * Math.log10(p));

/**
 * The evidence for linkage at a recombination fraction when it is known which kids are recombinants.
 *
 * Units:  `theta` from 0 to 1/2; decimal logs. 3 is taken as proof, -2 as exclusion [morton1955].
 * Shape:  -Infinity where a recombinant was seen and `theta` is 0.
 * Source: [morton1955]; rule GE-29.
 */
export const lodPhaseKnown = (kids: number, recombinants: number, theta: number): number =>
  kids * Math.log10(2) + logPower(recombinants, theta) + logPower(kids - recombinants, 1 - theta);

/**
 * The same when the parent's phase is unknown: kids fall into two groups, and either may be the recombinants.
 *
 * Source: [morton1955]; rule GE-29.
 */
export function lodPhaseUnknown(oneGroup: number, otherGroup: number, theta: number): number {
  const [a, b] = [
    lodPhaseKnown(oneGroup + otherGroup, oneGroup, theta),
    lodPhaseKnown(oneGroup + otherGroup, otherGroup, theta),
  ];
  const top = Math.max(a, b);
  return top === Number.NEGATIVE_INFINITY ? top : top + Math.log10((10 ** (a - top) + 10 ** (b - top)) / 2);
}

/** The most likely recombination fraction where phase is known: the share of recombinants, at most one half. */
export function bestLodPhaseKnown(kids: number, recombinants: number): Lod {
  const theta = kids === 0 ? 0.5 : Math.min(0.5, recombinants / kids);
  return { theta, lod: lodPhaseKnown(kids, recombinants, theta) };
}

/** Steps of the first look over [0, 1/2], and narrowings of the best of them. */
const STEPS = 50;
const NARROWINGS = 60;

/** The most likely recombination fraction where phase is unknown, found by narrowing the best of fifty places. */
export function bestLodPhaseUnknown(oneGroup: number, otherGroup: number): Lod {
  const at = (theta: number): number => lodPhaseUnknown(oneGroup, otherGroup, theta);
  let best = 0;
  for (let k = 1; k <= STEPS; k++) if (at((0.5 * k) / STEPS) > at((0.5 * best) / STEPS)) best = k;
  let [low, high] = [(0.5 * Math.max(0, best - 1)) / STEPS, (0.5 * Math.min(STEPS, best + 1)) / STEPS];
  for (let k = 0; k < NARROWINGS; k++) {
    const third = (high - low) / 3;
    if (at(low + third) < at(high - third)) low += third;
    else high -= third;
  }
  const theta = [low, (low + high) / 2, high, (0.5 * best) / STEPS].reduce((a, b) => (at(b) > at(a) ? b : a));
  return { theta, lod: at(theta) };
}

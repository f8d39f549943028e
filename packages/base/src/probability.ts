import type { Brand } from "./brand.ts";
import { Bug } from "./bug.ts";

/** A chance, in [0, 1]. Never a percentage: only the screen counts it out. */
export type Probability = Brand<number, "Probability">;

/** How far outside [0, 1] rounding alone may push a computed chance; pulled back to the edge. */
const ROUNDING_SLACK = 1e-9;

/** @throws Bug outside [0, 1] by more than rounding, NaN included: the caller's arithmetic is wrong. */
export function probability(x: number): Probability {
  if (!(x >= -ROUNDING_SLACK && x <= 1 + ROUNDING_SLACK)) throw new Bug(`not a probability: ${x}`);
  return Math.min(1, Math.max(0, x)) as Probability;
}

/** Weight of evidence of a chance: its natural log-odds; infinite at 0 and 1. */
export const logOdds = (p: number): number => Math.log(p) - Math.log1p(-p);

/** The chance whose natural log-odds are `w`. */
export const fromLogOdds = (w: number): Probability => probability(1 / (1 + Math.exp(-w)));

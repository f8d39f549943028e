/** Kids below which a line of calls or a reader's record is too short to lean on. Judgement. */
export const FEW = 8;

/** Chance of a wrong sire from which it is named as the likeliest reason. Judgement. */
export const LIKELY_WRONG_SIRE = 0.5;

/** How loudly a fact speaks, where it says anything. */
export type Loudness = "strongly" | "clearly" | "a-little";

/** Bands of the weight of evidence, in natural log-odds: odds of 10, 3 and 1.25 to one. Judgement. */
const BANDS: readonly (readonly [number, Loudness])[] = [
  [Math.log(10), "strongly"],
  [Math.log(3), "clearly"],
  [Math.log(1.25), "a-little"],
];

/** How loudly evidence of that weight speaks, either way; `undefined` where it says little. */
export const loudnessOf = (logOdds: number): Loudness | undefined =>
  BANDS.find(([least]) => Math.abs(logOdds) >= least)?.[1];

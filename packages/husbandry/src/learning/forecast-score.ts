/** A chance that was given, and what came of it. */
export interface Call {
  /** Chance of horns that was given. */
  readonly horns: number;
  readonly grew: "horns" | "polled";
}

/** How good a set of calls was. Lower is better in both. */
export interface Score {
  readonly kids: number;
  /** Mean squared distance between chance and truth: 0 is perfect, 0.25 is what "half and half" always gets. */
  readonly brier: number;
  /** Mean of −ln of the chance given to what came true: 0 is perfect, 0.69 is what "half and half" always gets. */
  readonly logScore: number;
}

/** The least chance a call is taken to have given, so that one wrong record cannot drown everything. Our judgement. */
const LEAST_CHANCE = 0.001;

/**
 * How good these calls were, on the whole.
 *
 * Shape:  `undefined` for no calls.
 * Source: [brier1950]; [good1952] for the logarithmic score; rule HD-26.
 */
export function scoreOf(calls: readonly Call[]): Score | undefined {
  if (calls.length === 0) return undefined;
  const given = calls.map((c) => (c.grew === "horns" ? c.horns : 1 - c.horns));
  return {
    kids: calls.length,
    brier: given.reduce((sum, p) => sum + (1 - p) ** 2, 0) / calls.length,
    logScore: given.reduce((sum, p) => sum - Math.log(Math.max(LEAST_CHANCE, p)), 0) / calls.length,
  };
}

/** The calls of about one chance, and how many of their kids grew horns. */
export interface CalibrationBin {
  /** Chances from `from` up to but not including `to` (the last bin includes 1). */
  readonly from: number;
  readonly to: number;
  readonly kids: number;
  readonly meanCall: number;
  readonly horned: number;
  /** Where the true share may well lie, from this many kids: Wilson's interval at 90 %. */
  readonly low: number;
  readonly high: number;
}

/** Bounds between kinds of call: close to none, about 1 in 5, doubtful, about 4 in 5, close to all. */
const BOUNDS = [0, 0.1, 0.3, 0.7, 0.9, 1];
/** Two-sided 90 % point of the standard normal distribution. */
const Z90 = 1.6449;

/** Of the calls of about 9 in 10, how many came true? One line for each kind of call that was made. */
export function calibration(calls: readonly Call[]): readonly CalibrationBin[] {
  return BOUNDS.slice(0, -1).flatMap((from, i) => {
    const to = BOUNDS[i + 1] ?? 1;
    const its = calls.filter((c) => c.horns >= from && (c.horns < to || to === 1));
    if (its.length === 0) return [];
    const horned = its.filter((c) => c.grew === "horns").length;
    const meanCall = its.reduce((sum, c) => sum + c.horns, 0) / its.length;
    return [{ from, to, kids: its.length, meanCall, horned, ...wilson(horned, its.length, Z90) }];
  });
}

/**
 * Where a true share may lie, given `yes` of `n`.
 *
 * Source: [wilson1927]; checked against [newcombe1998].
 */
export function wilson(yes: number, n: number, z: number): { readonly low: number; readonly high: number } {
  const middle = (yes + (z * z) / 2) / (n + z * z);
  const half = (z / (n + z * z)) * Math.sqrt((yes * (n - yes)) / n + (z * z) / 4);
  return { low: Math.max(0, middle - half), high: Math.min(1, middle + half) };
}

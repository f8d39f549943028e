import type { Sourced } from "@pollard/base";

/** How the bud was treated under the iron. */
export const TECHNIQUES = ["bud-removed", "bud-left"] as const;
export type Technique = (typeof TECHNIQUES)[number];

/** What may be found where a bud was disbudded, about three months later. */
export const REGROWTHS = ["nothing", "scur", "horn", "soft-lump"] as const;
export type Regrowth = (typeof REGROWTHS)[number];

/** A share as printed, with its 95 % interval. */
export interface PrintedShare {
  readonly share: number;
  readonly low: number;
  readonly high: number;
}

/**
 * What grew after disbudding with an iron, per bud: 243 Saanen doe kids of 4 days, two farms, watched for three months.
 *
 * Each figure is a separate estimate of a model, so a row need not sum to 1; `undefined` was not printed or not observed.
 * No figure exists for bucklings, for other ages, or for the two buds of one kid together.
 */
export const PRINTED_REGROWTH: Sourced<
  Readonly<Record<Technique, Readonly<Record<Regrowth, PrintedShare | undefined>>>>
> = {
  value: {
    "bud-removed": {
      nothing: { share: 0.77, low: 0.63, high: 0.87 },
      scur: { share: 0.25, low: 0.17, high: 0.34 },
      horn: undefined,
      "soft-lump": undefined,
    },
    "bud-left": {
      nothing: { share: 0.2, low: 0.11, high: 0.34 },
      scur: { share: 0.3, low: 0.21, high: 0.39 },
      horn: { share: 0.02, low: 0.01, high: 0.06 },
      "soft-lump": { share: 0.41, low: 0.25, high: 0.6 },
    },
  },
  source: "hempstead2018",
  checked: "read-in-source",
};

/** How many buds the printed shares count for against a herd's own: their intervals are about as wide as 40 buds give. */
const PRINTED_WEIGHT = 40;
/** What a regrowth counts for where the study saw none: a twentieth of a bud in forty. Our judgement. */
const NEVER_SEEN = 0.05;

/**
 * What to expect of one disbudded bud, as pseudo-counts to which a herd's own buds are added.
 *
 * Shape: in the order of `REGROWTHS`; sums to 40; the printed shares rescaled to sum to 1.
 */
export function regrowthPrior(technique: Technique): readonly number[] {
  const printed = PRINTED_REGROWTH.value[technique];
  const shares = REGROWTHS.map((r) => printed[r]?.share ?? 0);
  const sum = shares.reduce((a, b) => a + b, 0);
  const counts = shares.map((s) => (s === 0 ? NEVER_SEEN : (s / sum) * PRINTED_WEIGHT));
  const total = counts.reduce((a, b) => a + b, 0);
  return counts.map((c) => (c / total) * PRINTED_WEIGHT);
}

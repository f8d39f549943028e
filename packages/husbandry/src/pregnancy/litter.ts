import type { Sourced } from "@pollard/base";
import { type Probability, probability } from "@pollard/base";
import { normalBelow } from "./gestation.ts";

/** Kids per kidding in eight kinds of goat. */
export const MEAN_LITTER_SIZE: Sourced<number> = { value: 1.85, source: "amoah1996", checked: "read-in-source" };
/** Its spread (one standard deviation), kids. */
export const LITTER_SIZE_SD: Sourced<number> = { value: 0.67, source: "amoah1996", checked: "read-in-source" };
/** Kids fewer at a doe's first kidding: 1.52 against 2.07 over all, in dwarf goats of Ghana. */
export const FIRST_KIDDING_SHIFT: Sourced<number> = { value: -0.55, source: "hagan2014", checked: "read-in-source" };

/**
 * Spread of the bell that is cut into whole kids. Chosen so that the cut bell has the printed spread of 0.67 at the printed
 * mean: a bell cut at one kid loses some of its width.
 */
const BELL_SD = 0.64;
/** Most kids that a litter is thought to have; larger ones count as this. */
export const MOST_KIDS = 5;
/** How many kiddings of this herd weigh as much as the published mean. */
const OWN_WEIGHT: Sourced<number> = { value: 20, source: "judgement", checked: "judgement" };

/** What is known of a doe's coming litter. */
export interface LitterFacts {
  /** Whether she has kidded before, where that is known. */
  readonly kiddedBefore?: "yes" | "no";
  /** Litters of this herd so far. */
  readonly own?: { readonly kiddings: number; readonly kids: number };
}

/**
 * The chance of one kid, of two, and so on, for litters with this mean.
 *
 * A bell around the mean, cut half-way between whole numbers; what lies below one kid counts as one.
 *
 * Shape:   from one kid to `MOST_KIDS`; sums to 1.
 * Source:  spread [amoah1996]; the shape is judgement, held against the table of [garcia1996] in the tests. Rule HD-30.
 */
export function litterSizesOf(mean: number): readonly Probability[] {
  const below = (kids: number) => (kids < 1 ? 0 : kids >= MOST_KIDS ? 1 : normalBelow((kids + 0.5 - mean) / BELL_SD));
  return Array.from({ length: MOST_KIDS }, (_, i) => probability(below(i + 1) - below(i)));
}

/**
 * The chance of each litter size for this doe: the published mean, drawn towards the herd's own litters as they are counted,
 * and fewer at a first kidding.
 */
export function litterSizes({ kiddedBefore, own = { kiddings: 0, kids: 0 } }: LitterFacts): readonly Probability[] {
  const herd = (OWN_WEIGHT.value * MEAN_LITTER_SIZE.value + own.kids) / (OWN_WEIGHT.value + own.kiddings);
  return litterSizesOf(herd + (kiddedBefore === "no" ? FIRST_KIDDING_SHIFT.value : 0));
}

/** Days after conception up to which kids are counted best by ultrasound; later they hide behind each other. */
const COUNTED_BEST: Sourced<{ readonly from: number; readonly to: number }> = {
  value: { from: 45, to: 85 },
  source: "msd-pregnancy",
  checked: "read-in-source",
};
/** How often a count is right, one too low and one too high: in those days, and outside them. No published rates found. */
const COUNT_RIGHT: Sourced<{
  readonly best: readonly [number, number, number];
  readonly other: readonly [number, number, number];
}> = {
  value: { best: [0.85, 0.12, 0.03], other: [0.6, 0.3, 0.1] },
  source: "judgement",
  checked: "judgement",
};

/** How well a litter of `kids` explains that `counted` were counted, `daysAfter` conception. Relative: compare litters only. */
export function countLikelihood(kids: number, counted: number, daysAfter: number): number {
  const best = daysAfter >= COUNTED_BEST.value.from && daysAfter <= COUNTED_BEST.value.to;
  const [right, oneLess, oneMore] = COUNT_RIGHT.value[best ? "best" : "other"];
  const capped = Math.min(counted, MOST_KIDS);
  if (capped === kids) return right;
  if (capped === kids - 1) return oneLess;
  return capped === kids + 1 ? oneMore : oneMore / 10;
}

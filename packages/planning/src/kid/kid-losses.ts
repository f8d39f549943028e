import type { Sourced } from "@pollard/base";

/**
 * What weighs how much in the decision about a kid's head, compared with one needless disbudding, which is 1.
 *
 * All in the keeper's settings. Only their proportions matter.
 */
export interface KidLosses {
  /** A polled kid that is put through the operation for nothing. */
  readonly needlessDisbudding: number;
  /** A kid that grows horns because nobody asked for the vet inside the window. */
  readonly missedHorns: number;
  /** Each day that a horned kid is done after the best days are over, inside the window; twice that once it is amber. */
  readonly lateDay: number;
  /** Each day that a horned kid is done before the best days: a bud that is hard to find grows back more often. */
  readonly earlyDay: number;
  /** One visit that would not have been made but for this kid. */
  readonly extraTrip: number;
  /** Catching the kid and looking at its head once more. */
  readonly look: number;
}

/**
 * What weighs how much until the keeper says otherwise.
 *
 * Our judgement: a horned goat in a hornless herd is later dehorned, sold or lives with the risk, which is taken as three
 * needless operations on a kid; a trip as half of one; a day of delay past the best days as a
 * tenth, and a look as three hundredths, so that looking again must be worth its while.
 */
export const DEFAULT_LOSSES: Sourced<KidLosses> = {
  value: { needlessDisbudding: 1, missedHorns: 3, lateDay: 0.1, earlyDay: 0.1, extraTrip: 0.5, look: 0.03 },
  source: "judgement",
  checked: "judgement",
};

/** Which figures of the losses make no sense: below 0, or not a number. An empty list = all is well. */
export const badLosses = (losses: KidLosses): readonly (keyof KidLosses)[] =>
  (Object.keys(DEFAULT_LOSSES.value) as (keyof KidLosses)[]).filter(
    (name) => !(losses[name] >= 0 && Number.isFinite(losses[name])),
  );

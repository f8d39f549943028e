import type { PolledBelief } from "@pollard/genetics";

/** One of the bucks a policy works with, and where the next one comes from. */
export interface BuckPlace {
  /** Bought in, unrelated to the herd; or chosen from the year's own buck kids, bought where there is none. */
  readonly from: "bought" | "own";
  readonly look: "polled" | "horned";
  /** What a bought buck of this look carries. */
  readonly bought: PolledBelief;
  /** Seasons that a buck serves before the next one takes his place. */
  readonly years: number;
}

/**
 * How a herd is bred for some years.
 *
 * `apart`: no polled buck on a polled doe; a doe for whom no buck is left stays open. `polledShare`: of daughters polled
 * ones are kept while the does' polled share is below it, horned ones above; `undefined` keeps them as they come.
 */
export interface BreedingPolicy {
  readonly name: string;
  readonly pairing: "apart" | "any";
  readonly bucks: readonly BuckPlace[];
  readonly doesPerBuck: number;
  /** Breeding does wished. */
  readonly does: number;
  readonly polledShare: number | undefined;
  /** Seasons a doe is bred before she leaves. */
  readonly doeYears: number;
}

/** What is the same whatever the policy. */
export interface ForecastWorld {
  /** Chance of each number of kids at a kidding, from none. */
  readonly litter: readonly number[];
  /** Chance that a kid lives to the days in which its head matters. */
  readonly kidLives: number;
  /** Chance that a doe dies or has to leave in a year, whatever her age. */
  readonly doeLost: number;
  /** Days over which the kiddings of a season spread, evenly. */
  readonly kiddingDays: number;
  /** Days of age between which the vet sees a kid. */
  readonly visitAges: { readonly from: number; readonly to: number };
  readonly visitCost: number;
  readonly headCost: number;
}

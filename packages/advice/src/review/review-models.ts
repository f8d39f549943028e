import type { Day, Probability } from "@pollard/base";
import type { PolledBelief } from "@pollard/genetics";
import type { Money } from "../pairing/money.ts";
import type { AnimalRef } from "../animal-ref.ts";
import type { Counted } from "../counted.ts";
import type { HeadRecordModel } from "../heads/record-models.ts";
import type { Truth } from "../heads/truths.ts";

/** What was seen against what was to be expected, with the chance of something as odd or odder. */
export interface SeenAgainstExpected {
  readonly seen: number;
  readonly of: number;
  /** Nine in ten seasons lie from `low` to `high`. */
  readonly mean: number;
  readonly low: number;
  readonly high: number;
  readonly p: Probability;
  readonly verdict: Verdict;
}

/** `as-expected` up to one in twenty; `unusual` beyond it; `very-unusual` beyond one in two hundred. */
export type Verdict = "as-expected" | "unusual" | "very-unusual";

/** Why a kid may have turned out as nobody expected, with the chance of each. */
export interface SurpriseReason {
  readonly kind: "other-sire" | "other-dam" | "misread" | "parent-not-as-thought";
  readonly chance: Probability;
  /** The same counted out of ten. */
  readonly counted: Counted;
}

/** A kid whose head surprised. */
export interface Surprise {
  readonly kid: AnimalRef;
  readonly head: Truth["head"];
  readonly from: Truth["from"];
  /** How likely that was before the season. */
  readonly expected: Probability;
  readonly explanations: readonly SurpriseReason[];
}

/** What a season taught about one parent. */
export interface LearntOfParent {
  readonly animal: AnimalRef;
  readonly before: PolledBelief;
  readonly now: PolledBelief;
  /** Share of the belief that moved, 0 to 1. */
  readonly moved: number;
}

/** One sire's kids of the season whose heads are known. */
export interface SireSeason {
  readonly buck: AnimalRef;
  readonly horned: SeenAgainstExpected;
}

/** A season against what was to be expected of it on the morning before its first birth. */
export type ReviewModel =
  | { readonly kind: "no-season" }
  | {
      readonly kind: "season";
      readonly from: Day;
      readonly to: Day;
      readonly kiddings: number;
      readonly kids: number;
      readonly bornDead: number;
      /** Kids whose heads are known for themselves; the others wait for the three-month check. */
      readonly horned: SeenAgainstExpected;
      readonly notKnown: number;
      /** Kids in whom signs of both sexes were seen. */
      readonly intersex: SeenAgainstExpected;
      /** Bucklings among the kids, against one half. */
      readonly bucks: SeenAgainstExpected;
      readonly sires: readonly SireSeason[];
      readonly surprises: readonly Surprise[];
      /** The most moved first. */
      readonly learnt: readonly LearntOfParent[];
      readonly readings: HeadRecordModel;
      readonly vet: {
        readonly visits: number;
        readonly heads: number;
        readonly leftAlone: number;
        /** In the keeper's money, where prices are set. */
        readonly cost: number | undefined;
        readonly money: Money;
      };
    };

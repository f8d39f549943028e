import type { Day, Probability } from "@pollard/base";
import type { HeadSigns, Sided } from "@pollard/husbandry";
import type { EntryId } from "@pollard/records";
import type { AnimalRef } from "../animal-ref.ts";
import type { Counted } from "../counted.ts";

/** How far one fact moves the belief in horns: natural log-odds, positive towards horns. */
export interface WeighedFact {
  readonly fact: WeighedFactKind;
  readonly logOdds: number;
  /** The entry it stands in; `undefined` for what the pedigree says. */
  readonly entry: EntryId | undefined;
  readonly ageDays: number | undefined;
  readonly by: string | undefined;
}

/** What a fact that moved a belief is: the family, a sign, what the vet found, a test, what grew. */
export type WeighedFactKind =
  | { readonly kind: "pedigree" }
  | { readonly kind: "sign"; readonly sign: keyof HeadSigns; readonly finding: Sided<string> }
  | { readonly kind: "vet-finding"; readonly finding: Sided<string> }
  | { readonly kind: "growth"; readonly finding: Sided<string> }
  | { readonly kind: "dna-test"; readonly finding: string }
  | { readonly kind: "other" };

/** What is believed of a kid's horns, and why. */
export interface HornsBelief {
  /** Chance that it grows horns, from everything known. */
  readonly horns: Probability;
  /** Range from the uncertainty of the tables of signs (5th and 95th percentile). */
  readonly low: Probability;
  readonly high: Probability;
  /** The same chance from the pedigree alone, without this kid's own head. */
  readonly forecast: Probability;
  readonly counted: Counted;
  /** The same chance by the tables the herd began with, and how many of its own kids have moved them since. */
  readonly unlearnt: Probability;
  readonly learntFrom: number;
  /** In the order in which they came; sums, with the forecast, to the log-odds of `horns`. */
  readonly weighed: readonly WeighedFact[];
  readonly readings: number;
  readonly readers: readonly string[];
}

/** One thing that could be done about a kid, and what it is expected to cost in the keeper's own terms. */
export interface WeighedAction {
  readonly kind: "leave" | "look-again" | "vet-list";
  /** Day of the look or of the visit; `undefined` for `leave`. */
  readonly day: Day | undefined;
  /** A visit that is planned already, or one more trip. */
  readonly visit: "planned" | "extra" | undefined;
  /** In needless disbuddings: the keeper's own terms. */
  readonly expectedLoss: number;
}

/** What is advised for one kid's head. "Too late" and "read it first" are answers. */
export type KidAdvice =
  | { readonly kind: "read-head"; readonly from: Day; readonly by: Day; readonly end: Day; readonly rule: string }
  | { readonly kind: "finish-reading"; readonly by: Day; readonly end: Day; readonly rule: string }
  | {
      readonly kind: "leave" | "look-again" | "vet-list";
      readonly day: Day | undefined;
      readonly visit: "planned" | "extra" | undefined;
      /** Last day of the window. */
      readonly end: Day;
      /** Every action that is still open, the advised one first. */
      readonly actions: readonly WeighedAction[];
      /** Chance of horns up to which leaving is best, and from which the vet's list is; `undefined` where it never flips. */
      readonly leaveUpTo: Probability | undefined;
      readonly listFrom: Probability | undefined;
      /** Chance that the advice, followed to its end, leaves a horned kid to grow, or puts a polled one through it. */
      readonly missed: Probability;
      readonly needless: Probability;
      /** What one more look is expected to save, in the unit of the losses. */
      readonly lookSaves: number;
      readonly rule: string;
    }
  | { readonly kind: "ring-vet"; readonly end: Day; readonly rule: string }
  | {
      readonly kind: "done";
      readonly what: KidDone;
      readonly rule: string;
    };

/** Why nothing is left to decide about a head. */
export type KidDone = "disbudded" | "left-alone" | "outcome-known" | "left-herd" | "born-dead" | "grown";

/** Where a kid stands in the days in which its head matters. Ages in whole days. */
export interface KidAges {
  readonly born: Day;
  readonly ageDays: number;
  /** Age counted from the due date, for a kid that came early; the window is shown from both. */
  readonly daysFromDue: number | undefined;
  readonly early: number | undefined;
}

/** Everything a screen says of one kid's head. */
export interface KidModel {
  readonly kid: AnimalRef;
  readonly dam: AnimalRef | undefined;
  readonly sires: readonly { readonly sire: AnimalRef | undefined; readonly chance: Probability }[];
  readonly ages: KidAges;
  /** Absent until a reading of this kid is stored: eyes first, forecast after. */
  readonly belief: HornsBelief | undefined;
  readonly advice: KidAdvice;
  /** What the keeper chose last, and whether the advice has changed since. */
  readonly chosen: { readonly choice: "leave" | "look-again" | "vet-list"; readonly day: Day | undefined } | undefined;
  /** Signs on which two of its readers lean opposite ways. */
  readonly apart: readonly ReadersApart[];
  readonly fourBuds: boolean;
  /** Polled kid of two polled parents that looks like a doe or is unsure: intersex is to be ruled out before breeding or sale. */
  readonly intersexWatch: boolean;
}

/** A sign on which two readers of one head lean opposite ways. */
export interface ReadersApart {
  readonly sign: keyof HeadSigns;
  readonly readings: readonly { readonly by: string; readonly ageDays: number; readonly finding: Sided<string> }[];
}

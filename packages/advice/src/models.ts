import type { Day, Probability } from "@pollard/base";
import type { AnimalId, PolledBelief, Suspects } from "@pollard/genetics";
import type { CareTaskCode, GrowthState, Ranged, CareCaution, HeadSigns, Sided } from "@pollard/husbandry";
import type { Animal, EntryId, HerdProblem, Sex } from "@pollard/records";
import type { FindingProblem, LocusSettingProblem } from "./belief/loci.ts";
import type { ReadersApart } from "./heads/record-models.ts";

/** Enough to say which goat is meant. Without name and tag, the dam and the mark tell. */
export interface AnimalRef {
  readonly id: AnimalId;
  readonly name: string | undefined;
  readonly tag: string | undefined;
  readonly mark: string | undefined;
  readonly sex: Sex;
  readonly damName: string | undefined;
}

/**
 * A chance counted out for a person: `count` of `of` alike, e.g. 3 of 4.
 *
 * `about`: rounded to the nearest count. `under-one` / `all-but-one`: nearer to none or to all than the count can say.
 * `proven`: logic or a confirmed result, the only case in which none or all is said outright.
 */
export interface Counted {
  readonly of: 4 | 10 | 20 | 100;
  readonly count: number;
  readonly sense: "about" | "under-one" | "all-but-one" | "proven";
}

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

/** One thing to do, with by-when. In order of urgency. */
export type Task =
  | { readonly kind: "ring-vet"; readonly kid: AnimalRef; readonly end: Day }
  | {
      readonly kind: "vet-visit";
      readonly day: Day;
      readonly kids: readonly AnimalRef[];
      readonly unread: readonly AnimalRef[];
    }
  | { readonly kind: "ask-vet-to-come"; readonly day: Day; readonly end: Day; readonly kids: readonly AnimalRef[] }
  | { readonly kind: "read-head"; readonly kid: AnimalRef; readonly from: Day; readonly by: Day; readonly end: Day }
  | { readonly kind: "finish-reading"; readonly kid: AnimalRef; readonly by: Day; readonly end: Day }
  | { readonly kind: "look-again"; readonly kid: AnimalRef; readonly day: Day; readonly end: Day }
  | {
      readonly kind: "advice-changed";
      readonly kid: AnimalRef;
      readonly chosen: string;
      readonly advised: string;
      readonly end: Day;
    }
  | {
      readonly kind: "kidding-due";
      readonly doe: AnimalRef;
      readonly from: Day;
      readonly likely: Day;
      readonly to: Day;
      readonly overdue: boolean;
    }
  | { readonly kind: "check-growth"; readonly animal: AnimalRef; readonly from: Day; readonly by: Day }
  /** A kid that is lighter than before, or gains less than half of what kids like it do. */
  | {
      readonly kind: "falling-behind";
      readonly kid: AnimalRef;
      readonly how: "losing" | "slow";
      readonly lastKg: number;
      readonly weighed: Day;
    }
  /** Kids lost before their time: catching, for other goats and for people, until a vet has said otherwise. */
  | { readonly kind: "lost-kids"; readonly doe: AnimalRef; readonly on: Day }
  /** One task of care, for every animal whose turn it is. */
  | {
      readonly kind: "care";
      readonly code: CareTaskCode;
      readonly animals: readonly AnimalRef[];
      readonly by: Day;
      readonly ask: "do" | "ask-vet" | "check-law";
    }
  | { readonly kind: "problems"; readonly count: number };

/** How soon a task is due. Drives order, word and shape on every screen and sheet. */
export type Urgency = "now" | "soon" | "planned";

/** A task with the last day for it. */
export interface DatedTask {
  readonly task: Task;
  readonly by: Day;
  readonly daysLeft: number;
  readonly urgency: Urgency;
}

/** What today asks of the keeper, the most urgent first. */
export interface TodayModel {
  readonly today: Day;
  readonly tasks: readonly DatedTask[];
  /** Kids whose heads still matter, and the does still to kid: shown when there is nothing to do. */
  readonly kidsInWindow: number;
  readonly doesToKid: number;
}

/** One line of the vet's list. */
export interface VetListLine {
  readonly kid: AnimalRef;
  readonly dam: AnimalRef | undefined;
  readonly born: Day;
  readonly ageOnDay: number;
  readonly daysFromDueOnDay: number | undefined;
  readonly weight: { readonly kg: number; readonly on: Day; readonly how: "weighed" | "guessed" } | undefined;
  readonly belief: HornsBelief | undefined;
  readonly why: "chosen" | "advised" | "unread" | "undecided";
  /** Since which day it stands on this list, so that a list printed before that day lacks it. */
  readonly since: Day;
  /** What it is expected to weigh on the day, with the range that holds nine in ten, and how it grows. */
  readonly expectedKg: Ranged | undefined;
  readonly growth: GrowthState;
  readonly gainKgADay: Ranged | undefined;
  /** The dam's booster in time before the birth, and the kid's own cover: days on record, or not known. */
  readonly tetanus: { readonly damBooster: Day | undefined; readonly kid: Day | undefined };
  readonly colostrum: "given" | "not-recorded";
  /** What is pressing for this kid before the vet touches it. */
  readonly pressing: readonly (CareCaution | "very-small-kid")[];
  readonly end: Day;
  readonly notes: readonly string[];
  /** What was done at this visit, once entered. */
  readonly done: Animal["disbuddings"][number] | undefined;
}

/** The kids to show the vet on one day, those that need not come, and those to look at first. */
export interface VetListModel {
  readonly day: Day;
  readonly planned: boolean;
  readonly vet: string | undefined;
  /** To be seen by the vet, the oldest first. */
  readonly list: readonly VetListLine[];
  /** Not on the list, but look at them before the vet goes: unread or undecided. */
  readonly lookFirst: readonly VetListLine[];
  readonly cautions: readonly CareCaution[];
}

/** What is known of one animal's genotype, in the words that evidence allows. */
export interface GenotypeSaid {
  readonly belief: PolledBelief;
  /** `proven` by test or logic, `near-sure` from 99 in 100, `likely` from 9 in 10, else `open`. */
  readonly surety: "proven" | "near-sure" | "likely" | "open";
  readonly polled: Counted;
  readonly carrier: Counted;
  /** Kids whose horns are known, and of these the horned, by this animal: what the belief leans on. */
  readonly kidsKnown: number;
  readonly kidsHorned: number;
  readonly tests: number;
}

/** All that is shown of one animal: its record, its kin, what is believed of it and why. */
export interface AnimalModel {
  readonly ref: AnimalRef;
  readonly animal: Animal;
  readonly dam: AnimalRef | undefined;
  readonly sires: readonly { readonly sire: AnimalRef | undefined; readonly chance: Probability }[];
  readonly kids: readonly AnimalRef[];
  readonly genotype: GenotypeSaid;
  readonly kid: KidModel | undefined;
}

/** A line of the list of animals. */
export interface AnimalLine {
  readonly ref: AnimalRef;
  readonly born: Day | undefined;
  readonly gone: boolean;
  readonly urgency: Urgency | undefined;
  readonly surety: GenotypeSaid["surety"];
  /** What its head is: as seen, or as believed. */
  readonly head: "horned" | "polled" | "disbudded" | "unknown";
}

/** The locus at which something does not fit, and the records that may be wrong. */
export interface ProblemLocus {
  readonly id: string;
  readonly name: string;
  readonly suspects: Suspects;
}

/** What contradicts itself: in the record, or between the record and how polledness is inherited. */
export type AdviceProblem =
  | HerdProblem
  | {
      readonly code: "cannot-be";
      readonly locus: ProblemLocus;
      /** The smallest set of facts that cannot all be true. */
      readonly entries: readonly EntryId[];
      readonly animals: readonly AnimalRef[];
      readonly what: "horned-kid-of-polled" | "polled-kid-of-horned" | "other";
    }
  | {
      readonly code: "hard-to-believe";
      readonly locus: ProblemLocus;
      readonly entries: readonly EntryId[];
      readonly animal: AnimalRef;
      readonly what: "horned-kid-of-polled" | "polled-kid-of-horned" | "other";
      /** Chance that the recorded sire is not the sire, after everything known. */
      readonly wrongSire: Probability;
    }
  /** Likely one newborn, entered on two phones: a person says, and the answer is kept as the setting `key`. */
  | {
      readonly code: "same-kid";
      /** The two kiddings that it stands in. */
      readonly entries: readonly EntryId[];
      readonly animals: readonly [AnimalRef, AnimalRef];
      readonly key: string;
    }
  | { readonly code: "odd-gestation"; readonly entry: EntryId; readonly animal: AnimalRef; readonly days: number }
  /** A locus of the keeper's own that cannot be used; it stands in the settings, so no entry is named. */
  | {
      readonly code: "bad-locus";
      readonly entries: readonly EntryId[];
      readonly locus: string;
      readonly problem: LocusSettingProblem;
    }
  /** A test or trait on record that says nothing at its locus. */
  | {
      readonly code: "unreadable-finding";
      readonly entry: EntryId;
      readonly animal: AnimalRef;
      readonly locus: string;
      readonly problem: FindingProblem;
    };

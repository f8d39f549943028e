import type { HeadSigns, Regrowth, Score, Sided, Technique } from "@pollard/husbandry";
import type { AnimalRef } from "../animal-ref.ts";
import type { Counted } from "../counted.ts";
import type { KidModel } from "./kid-models.ts";
import type { Truth } from "./truths.ts";

/** What the herd's own heads can teach, each a share that a person can picture. */
export type LessonCode =
  | "whorls-on-horned"
  | "whorls-on-polled"
  | "flat-on-horned"
  | "flat-on-polled"
  | "early-bud-buck"
  | "early-bud-doe"
  | "bump-on-smooth"
  | "pointed-told";

/** What the tables said before this herd's own kids, and what they say with them. */
export interface LearntModel {
  /** Kids behind it: read when newborn, and known for themselves since. */
  readonly kids: number;
  readonly truths: readonly { readonly from: Truth["from"]; readonly kids: number }[];
  readonly lessons: readonly {
    readonly code: LessonCode;
    readonly before: Counted;
    readonly after: Counted;
    /** Heads, or answers, behind this one; parts of heads added up. */
    readonly seen: number;
  }[];
  /** Readers with kids enough for tables of their own. */
  readonly readers: readonly { readonly reader: string; readonly kids: number }[];
  /** Breeds whose buds come later (days above 0) or earlier than others'. */
  readonly breeds: readonly { readonly breed: string; readonly days: number }[];
}

/** The calls of about one chance, and what came of their kids. */
export interface CallLine {
  readonly kids: number;
  readonly horned: number;
  /** The chance of horns that was called, on the mean. */
  readonly said: Counted;
  readonly meanCall: number;
  /** Where the true share may well lie, from this many kids: 90 in 100. */
  readonly low: number;
  readonly high: number;
  readonly came: "as-called" | "fewer-horned" | "more-horned";
}

/** How one reader's own readings came out, with the pedigree, on the kids that reader read. */
export interface ReaderRecord {
  readonly reader: string;
  readonly kids: number;
  /** Of the kids that the readings called clearly: right and wrong. */
  readonly right: number;
  readonly wrong: number;
  /** Kids left open: between 3 and 7 in 10. */
  readonly open: number;
  /** Where the true share of right calls may well lie: 90 in 100. */
  readonly low: number;
  readonly high: number;
}

/** How well the calls have come out, beside simpler ways on the same kids. */
export interface HeadRecordModel {
  /** Kids that were read when newborn and are known for themselves since. */
  readonly kids: number;
  readonly horned: number;
  readonly truths: readonly { readonly from: Truth["from"]; readonly kids: number }[];
  /** Read kids of whom nothing is known for itself yet; a smooth disbudded head is among these for good. */
  readonly readNotKnown: number;
  /** Seasons that were called, each with what was known before it. */
  readonly seasons: number;
  readonly scores:
    | {
        readonly together: Score;
        readonly pedigreeAlone: Score;
        readonly signsAlone: Score;
        readonly ruleOfThumb: Score;
      }
    | undefined;
  readonly calls: readonly CallLine[];
  readonly readers: readonly ReaderRecord[];
  readonly learnt: LearntModel;
}

/** Buds that were disbudded by one technique, by one hand or at one age, and what grew there. */
export interface RegrowthGroup {
  /** The operator, or the ages in days; `all` for all of the technique. */
  readonly of: string;
  /** Buds looked at about three months later. */
  readonly buds: number;
  readonly grew: Readonly<Record<Regrowth, number>>;
  /** Chance that something grows again on a bud like these, with the printed trial behind it; nine in ten between the two. */
  readonly again: Counted;
  readonly low: Counted;
  readonly high: Counted;
}

/** What grew again after disbudding in this herd. Says nothing of any goat's genes. */
export interface RegrowthModel {
  /** Buds looked at since, and those that nobody has looked at, or not clearly. */
  readonly buds: number;
  readonly notSeen: number;
  /** Buds looked at of which nobody wrote down how they were done; in no group. */
  readonly techniqueNotSaid: number;
  readonly techniques: readonly {
    readonly technique: Technique;
    readonly all: RegrowthGroup;
    readonly operators: readonly RegrowthGroup[];
    readonly ages: readonly RegrowthGroup[];
  }[];
}

/** One of two kids that are looked at side by side. */
export interface ComparedKid {
  readonly kid: KidModel;
  /** Of each sign the latest finding, if there is one. */
  readonly signs: readonly {
    readonly sign: keyof HeadSigns;
    readonly found: { readonly finding: Sided<string>; readonly ageDays: number; readonly by: string } | undefined;
  }[];
}

/** Two kids side by side, and the rest of the litter to choose from. */
export interface ComparisonModel {
  readonly kids: readonly [ComparedKid, ComparedKid];
  readonly litter: readonly AnimalRef[];
}

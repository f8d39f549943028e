import type { Day, Probability } from "@pollard/base";
import type { AnimalId, PolledGenotype, Standing } from "@pollard/genetics";
import type { PairParent, PlanCheck } from "@pollard/planning";
import type { AnimalRef } from "../animal-ref.ts";
import type { Counted } from "../counted.ts";
import type { NotBred } from "./breeding-stock.ts";

/** A buck among those to choose from: one of the herd, or one that is only thought of. */
export interface PairingBuck {
  readonly id: AnimalId;
  readonly ref: AnimalRef;
  /** The herd's own by his id; any other by what is believed of him. */
  readonly parent: PairParent;
  /** Chance that he can have kids if he is PP. */
  readonly ppFertile: number;
}

/** Where the expected loss of a pair comes from, in needless disbuddings; `total` is their sum. */
export interface PairLosses {
  /** Kids that have to go through the operation. */
  readonly horned: number;
  /** Mistakes and looks while it is not known which kids those are. */
  readonly heads: number;
  readonly intersex: number;
  readonly inbreeding: number;
  /** That there may be no kids at all. */
  readonly barren: number;
  /** The keeper's own merit of the parents, as a gain below 0. */
  readonly merit: number;
  readonly total: number;
}

/** A number of kids as it may come out: the mean, and between which nine in ten seasons lie. */
export interface KidsRange {
  readonly mean: number;
  readonly low: number;
  readonly high: number;
}

/** What kids would be at one locus. Chances of genotypes, and of what shows, each sum to 1. */
export interface LocusOutlook {
  readonly locus: string;
  readonly name: string;
  readonly genotypes: readonly { readonly genotype: string; readonly chance: number }[];
  /** What shows; where sources disagree how, each view by itself, with how well it stands. */
  readonly traits: readonly {
    readonly trait: string;
    readonly standing: Standing;
    readonly phenotypes: readonly { readonly phenotype: string; readonly chance: number }[];
  }[];
}

/** What a doe and a buck would have for kids, and what speaks against the two. */
export interface PairModel {
  readonly doe: AnimalRef;
  readonly buck: AnimalRef;
  readonly horned: Probability;
  readonly intersex: Probability;
  readonly infertile: Probability;
  readonly bothPolled: Probability;
  /** Chance that both can have kids at all, as far as the polled gene decides it. */
  readonly fertile: Probability;
  readonly hornedCounted: Counted;
  readonly intersexCounted: Counted;
  /** Doubt: what the two may be, the likeliest first, and what their kids would then be. */
  readonly maybe: readonly {
    readonly buck: PolledGenotype;
    readonly doe: PolledGenotype;
    readonly chance: Probability;
    readonly horned: Probability;
  }[];
  /** Of ten kids so many horned; standard deviations from luck and from doubt, in kids. */
  readonly ofTen: KidsRange & { readonly luck: number; readonly doubt: number };
  /** Kids to be expected of her. */
  readonly kids: number;
  readonly inbreeding: number;
  readonly commonAncestors: readonly { readonly animal: AnimalRef; readonly share: number }[];
  /** Each locus beside horns that the keeper follows. */
  readonly loci: readonly LocusOutlook[];
  readonly losses: PairLosses;
  /** Rules that close this pair, each by itself. */
  readonly closedBy: readonly PlanRuleModel[];
}

/** A rule of the plan with the animals it speaks of. */
export type PlanRuleModel =
  | { readonly kind: "serve"; readonly doe: AnimalRef }
  | { readonly kind: "most"; readonly buck: AnimalRef; readonly most: number }
  | { readonly kind: "least"; readonly buck: AnimalRef; readonly least: number }
  | { readonly kind: "must" | "never"; readonly doe: AnimalRef; readonly buck: AnimalRef }
  | { readonly kind: "inbreeding-ceiling" | "intersex-ceiling"; readonly ceiling: number }
  | { readonly kind: "polled-together" };

/** Why a doe goes to no other buck than hers. */
export type PairReasonModel =
  | { readonly kind: "forbidden"; readonly rules: readonly PlanRuleModel[] }
  | { readonly kind: "no-plan" }
  | { readonly kind: "as-good" }
  | {
      readonly kind: "costs";
      /** What the plan would cost more, and what she herself would: below 0 he would suit her better. */
      readonly more: number;
      readonly own: number;
      /** What of her own difference weighs most. */
      readonly most: keyof Omit<PairLosses, "total">;
    };

/** One doe of the plan. */
export interface PlannedDoe {
  readonly doe: AnimalRef;
  /** `undefined`: left open. */
  readonly buck: AnimalRef | undefined;
  readonly pair: PairModel | undefined;
  readonly whyNot: readonly { readonly buck: AnimalRef; readonly reason: PairReasonModel }[];
}

/** The season that a plan leads to, with nine in ten seasons between the ends. */
export interface PlannedSeason {
  readonly kids: KidsRange;
  readonly horned: KidsRange;
  readonly intersex: KidsRange;
  /** Mean over the kids. */
  readonly inbreeding: number;
  /** What was calculated against what was simulated. */
  readonly check: readonly PlanCheck[];
}

/** A plan for the whole herd, or why there is none. */
export type PlanModel =
  | {
      readonly kind: "plan";
      readonly does: readonly PlannedDoe[];
      readonly bucks: readonly { readonly buck: AnimalRef; readonly does: number; readonly most: number }[];
      readonly loss: number;
      readonly gap: number;
      readonly season: PlannedSeason;
      readonly next: readonly {
        readonly more: number;
        readonly asGood: boolean;
        readonly changes: readonly {
          readonly doe: AnimalRef;
          readonly from: AnimalRef | undefined;
          readonly to: AnimalRef | undefined;
        }[];
      }[];
      readonly prices: readonly { readonly rule: PlanRuleModel; readonly gain: number }[];
    }
  | { readonly kind: "no-plan"; readonly conflict: readonly PlanRuleModel[] }
  | { readonly kind: "nobody-to-pair"; readonly lack: "does" | "bucks" };

/** The year's pairings: every pair, the plan, and who was left out. */
export interface PairingsModel {
  readonly today: Day;
  readonly does: readonly AnimalRef[];
  readonly bucks: readonly AnimalRef[];
  /** By doe, then by buck. */
  readonly pairs: readonly (readonly PairModel[])[];
  readonly plan: PlanModel;
  readonly leftOut: readonly { readonly animal: AnimalRef; readonly why: NotBred }[];
  /** Wishes about animals that are not among those to be paired; the plan does without them. */
  readonly wishesAside: readonly { readonly doe: AnimalRef; readonly buck: AnimalRef }[];
}

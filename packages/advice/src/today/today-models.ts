import type { Day } from "@pollard/base";
import type { CareCaution, CareTaskCode, GrowthState, Ranged } from "@pollard/husbandry";
import type { Animal } from "@pollard/records";
import type { AnimalRef } from "../animal-ref.ts";
import type { HornsBelief } from "../heads/kid-models.ts";

/** One thing to do, with by-when. In order of urgency. */
export type Task =
  | { readonly kind: "ring-vet"; readonly kid: AnimalRef; readonly end: Day }
  | {
      readonly kind: "vet-visit";
      readonly day: Day;
      readonly kids: readonly AnimalRef[];
      readonly unread: readonly AnimalRef[];
    }
  /** Kids that were on the list of a visit that is over, of whom nothing is entered. */
  | { readonly kind: "vet-work-to-enter"; readonly day: Day; readonly kids: readonly AnimalRef[] }
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

import type { PolledBelief } from "@pollard/genetics";
import type { HeadKid, HeadReading, HeadTables, VetWindow } from "@pollard/husbandry";
import type { Ending } from "./endings.ts";
import type { KidLosses } from "./kid-losses.ts";

/** Everything the decision about one kid's head rests on. */
export interface KidQuestion {
  /** What is believed of the kid now, pedigree and readings taken together. */
  readonly belief: PolledBelief;
  readonly kid: HeadKid;
  /** The readings that the belief already holds; they also tell what a further look may still show. */
  readonly readings: readonly HeadReading[];
  readonly tables: HeadTables;
  /** Whole days since birth, and since the day it was due where that is known. */
  readonly ageDays: number;
  readonly fromDueDays?: number;
  readonly window: VetWindow;
  /** Days from today on which the vet comes anyway; 0 is today. */
  readonly visits: readonly number[];
  /** Days an extra trip must be asked for in advance. */
  readonly noticeDays: number;
  readonly losses: KidLosses;
  /** How many further looks are thought through. A bound of the model: the third look hardly ever pays. */
  readonly maxLooks: 0 | 1 | 2;
  /** Who will look. */
  readonly reader?: string;
}

/** What can be done about a kid today. Days count from today. */
export type KidAction =
  | { readonly kind: "leave" }
  | { readonly kind: "look-again"; readonly inDays: number }
  | { readonly kind: "vet-list"; readonly inDays: number; readonly visit: "planned" | "extra" };

/** Leaving the kid for good. */
export const leaving = (losses: KidLosses): Ending => ({ kind: "leave", horned: losses.missedHorns, polled: 0 });

/**
 * Every way in which the matter can be ended from today on, leaving first.
 *
 * Shape:  the leaving, then every visit by rising day; a single line where the vet cannot come inside the window.
 */
export const kidEndings = (q: KidQuestion): readonly (readonly [KidAction, Ending])[] => [
  [{ kind: "leave" }, leaving(q.losses)],
  ...visitsOf(q),
];

/**
 * Every visit that is open inside the window: those planned, and an extra trip on each day for which there is notice enough.
 *
 * A day with a planned visit needs no extra trip. A late day counts twice once the window is amber. A kid born early has no
 * late days until its due date's best days are over.
 */
function visitsOf(q: KidQuestion): readonly (readonly [KidAction, Ending])[] {
  const early = q.fromDueDays === undefined ? 0 : Math.max(0, q.ageDays - q.fromDueDays);
  const { lookFrom, aimFrom, aimTo, amberAfter, end } = q.window;
  const out: (readonly [KidAction, Ending])[] = [];
  for (let inDays = 0; q.ageDays + inDays <= end.value; inDays++) {
    const age = q.ageDays + inDays;
    const visit = q.visits.includes(inDays) ? "planned" : "extra";
    if (age < lookFrom.value || (visit === "extra" && inDays < q.noticeDays)) continue;
    const trip = visit === "extra" ? q.losses.extraTrip : 0;
    const late = q.losses.lateDay * (past(age, aimTo.value + early) + past(age, amberAfter.value + early));
    const soon = q.losses.earlyDay * past(aimFrom.value, age);
    const ending: Ending = {
      kind: "vet-list",
      horned: trip + late + soon,
      polled: trip + q.losses.needlessDisbudding,
    };
    out.push([{ kind: "vet-list", inDays, visit }, ending]);
  }
  return out;
}

const past = (day: number, limit: number): number => Math.max(0, day - limit);

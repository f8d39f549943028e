import type { Sourced } from "@pollard/base";
import type { GrowthSex, KidSex } from "./kid-sex.ts";

/**
 * The days of a kid's life that matter for disbudding, counted from birth (the day of birth is 0), all ends included.
 *
 * A look is worth its while from `lookFrom`; the vet is best asked for between `aimFrom` and `aimTo`; after `amberAfter`
 * it is late; after `end` it is no longer disbudding, and the answer is the vet's alone.
 */
export interface VetWindow {
  readonly lookFrom: Sourced<number>;
  readonly aimFrom: Sourced<number>;
  readonly aimTo: Sourced<number>;
  readonly amberAfter: Sourced<number>;
  readonly end: Sourced<number>;
}

const judged = (value: number): Sourced<number> => ({ value, source: "judgement", checked: "judgement" });
const read = (value: number, source: string): Sourced<number> => ({ value, source, checked: "read-in-source" });

/**
 * The window where the keeper's vet has said nothing. Sources disagree (METHODS.md shows them side by side): some want 2 to
 * 4 days, some 5 to 7, some 4 to 14; bucklings earlier than doelings. The hard end is the strictest that several share.
 */
export const DEFAULT_VET_WINDOWS: Readonly<Record<GrowthSex, VetWindow>> = {
  buck: {
    lookFrom: read(2, "mueller-disbudding"),
    aimFrom: read(3, "hempstead2019"),
    aimTo: read(5, "hempstead2019"),
    amberAfter: judged(7),
    end: read(14, "avma-disbudding"),
  },
  doe: {
    lookFrom: judged(3),
    aimFrom: read(5, "avma-disbudding"),
    aimTo: read(7, "avma-disbudding"),
    amberAfter: read(10, "ava2022"),
    end: read(14, "avma-disbudding"),
  },
};

/** The vet's own figures, in whole days from birth; what is left out stays as it was. */
export type VetFigures = Readonly<Partial<Record<GrowthSex, Readonly<Partial<Record<keyof VetWindow, number>>>>>>;

/**
 * The window for a kid of this sex; the vet's own figures win over the literature's.
 *
 * An intersex kid and one whose sex could not be told get the bucklings' window, the earlier of the two: to look too
 * early costs a look, to look too late costs the kid.
 *
 * Errors: none. Figures that do not rise (`isOrdered`) are for whoever reads the settings to refuse.
 * Source: rule HD-12.
 */
export function windowOf(sex: KidSex, vet: VetFigures = {}): VetWindow {
  const growth: GrowthSex = sex === "doe" ? "doe" : "buck";
  const own = vet[growth] ?? {};
  const base = DEFAULT_VET_WINDOWS[growth];
  const figure = (name: keyof VetWindow): Sourced<number> => {
    const value = own[name];
    return value === undefined ? base[name] : { value, source: "keepers-vet", checked: "set-by-keepers-vet" };
  };
  return {
    lookFrom: figure("lookFrom"),
    aimFrom: figure("aimFrom"),
    aimTo: figure("aimTo"),
    amberAfter: figure("amberAfter"),
    end: figure("end"),
  };
}

/** Whether the days of a window follow each other as they must. */
export function isOrdered(w: VetWindow): boolean {
  const days = [0, w.lookFrom.value, w.aimFrom.value, w.aimTo.value, w.amberAfter.value, w.end.value];
  return days.every((d, i) => Number.isInteger(d) && d >= (days[i - 1] ?? 0));
}

/** Where an age stands in the window. `ring-vet` = past the end: no plan of ours. */
export type WindowState = "too-young" | "look" | "aim" | "due" | "amber" | "ring-vet";

/**
 * Where a kid of this age stands: too young to tell, time to look, the best days, still in time, late, or past the end.
 *
 * Units: whole days from birth, or from the due date where that clock is asked for.
 *
 * @example
 * windowState(windowOf("buck"), 8); // "amber"
 */
export function windowState(w: VetWindow, ageDays: number): WindowState {
  if (ageDays < w.lookFrom.value) return "too-young";
  if (ageDays < w.aimFrom.value) return "look";
  if (ageDays <= w.aimTo.value) return "aim";
  if (ageDays <= w.amberAfter.value) return "due";
  return ageDays <= w.end.value ? "amber" : "ring-vet";
}

/** The same kid by both clocks. Early kids ripen later; the end still counts from birth, as the vets' limits do. */
export interface WindowByClocks {
  readonly fromBirth: WindowState;
  /** Only for a kid born before the day it was due, where that day is known. */
  readonly fromDue?: WindowState;
}

/**
 * Where a kid stands by its birth and, if it came early, by its due date too; both are shown to the keeper.
 *
 * Units: whole days; `fromDueDays` is negative before the day it was due.
 */
export function windowByClocks(w: VetWindow, ageDays: number, fromDueDays: number | undefined): WindowByClocks {
  const fromBirth = windowState(w, ageDays);
  if (fromDueDays === undefined || fromDueDays >= ageDays) return { fromBirth };
  return { fromBirth, fromDue: windowState(w, fromDueDays) };
}

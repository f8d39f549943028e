import type { VetWindow } from "@pollard/husbandry";
import type { KidLosses } from "../kid/kid-losses.ts";

/**
 * A kid that is here, or a litter that may come: the same thing to a plan, one with a birth that is certain.
 *
 * Assumes: `needs` holds for each kid on its own, given the parents; a doubt about the parents that litters share is left out.
 */
export interface ComingKids {
  readonly id: string;
  /** When how many may be born, days from today (below 0: before it), rising; chances sum to at most 1, the rest is no birth. */
  readonly births: readonly { readonly inDays: number; readonly kids: number; readonly chance: number }[];
  /** Chance that a kid of it grows horns. */
  readonly needs: number;
  /** The vet's window by what the kid may be, with shares that sum to 1. */
  readonly windows: readonly { readonly window: VetWindow; readonly share: number }[];
  /** Days by which a kid that is here came before its time: it is late only so much later. */
  readonly early?: number;
}

/** Which days to ask the vet for. Days count from today, 0 is today. */
export interface VetDaysQuestion {
  readonly coming: readonly ComingKids[];
  /** Days on which the vet could come, rising. */
  readonly open: readonly number[];
  /** Visits that are fixed whatever else is planned, and need not be open. */
  readonly fixed: readonly number[];
  /** What a visit costs, in the unit of the losses; fixed visits are paid for anyway. */
  readonly visitLoss: number;
  readonly losses: Pick<KidLosses, "missedHorns" | "lateDay">;
  /** Most visits that are thought about. */
  readonly mostVisits: number;
}

/** Kids alike to every plan: one day of birth, one window. `weight` is how many horned ones are expected. */
export interface KidGroup {
  readonly bornIn: number;
  /** First day on which the vet can do them with the best days reached; today at the earliest. */
  readonly readyIn: number;
  readonly endIn: number;
  readonly weight: number;
  /** The loss of one of them done on a day inside the window. */
  lossOn(inDays: number): number;
  /** Days past the best ones on a day inside the window. */
  lateOn(inDays: number): number;
}

/**
 * All kids of a question as groups, by rising first day on which they can be done.
 *
 * A kid is done on the first visit from its best days on to the end of its window, both included. Kids whose window is
 * over today are in no group: no plan can reach them.
 */
export function kidGroups({ coming, losses }: VetDaysQuestion): readonly KidGroup[] {
  const groups = new Map<string, { -readonly [K in keyof KidGroup]: KidGroup[K] }>();
  const windows: VetWindow[] = [];
  for (const { births, needs, windows: of, early = 0 } of coming)
    for (const { window, share } of of) {
      const same = windows.findIndex((w) => sameDays(w, window));
      const kind = same === -1 ? windows.push(window) - 1 : same;
      for (const { inDays, kids, chance } of births) {
        const endIn = inDays + window.end.value;
        const weight = chance * kids * needs * share;
        if (endIn < 0 || weight === 0) continue;
        const key = `${kind} ${inDays} ${early}`;
        const known = groups.get(key);
        if (known) known.weight += weight;
        else groups.set(key, { ...group(inDays, window, early, losses), weight });
      }
    }
  return [...groups.values()].sort((a, b) => a.readyIn - b.readyIn || a.endIn - b.endIn || a.bornIn - b.bornIn);
}

function group(bornIn: number, window: VetWindow, early: number, losses: VetDaysQuestion["losses"]) {
  const late = (inDays: number) => Math.max(0, inDays - bornIn - window.aimTo.value - early);
  const amber = (inDays: number) => Math.max(0, inDays - bornIn - window.amberAfter.value - early);
  return {
    bornIn,
    readyIn: Math.max(0, bornIn + window.aimFrom.value),
    endIn: bornIn + window.end.value,
    lateOn: late,
    lossOn: (inDays: number) => losses.lateDay * (late(inDays) + amber(inDays)),
  };
}

const sameDays = (a: VetWindow, b: VetWindow): boolean =>
  (["aimFrom", "aimTo", "amberAfter", "end"] as const).every((name) => a[name].value === b[name].value);

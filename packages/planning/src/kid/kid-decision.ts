import { Bug, present, type Probability } from "@pollard/base";
import { headForecast, type LookDay } from "@pollard/husbandry";
import type { Ending } from "./endings.ts";
import { type KidAction, kidEndings, type KidQuestion, leaving } from "./kid-endings.ts";
import { badLosses, type KidLosses } from "./kid-losses.ts";
import { type LookAhead, lookAhead, type Prospect } from "./look-ahead.ts";
import { turningPoints } from "./turning-points.ts";

/** An action and its loss when everything after it is done as well as can be. */
export interface WeighedKidAction {
  readonly action: KidAction;
  readonly loss: number;
}

/** What to do about one kid's head. Past the window there is no plan of ours. */
export type KidDecision =
  | { readonly kind: "ring-vet"; readonly rule: "KD-2" | "KD-3" }
  | {
      readonly kind: "leave" | "look-again" | "vet-list";
      readonly rule: "KD-4" | "KD-5" | "KD-6" | "KD-7";
      readonly best: KidAction;
      /** What the best action comes to, with the chances of a horned kid missed and of a polled one operated on. */
      readonly prospect: Prospect;
      /** Every action that is open, the best first, then by rising loss. */
      readonly actions: readonly WeighedKidAction[];
      /** Other actions that are exactly as good; the one named best then does least to the kid, soonest. */
      readonly ties: readonly KidAction[];
      /** Chance of horns up to which leaving is best; `undefined` where no vet can come, so nothing could flip it. */
      readonly leaveUpTo: Probability | undefined;
      /** Chance of horns from which asking for the vet is best. */
      readonly listFrom: Probability | undefined;
      /** What looking again is expected to save, its own cost paid, against the best that can be done without; 0 if nothing. */
      readonly lookSaves: number;
    };

/** Chance of horns up to which a kid past its window is let be. Our judgement: one in fifty. */
const SETTLED_POLLED = { value: 0.02, source: "judgement", checked: "judgement" } as const;
/** How far from 1 a belief may sum by rounding. */
const SUM_SLACK = 1e-6;
/** How close two losses are to be the same: rounding of sums of a few thousand terms. */
const SAME = 1e-10;

/**
 * What to do about a kid's head now: leave it for good, look again and when, or ask for the vet and for which visit.
 *
 * An exact dynamic program over the remaining days of the vet's window: every answer of every coming look is thought
 * through with what could still be done after it, at the keeper's own weights.
 *
 * Units:   ages, visits and notice in whole days; losses in needless disbuddings.
 * Shape:   `actions` holds every open action, the best first, each followed by the best that can be done after it.
 * Assumes: at most `maxLooks` further looks, each answering all four signs for both sides; an extra trip is charged to this
 *          kid alone; the vet does what the list says, and does not look first.
 * Errors:  none: too late is an answer. Bug if the belief does not sum to 1, or for `badLosses`.
 * Source:  rules KD-1 to KD-9; weights of `kid-losses.ts`.
 */
export function decideKid(question: KidQuestion): KidDecision {
  const { belief, window, ageDays, losses, maxLooks } = question;
  const horns = belief.pp;
  const bad = badLosses(losses);
  if (bad.length > 0) throw new Bug(`losses that make no sense: ${bad.join(", ")}`);
  if (!(Math.abs(belief.PP + belief.Pp + horns - 1) < SUM_SLACK)) throw new Bug(`belief does not sum to 1: ${horns}`);
  const daysLeft = window.end.value - ageDays;
  if (daysLeft < 0)
    return horns <= SETTLED_POLLED.value ? settledPolled(horns, losses) : { kind: "ring-vet", rule: "KD-2" };

  const endings = kidEndings(question);
  if (endings.length === 1 && horns > SETTLED_POLLED.value) return { kind: "ring-vet", rule: "KD-3" };

  const lookDays = maxLooks === 0 ? [] : lookDaysOf(question, daysLeft);
  const ahead = maxLooks === 0 || lookDays.length === 0 ? undefined : aheadOf(question, lookDays, endings, maxLooks);
  const looks = Array.from({ length: ahead?.days ?? 0 }, (_, i) => ({
    action: { kind: "look-again", inDays: present(lookDays[i], "look day") } as KidAction,
    loss: present(ahead, "look ahead").loss(i, horns),
    prospect: () => present(ahead, "look ahead").prospect(i, horns),
  }));
  const stops = endings.map(([action, ending]) => {
    const prospect = prospectOf(ending, horns);
    return { action, loss: prospect.loss, prospect: () => prospect };
  });

  const actions = [...stops, ...looks].sort(
    (a, b) => (Math.abs(a.loss - b.loss) <= SAME ? 0 : a.loss - b.loss) || order(a.action) - order(b.action),
  );
  const best = present(actions[0], "action");
  const least = Math.min(...stops.map((s) => s.loss));
  // Where the advice would turn takes as long to find as all the rest, and a list of many kids does not tell it.
  let found: ReturnType<typeof turningPoints> | undefined;
  const turning = () =>
    (found ??= turningPoints(
      endings.map(([, ending]) => ending),
      ahead,
    ));
  return {
    kind: best.action.kind,
    rule: ruleOf(best.action, horns),
    best: best.action,
    prospect: best.prospect(),
    actions: actions.map(({ action, loss }) => ({ action, loss })),
    ties: actions
      .slice(1)
      .filter((a) => a.loss - best.loss <= SAME)
      .map((a) => a.action),
    get leaveUpTo() {
      return turning().leaveUpTo;
    },
    get listFrom() {
      return turning().listFrom;
    },
    lookSaves: Math.max(0, least - Math.min(least, ...looks.map((l) => l.loss))),
  };
}

/** Past the window a kid that is settled as polled is let be; there is nothing to weigh. */
function settledPolled(horns: number, losses: KidLosses): KidDecision {
  const prospect = prospectOf(leaving(losses), horns);
  return {
    kind: "leave",
    rule: "KD-4",
    best: { kind: "leave" },
    prospect,
    actions: [{ action: { kind: "leave" }, loss: prospect.loss }],
    ties: [],
    leaveUpTo: undefined,
    listFrom: undefined,
    lookSaves: 0,
  };
}

/** Days from today on which a look is worth considering: from the window's first, not twice on one day. */
function lookDaysOf(q: KidQuestion, daysLeft: number): readonly number[] {
  const readToday = q.readings.some((r) => r.ageDays === q.ageDays);
  const first = Math.max(readToday ? 1 : 0, q.window.lookFrom.value - q.ageDays);
  return Array.from({ length: Math.max(0, daysLeft - first + 1) }, (_, i) => first + i);
}

function aheadOf(
  q: KidQuestion,
  lookDays: readonly number[],
  endings: readonly (readonly [KidAction, Ending])[],
  maxLooks: 1 | 2,
): LookAhead {
  const days = lookDays.map(
    (d): LookDay => ({
      ageDays: q.ageDays + d,
      ...(q.fromDueDays === undefined ? {} : { fromDueDays: q.fromDueDays + d }),
    }),
  );
  const open = (lookDay: number) =>
    endings.filter(([action]) => {
      if (action.kind !== "vet-list") return true;
      return action.inDays >= lookDay + (action.visit === "extra" ? q.noticeDays : 0);
    });
  return lookAhead({
    forecast: headForecast({ ...q, days }),
    endings: lookDays.map((d) => open(d).map(([, ending]) => ending)),
    lookLoss: q.losses.look,
    maxLooks,
  });
}

function prospectOf(ending: Ending, horns: number): Prospect {
  return {
    loss: horns * ending.horned + (1 - horns) * ending.polled,
    ifHorned: ending.horned,
    ifPolled: ending.polled,
    missed: ending.kind === "leave" ? horns : 0,
    needless: ending.kind === "leave" ? 0 : 1 - horns,
  };
}

/** Order among equals: what does least to the kid first, then the sooner day, then the visit that is planned anyway. */
function order(action: KidAction): number {
  if (action.kind === "leave") return 0;
  const days = action.inDays * 2;
  return action.kind === "look-again" ? 100 + days : 200 + days + (action.visit === "planned" ? 0 : 1);
}

function ruleOf(action: KidAction, horns: number): "KD-4" | "KD-5" | "KD-6" | "KD-7" {
  if (action.kind === "look-again") return "KD-5";
  if (action.kind === "vet-list") return "KD-6";
  return horns <= SETTLED_POLLED.value ? "KD-4" : "KD-7";
}

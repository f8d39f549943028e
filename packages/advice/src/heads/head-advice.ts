import { addDays, type Day, daysFrom, probability, type Sourced } from "@pollard/base";
import type { PolledBelief } from "@pollard/genetics";
import { type HeadTables, type VetWindow, windowOf } from "@pollard/husbandry";
import {
  badLosses,
  DEFAULT_LOSSES,
  decideKid,
  type KidAction,
  type KidDecision,
  type KidLosses,
} from "@pollard/planning";
import type { Animal, Herd } from "@pollard/records";
import type { Beliefs } from "../belief/beliefs.ts";
import { hasFinding, headKidOf, headReadingsOf, kidAges } from "./kid-facts.ts";
import type { KidAdvice, KidAges, KidDone, WeighedAction } from "./kid-models.ts";
import { amountSetting, vetFiguresOf } from "../settings.ts";

/** Where each loss stands among the settings. */
export const LOSS_SETTINGS = {
  "loss-needless": "needlessDisbudding",
  "loss-missed": "missedHorns",
  "loss-late-day": "lateDay",
  "loss-early-day": "earlyDay",
  "loss-trip": "extraTrip",
  "loss-look": "look",
} as const satisfies Readonly<Record<string, keyof KidLosses>>;

/** Days an extra visit must be asked for in advance, unless the keeper says otherwise. */
const NOTICE_DAYS: Sourced<number> = { value: 1, source: "judgement", checked: "judgement" };

/** Days in advance in which this herd's vet wants to be asked for an extra visit. */
export const noticeDaysOf = (herd: Herd): number => amountSetting(herd, "vet-notice-days") ?? NOTICE_DAYS.value;

/**
 * Days after the end of the window in which an undecided head is still pressed on the keeper. Later, what grew shows by
 * itself and the three-month check asks for it.
 */
const PRESSING_DAYS: Sourced<number> = { value: 28, source: "judgement", checked: "judgement" };

/** Chance of horns below which a keeper's "leave it" stands past the window without another word. */
const LEAVING_STANDS_BELOW: Sourced<number> = { value: 0.5, source: "judgement", checked: "judgement" };

/** How many further looks are thought through for a kid. */
const LOOKS_AHEAD = 2;

/** What a needless disbudding, a missed horn, a late day, a trip and a look weigh for this keeper. */
export function lossesOf(herd: Herd): KidLosses {
  const set = Object.fromEntries(
    Object.entries(LOSS_SETTINGS).flatMap(([key, loss]) => {
      const amount = amountSetting(herd, key);
      return amount === undefined ? [] : [[loss, amount]];
    }),
  );
  const losses = { ...DEFAULT_LOSSES.value, ...set };
  return badLosses(losses).length === 0 ? losses : DEFAULT_LOSSES.value;
}

/** The vet's window for this kid. */
export const vetWindowOf = (herd: Herd, animal: Animal): VetWindow => windowOf(animal.sex, vetFiguresOf(herd));

/** Why nothing is left to decide about a head, if so. */
function doneBefore(animal: Animal, ages: KidAges, window: VetWindow): KidDone | undefined {
  if (animal.bornAs === "dead") return "born-dead";
  if (animal.departure !== undefined) return "left-herd";
  if (animal.disbuddings.some((d) => d.done === "both-sides")) return "disbudded";
  if (animal.outcomes.length > 0) return "outcome-known";
  return ages.ageDays > window.end.value + PRESSING_DAYS.value ? "grown" : undefined;
}

/**
 * What to do about one kid's head today.
 *
 * Every head is read before anything is advised about it. Past the window there is no plan of ours, unless the keeper has
 * chosen to leave a head that is more likely hornless than not.
 *
 * Shape:   `undefined` for an animal whose birth date is not on record.
 * Source:  rules AD-6 to AD-9; the decision itself is planning's (KD rules).
 */
export function headAdvice(herd: Herd, beliefs: Beliefs, animal: Animal, today: Day): KidAdvice | undefined {
  const ages = kidAges(herd, animal, today);
  if (ages === undefined || ages.ageDays < 0) return undefined;
  const window = vetWindowOf(herd, animal);
  const done = doneBefore(animal, ages, window);
  if (done !== undefined) return { kind: "done", what: done, rule: "AD-6" };

  const end = addDays(ages.born, window.end.value);
  const by = addDays(ages.born, window.aimTo.value);
  if (animal.readings.length === 0 || !headReadingsOf(animal, ages).some(hasFinding)) {
    if (today > end) return { kind: "ring-vet", end, rule: "AD-8" };
    if (animal.readings.length > 0) return { kind: "finish-reading", by, end, rule: "AD-7" };
    return { kind: "read-head", from: addDays(ages.born, window.lookFrom.value), by, end, rule: "AD-7" };
  }
  const belief = beliefs.polled(animal.id);
  if (today > end && chosenToLeave(animal) && belief.pp < LEAVING_STANDS_BELOW.value)
    return { kind: "done", what: "left-alone", rule: "AD-9" };
  return fromDecision(decisionFor({ herd, animal, ages, belief, tables: beliefs.heads.tables, today }), today, end);
}

const chosenToLeave = (animal: Animal): boolean => animal.choices.at(-1)?.choice === "leave";

function decisionFor(of: {
  readonly herd: Herd;
  readonly animal: Animal;
  readonly ages: KidAges;
  readonly belief: PolledBelief;
  readonly tables: HeadTables;
  readonly today: Day;
}): KidDecision {
  const { herd, animal, ages, belief, tables, today } = of;
  return decideKid({
    belief,
    kid: headKidOf(animal, herd),
    readings: headReadingsOf(animal, ages),
    tables,
    ageDays: ages.ageDays,
    ...(ages.daysFromDue === undefined ? {} : { fromDueDays: ages.daysFromDue }),
    window: vetWindowOf(herd, animal),
    visits: herd.vetDays.map((v) => daysFrom(today, v.on)).filter((d) => d >= 0),
    noticeDays: noticeDaysOf(herd),
    losses: lossesOf(herd),
    maxLooks: LOOKS_AHEAD,
  });
}

function fromDecision(decision: KidDecision, today: Day, end: Day): KidAdvice {
  if (decision.kind === "ring-vet") return { kind: "ring-vet", end, rule: decision.rule };
  const actions = decision.actions.map(
    ({ action, loss }): WeighedAction => ({ ...dayed(action, today), expectedLoss: loss }),
  );
  return {
    ...dayed(decision.best, today),
    end,
    actions,
    missed: probability(decision.prospect.missed),
    needless: probability(decision.prospect.needless),
    get leaveUpTo() {
      return decision.leaveUpTo;
    },
    get listFrom() {
      return decision.listFrom;
    },
    lookSaves: decision.lookSaves,
    rule: decision.rule,
  };
}

/** An action with its day in the calendar. */
function dayed(action: KidAction, today: Day): Omit<WeighedAction, "expectedLoss"> {
  return {
    kind: action.kind,
    day: action.kind === "leave" ? undefined : addDays(today, action.inDays),
    visit: action.kind === "vet-list" ? action.visit : undefined,
  };
}

/** A head that still matters, with what to do about it. */
export interface OpenHead {
  readonly animal: Animal;
  readonly advice: Exclude<KidAdvice, { kind: "done" }>;
}

/** The end of whose window comes first, first. */
export const inOrderOfEnd = (heads: readonly OpenHead[]): readonly OpenHead[] =>
  heads.toSorted((a, b) => compareText(a.advice.end, b.advice.end) || compareText(a.animal.id, b.animal.id));

const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

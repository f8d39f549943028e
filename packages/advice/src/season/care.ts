import { addDays, type Day, daysFrom } from "@pollard/base";
import {
  BOOSTER_COUNTS,
  type CareRule,
  careRulesFor,
  type CareTaskCode,
  type CareWish,
  WEANING_KG,
} from "@pollard/husbandry";
import { type Animal, type Herd, kiddingsOf } from "@pollard/records";
import { animalRef } from "../animal-ref.ts";
import type { AnimalRef } from "../animal-ref.ts";
import type { Situation } from "../situation.ts";
import { type ExpectedDoe, kiddingDays, sinceLast } from "./pregnancies.ts";
import { readyWeight } from "./mating-cautions.ts";

/** One task of care for one animal. */
export interface CareTask {
  readonly code: CareTaskCode;
  readonly animal: AnimalRef;
  /** To be done between; `by` is the day to which it was put off, where it was. */
  readonly from: Day;
  readonly by: Day;
  readonly kind: CareRule["kind"];
  readonly state: "open" | "put-off";
  /** Why it was put off, in the keeper's words. */
  readonly because: string | undefined;
  /** Whose word the days are: a source's key, `keepers-vet`, `common-practice`. */
  readonly source: string;
  /** What brings it forward or asks for it all the more. */
  readonly pressing: "dam-not-covered" | "heavy-enough" | undefined;
}

/** A task answered for one animal: what was done, when, with what, and how long milk and meat are held back. */
export interface CareGiven {
  readonly code: string;
  readonly on: Day;
  readonly by: string;
  readonly answer: "done" | "not-needed" | "put-off";
  readonly means: string | undefined;
  readonly noMilkUntil: Day | undefined;
  readonly noMeatUntil: Day | undefined;
}

/** Settings that hold a keeper's or vet's word on a task: `care-CODE` on or off, `care-CODE-from` and `-by` in days. */
export const careSetting = (code: CareTaskCode, part?: "from" | "by"): string =>
  part === undefined ? `care-${code}` : `care-${code}-${part}`;

/** The wishes on record for every task. */
export function careWishes(herd: Herd): ReadonlyMap<string, CareWish> {
  const wishes = new Map<string, CareWish>();
  for (const [key, value] of herd.settings) {
    const found = /^care-(.+?)(?:-(from|by))?$/.exec(key);
    const code = found?.[1];
    if (code === undefined) continue;
    const known = wishes.get(code) ?? {};
    const part = found?.[2];
    if (part === "from" || part === "by") {
      if (typeof value === "number" && Number.isInteger(value)) wishes.set(code, { ...known, [part]: value });
    } else if (value === "on" || value === "off") wishes.set(code, { ...known, state: value });
  }
  return wishes;
}

/** Days around a task's window in which an entry counts as its answer, so that last year's booster is not this year's. */
const ANSWER_SLACK_DAYS = 30;

/**
 * Every task of care that is open, of the herd or of some of its animals: from some days before its window until nobody is reminded
 * any more.
 *
 * Shape:  ordered by day, then by task. Tasks done, not needed or over are left out.
 * Source: husbandry's CARE_RULES; rules AD-38 to AD-40.
 */
export function careTasks(
  { herd, today }: Situation,
  noticeDays = 0,
  among: Iterable<Animal> = herd.animals.values(),
): readonly CareTask[] {
  const rules = careRulesFor(careWishes(herd));
  const tasks: CareTask[] = [];
  for (const animal of among) {
    if (animal.departure !== undefined || animal.bornAs === "dead") continue;
    const expected = kiddingDaysOnce(herd, animal);
    for (const rule of rules) {
      if (!isFor(rule, animal)) continue;
      const anchor = anchorOf(herd, rule, animal, today, () => expected()?.likely);
      if (anchor === undefined) continue;
      const task = taskOf(herd, rule, animal, { anchor, early: daysEarly(rule, anchor, expected) });
      const over = addDays(anchor, rule.days.value.until);
      if (task === undefined || addDays(today, noticeDays) < task.from) continue;
      if (today <= over || (task.state === "put-off" && today <= addDays(task.by, ANSWER_SLACK_DAYS)))
        tasks.push({ ...task, pressing: pressing(herd, rule.code, animal) });
    }
  }
  return tasks.sort((a, b) => compareText(a.by, b.by) || compareText(a.code, b.code));
}

const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Whether a task is one of this animal's. */
function isFor({ who }: CareRule, { sex, kidding }: Animal): boolean {
  switch (who) {
    case "doe-in-kid":
    case "served-doe":
    case "doe-kidded":
      return sex === "doe" || sex === "unsure" || sex === "intersex";
    case "kid":
      return kidding !== undefined;
    case "buckling":
      return kidding !== undefined && sex === "buck";
    case "doeling":
      return kidding !== undefined && sex === "doe";
  }
}

/** The days on which an animal may kid, worked out when they are first asked for. */
function kiddingDaysOnce(herd: Herd, animal: Animal): () => ExpectedDoe["days"] {
  let found: { readonly days: ExpectedDoe["days"] } | undefined;
  return () => (found ??= { days: kiddingDays(herd, animal.id) }).days;
}

/**
 * By how many days a task comes earlier than its rule says, for a doe whose watching begins before it would be done: after a
 * long spell in the buck's pen she may kid weeks before the likely day. The vet's own days stay as they are.
 */
function daysEarly({ before, days }: CareRule, anchor: Day, expected: () => ExpectedDoe["days"]): number {
  const watched = before === undefined || days.checked === "set-by-keepers-vet" ? undefined : expected()?.from;
  return watched === undefined ? 0 : Math.max(0, daysFrom(watched, addDays(anchor, days.value.by)));
}

/** The day from which a task's days count; `undefined` where there is none. */
function anchorOf(herd: Herd, rule: CareRule, animal: Animal, today: Day, due: () => Day | undefined): Day | undefined {
  switch (rule.from) {
    case "due":
      return due();
    case "served": {
      const last = sinceLast(herd, animal).services.at(-1);
      return last === undefined || due() === undefined ? undefined : last.until;
    }
    case "kidded":
      return kiddingsOf(herd, animal.id).findLast((k) => k.on <= today)?.on;
    case "birth":
      return animal.born;
    case "earlier-task":
      return animal.care.find((c) => c.task === rule.after && c.answer === "done")?.on;
  }
}

function taskOf(
  herd: Herd,
  rule: CareRule & { readonly code: CareTaskCode },
  animal: Animal,
  { anchor, early }: { readonly anchor: Day; readonly early: number },
): Omit<CareTask, "pressing"> | undefined {
  const { until } = rule.days.value;
  const [from, by] = [rule.days.value.from - early, rule.days.value.by - early];
  const covered = rule.code === "tetanus-cover" && damCovered(herd, animal);
  if (covered || doneOtherwise(rule.code, animal, anchor)) return undefined;
  const answer = animal.care
    .filter((c) => c.task === rule.code)
    .filter(
      (c) => c.on >= addDays(anchor, from - ANSWER_SLACK_DAYS) && c.on <= addDays(anchor, until + ANSWER_SLACK_DAYS),
    )
    .at(-1);
  if (answer !== undefined && answer.answer !== "put-off") return undefined;
  return {
    code: rule.code,
    animal: animalRef(herd, animal.id),
    from: addDays(anchor, from),
    by: answer?.until ?? addDays(anchor, by),
    kind: rule.kind,
    state: answer === undefined ? "open" : "put-off",
    because: answer?.because,
    source: rule.days.source,
  };
}

/** Why a task is more pressing than its days say. */
function pressing(herd: Herd, code: CareTaskCode, animal: Animal): CareTask["pressing"] {
  if (code === "tetanus-cover") return "dam-not-covered";
  return isHeavyEnough(herd, code, animal) ? "heavy-enough" : undefined;
}

/** Whether the last weight says that the time has come. */
function isHeavyEnough(herd: Herd, code: CareTaskCode, { weights }: Animal): boolean {
  const last = weights.at(-1);
  if (last === undefined) return false;
  if (code === "weaning") return last.kg >= WEANING_KG.value;
  return code === "breeding-weight" && last.kg >= readyWeight(herd, last.on);
}

/** What other entries answer by themselves: a weight at birth, a pregnancy check, a wether. */
function doneOtherwise(code: CareTaskCode, animal: Animal, anchor: Day): boolean {
  switch (code) {
    case "birth-weight":
      return animal.weights.some((w) => w.on >= anchor && daysFrom(anchor, w.on) <= 3);
    case "pregnancy-scan":
      return animal.pregnancyChecks.some((c) => c.on >= anchor);
    default:
      return false;
  }
}

/** Whether the dam's booster before this birth is on record, so that her first milk covers the kid. */
function damCovered(herd: Herd, kid: Animal): boolean {
  return damBooster(herd, kid) !== undefined;
}

/** The day of the dam's booster that counts for this kid. */
export function damBooster(herd: Herd, { dam, born }: Animal): Day | undefined {
  const mother = dam === undefined ? undefined : herd.animals.get(dam);
  if (mother === undefined || born === undefined) return undefined;
  const { from, by } = BOOSTER_COUNTS.value;
  return mother.care.findLast(
    (c) =>
      c.task === "dam-booster" && c.answer === "done" && c.on >= addDays(born, -from) && c.on <= addDays(born, -by),
  )?.on;
}

/** What was answered of an animal's tasks, newest first. */
export const careGiven = (animal: Animal): readonly CareGiven[] =>
  animal.care
    .map((c) => ({
      code: c.task,
      on: c.on,
      by: c.by,
      answer: c.answer,
      means: c.means,
      noMilkUntil: c.noMilkUntil,
      noMeatUntil: c.noMeatUntil,
    }))
    .toReversed();

/** Animals whose milk or meat is held back, by the vet's word as written down; the last day counts as held back. */
export function heldBack({ herd, today }: Situation): readonly {
  readonly animal: AnimalRef;
  readonly milkUntil: Day | undefined;
  readonly meatUntil: Day | undefined;
}[] {
  const latest = (days: readonly (Day | undefined)[]): Day | undefined =>
    days
      .flatMap((day) => (day !== undefined && day >= today ? [day] : []))
      .sort()
      .at(-1);
  return [...herd.animals.values()].flatMap((animal) => {
    const milkUntil = latest(animal.care.map((c) => c.noMilkUntil));
    const meatUntil = latest(animal.care.map((c) => c.noMeatUntil));
    return milkUntil === undefined && meatUntil === undefined
      ? []
      : [{ animal: animalRef(herd, animal.id), milkUntil, meatUntil }];
  });
}

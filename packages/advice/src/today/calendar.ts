import { addDays, type Day, daysFrom } from "@pollard/base";
import type { CareTaskCode } from "@pollard/husbandry";
import { servicesOf } from "@pollard/records";
import { animalRef } from "../animal-ref.ts";
import type { AnimalRef } from "../animal-ref.ts";
import { careTasks } from "../season/care.ts";
import { expectedDoes } from "../season/pregnancies.ts";
import type { Situation } from "../situation.ts";

/** What stands in the calendar, before it is put into words. */
export type CalendarMatter =
  | { readonly kind: "due"; readonly doe: AnimalRef; readonly likely: Day }
  | { readonly kind: "look"; readonly kid: AnimalRef; readonly end: Day }
  | { readonly kind: "vet"; readonly vet: string | undefined }
  | { readonly kind: "care"; readonly code: CareTaskCode; readonly animal: AnimalRef };

/** One thing of a calendar: what it is about and the days on which it may come. */
export interface CalendarItem {
  /** The same for the same thing in every export. */
  readonly key: string;
  readonly from: Day;
  readonly to: Day;
  readonly matter: CalendarMatter;
  readonly state: "stands" | "cancelled";
}

/** Days ahead for which care is put into the calendar: a season. */
const CARE_AHEAD_DAYS = 120;
/** Days back for which what is settled is sent once more as cancelled, so that calendars drop it. */
const CANCELLED_DAYS = 60;

/**
 * What the calendar holds: due windows, heads to look at, the vet's days, care in its time.
 *
 * What was in an earlier export and is settled since (a doe has kidded, a head is decided, a visit was called off) is given
 * as cancelled under the same key.
 *
 * Shape:  by first day, then by key.
 * Source: rules AD-42, AD-43.
 */
export function calendarItems(situation: Situation): readonly CalendarItem[] {
  return [...dueItems(situation), ...lookItems(situation), ...vetItems(situation), ...careItems(situation)].sort(
    (a, b) => (a.from === b.from ? compareText(a.key, b.key) : compareText(a.from, b.from)),
  );
}

const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** A doe kids once a year at most, or nearly so: the year in which she was first served tells one kidding from the next. */
const dueKey = (doe: string, firstServed: Day): string => `due-${doe}-${firstServed.slice(0, 4)}`;

function dueItems(situation: Situation): readonly CalendarItem[] {
  const { herd, today } = situation;
  const due = expectedDoes(situation).flatMap(({ doe, days, served }): readonly CalendarItem[] =>
    days === undefined
      ? []
      : [
          {
            key: dueKey(doe.id, served.from),
            from: days.from,
            to: days.to,
            matter: { kind: "due", doe, likely: days.likely },
            state: "stands",
          },
        ],
  );
  const kidded = herd.kiddings
    .filter(({ on }) => on <= today && daysFrom(on, today) <= CANCELLED_DAYS)
    .flatMap(({ dam, on }): readonly CalendarItem[] => {
      const served = servicesOf(herd, dam).find((s) => s.on < on && daysFrom(s.on, on) < 300);
      if (served === undefined) return [];
      const matter = { kind: "due", doe: animalRef(herd, dam), likely: on } as const;
      return [{ key: dueKey(dam, served.on), from: on, to: on, matter, state: "cancelled" }];
    });
  const open = new Set(due.map(({ key }) => key));
  return [...due, ...kidded.filter(({ key }) => !open.has(key))];
}

function lookItems(situation: Situation): readonly CalendarItem[] {
  const { herd, today } = situation;
  const items: CalendarItem[] = [];
  const open = new Set<string>();
  for (const { animal, advice } of situation.openHeads()) {
    const chosen = animal.choices.at(-1);
    const day = lookDay(advice, chosen?.choice === "look-again" ? chosen.day : undefined);
    if (day === undefined || advice.end < today) continue;
    open.add(animal.id);
    const from = day < today ? today : day;
    const matter = { kind: "look", kid: animalRef(herd, animal.id), end: advice.end } as const;
    items.push({ key: `look-${animal.id}`, from, to: from, matter, state: "stands" });
  }
  for (const animal of herd.animals.values()) {
    if (animal.born === undefined || animal.kidding === undefined || open.has(animal.id)) continue;
    const age = daysFrom(animal.born, today);
    if (age < 0 || age > CANCELLED_DAYS) continue;
    const matter = { kind: "look", kid: animalRef(herd, animal.id), end: animal.born } as const;
    items.push({ key: `look-${animal.id}`, from: animal.born, to: animal.born, matter, state: "cancelled" });
  }
  return items;
}

/** The day on which a head is to be looked at. */
function lookDay(
  advice: ReturnType<Situation["openHeads"]>[number]["advice"],
  chosen: Day | undefined,
): Day | undefined {
  if (advice.kind === "read-head" || advice.kind === "finish-reading") return advice.by;
  if (advice.kind === "ring-vet") return undefined;
  return chosen ?? (advice.kind === "look-again" ? advice.day : undefined);
}

function vetItems({ herd, today }: Situation): readonly CalendarItem[] {
  const agreed = herd.vetDays
    .filter(({ on }) => on >= addDays(today, -CANCELLED_DAYS))
    .map(({ entry, on, vet }): CalendarItem => {
      return { key: `vet-${entry}`, from: on, to: on, matter: { kind: "vet", vet }, state: "stands" };
    });
  const calledOff = herd.history
    .filter((line) => line.kind === "vet-day" && line.state === "struck" && line.on >= addDays(today, -CANCELLED_DAYS))
    .map(({ entry, on }): CalendarItem => {
      return { key: `vet-${entry}`, from: on, to: on, matter: { kind: "vet", vet: undefined }, state: "cancelled" };
    });
  return [...agreed, ...calledOff.filter(({ key }) => !agreed.some((a) => a.key === key))];
}

function careItems(situation: Situation): readonly CalendarItem[] {
  const coming = careTasks(situation, CARE_AHEAD_DAYS).filter(({ by }) => by >= situation.today);
  return coming.map(({ code, animal, from, by }): CalendarItem => {
    const key = `care-${code}-${animal.id}-${by.slice(0, 4)}`;
    return { key, from: from < by ? from : by, to: by, matter: { kind: "care", code, animal }, state: "stands" };
  });
}

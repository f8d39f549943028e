import { addDays, type Day, parseDay, weekday } from "@pollard/base";
import type { Herd } from "@pollard/records";
import { amountSetting } from "../settings.ts";

/** What the keeper and the vet have said about days: which suit, which do not, how many heads a visit can take. */
export interface VisitWishes {
  /** Days of the week on which the vet comes, 0 = Monday; all of them where nothing was said. */
  readonly weekdays: readonly number[];
  /** Days on which nobody can come. */
  readonly blocked: readonly Day[];
  readonly mostHeads: number | undefined;
}

/** The settings in which they are kept: texts with days between blanks or commas, and a number. */
export const VISIT_SETTINGS = {
  weekdays: "vet-weekdays",
  blocked: "vet-blocked-days",
  mostHeads: "vet-most-heads",
} as const;

const WEEKDAYS = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"] as const;
/** Longest stretch of blocked days that one setting names; a longer one is a slip. */
const LONGEST_STRETCH = 400;

/**
 * The wishes as the settings hold them.
 *
 * Weekdays are `mon` to `sun`; blocked days `YYYY-MM-DD`, or a stretch as two of them with two dots between. What is neither is
 * left aside.
 */
export function visitWishes(herd: Herd): VisitWishes {
  const weekdays = words(herd, VISIT_SETTINGS.weekdays).flatMap((word) => {
    const at = WEEKDAYS.findIndex((name) => word.toLowerCase().startsWith(name));
    return at === -1 ? [] : [at];
  });
  const most = amountSetting(herd, VISIT_SETTINGS.mostHeads);
  return {
    weekdays: weekdays.length === 0 ? WEEKDAYS.map((_, i) => i) : [...new Set(weekdays)].sort((a, b) => a - b),
    blocked: words(herd, VISIT_SETTINGS.blocked).flatMap(stretch),
    mostHeads: most === undefined || most < 1 ? undefined : Math.floor(most),
  };
}

function words(herd: Herd, key: string): readonly string[] {
  const value = herd.settings.get(key);
  return typeof value === "string" ? value.split(/[\s,;]+/).filter((word) => word !== "") : [];
}

function stretch(word: string): readonly Day[] {
  const [first, last] = word.split("..").map(parseDay);
  if (first === undefined) return [];
  const days: Day[] = [first];
  for (let day = first; last !== undefined && day < last && days.length < LONGEST_STRETCH; ) {
    day = addDays(day, 1);
    days.push(day);
  }
  return days;
}

/** Whether the vet could come on a day. */
export const suits = ({ weekdays, blocked }: VisitWishes, day: Day): boolean =>
  weekdays.includes(weekday(day)) && !blocked.includes(day);

import type { VetDayLine } from "@pollard/advice";
import { addDays, type Day, daysFrom } from "@pollard/base";
import type { DueDoe, SeasonModel } from "../../worker/season-answers.ts";

/** How many equally likely cases a picture shows. Our judgement: few enough to be counted. */
const DOTS = 20;
/** Nine in ten of the twenty. */
const MOST_OF_TWENTY = 18;
/** Rows drawn one under the other, in a frame that scrolls; those further on stand in the table only. */
const ROWS_DRAWN = 120;

/** One dot of a picture: where it stands, and the how-manieth it is there, from 1. */
export interface Dot {
  readonly at: number;
  readonly above: number;
}

/** How many of the dots stand at each place, rising; a place without a dot is left out. */
export function dotCounts(dots: readonly Dot[]): readonly { readonly at: number; readonly dots: number }[] {
  const counts = new Map<number, number>();
  for (const { at } of dots) counts.set(at, (counts.get(at) ?? 0) + 1);
  return [...counts].toSorted(([a], [b]) => a - b).map(([at, count]) => ({ at, dots: count }));
}

/**
 * Twenty cases that are equally likely, drawn from chances: the middle of each twentieth.
 *
 * Shape:   rising; `values` in rising order with chances that sum to 1.
 * Assumes: at least one value; otherwise no case.
 */
export function twentyOf<T>(values: readonly { readonly value: T; readonly chance: number }[]): readonly T[] {
  const cases: T[] = [];
  let [at, sum] = [0, values[0]?.chance ?? 0];
  for (let i = 0; i < DOTS; i++) {
    const share = (i + 0.5) / DOTS;
    while (sum < share - 1e-9 && at < values.length - 1) sum += values[++at]?.chance ?? 0;
    const found = values[at];
    if (found !== undefined) cases.push(found.value);
  }
  return cases;
}

/** Dots stacked where they fall together. */
export function stacked(places: readonly number[]): readonly Dot[] {
  const high = new Map<number, number>();
  return places.map((at) => {
    const above = (high.get(at) ?? 0) + 1;
    high.set(at, above);
    return { at, above };
  });
}

/** How many dots stand side by side in one place: the more places there are, the fewer. */
export const acrossFor = (places: number): number => (places <= 3 ? 5 : places <= 6 ? 3 : places <= 9 ? 2 : 1);

/** Where a dot stands in a place that is filled row by row from the bottom left, counted from 0. */
export const placeOfDot = ({ at, above }: Dot, across: number) => ({
  at,
  along: (above - 1) % across,
  up: Math.floor((above - 1) / across),
});

/** Twenty seasons: how many heads a visit has in each. */
export const headDots = ({ chances }: Pick<VetDayLine, "chances">): readonly Dot[] =>
  stacked(twentyOf(chances.map((chance, value) => ({ value, chance }))));

/** The days of a doe's picture: twenty kiddings, as days after `first`. */
export interface KiddingDots {
  readonly first: Day;
  /** How many days the picture spans. */
  readonly span: number;
  readonly dots: readonly Dot[];
}

/** In how many of the twenty seasons room for so many heads is enough. */
export const enoughIn = (dots: readonly Dot[], room: number): number => dots.filter(({ at }) => at <= room).length;

/** Room that is enough in eighteen of the twenty: what is asked for unless the keeper moves it. */
export function usualRoom(dots: readonly Dot[]): number {
  const counts = dots.map(({ at }) => at).toSorted((a, b) => a - b);
  return counts[MOST_OF_TWENTY - 1] ?? 0;
}

/** Twenty kiddings of one doe that are equally likely; nothing where she is not expected to kid. */
export function kiddingDots({ births }: DueDoe): KiddingDots | undefined {
  const byDay = new Map<Day, number>();
  for (const { day, chance } of births) byDay.set(day, (byDay.get(day) ?? 0) + chance);
  const days = twentyOf([...byDay].sort(([a], [b]) => (a < b ? -1 : 1)).map(([value, chance]) => ({ value, chance })));
  const [first, last] = [days[0], days.at(-1)];
  if (first === undefined || last === undefined) return undefined;
  return { first, span: daysFrom(first, last) + 1, dots: stacked(days.map((day) => daysFrom(first, day))) };
}

/** Which counts are written under a picture of heads: all of a few, else every other or every fifth. */
export function countMarks(most: number): readonly number[] {
  const step = most <= 9 ? 1 : most <= 20 ? 2 : 5;
  return Array.from({ length: Math.floor(most / step) + 1 }, (_, i) => i * step);
}

/** Days between two written ones, so that their words do not touch. */
const MARK_APART = 4;

/** Which days are written under a picture of kiddings: the first, the last, and the likeliest where there is room. */
export function dayMarks(
  { first, span }: KiddingDots,
  likely: Day,
): readonly { readonly at: number; readonly day: Day }[] {
  const last = span - 1;
  const middle = daysFrom(first, likely);
  const ends = last >= MARK_APART ? [0, last] : [0];
  const places = middle >= MARK_APART && last - middle >= MARK_APART ? [0, middle, last] : ends;
  return places.map((at) => ({ at, day: addDays(first, at) }));
}

/** Heads expected of one goat from which it hides what another adds; fewer would let the other's chance be read off. */
const SPEAKS = 0.2;

/**
 * Whether a visit's count may be shown. Where all its heads are one kid that nobody has read, the count would tell the
 * family's forecast before the eyes have looked (rule UI-7).
 */
export const countMayShow = ({ from }: VetDayLine): boolean =>
  !from.some(({ expected }) => expected === undefined) ||
  from.some(({ expected }) => expected !== undefined && expected >= SPEAKS);

/** Where one bar of the timeline stands, in days after its first. */
export interface TimelineRow {
  readonly id: string;
  readonly from: number;
  readonly to: number;
  /** The day by which half of a doe's kiddings are over; none for a kid's window. */
  readonly likely: number | undefined;
}

/** The season drawn day by day. */
export interface Timeline {
  readonly first: Day;
  readonly span: number;
  /** Kids first, then does, by the day on which they begin. */
  readonly rows: readonly TimelineRow[];
  readonly visits: readonly { readonly day: Day; readonly at: number; readonly state: VetDayLine["state"] }[];
  /** Mondays, to count by. */
  readonly weeks: readonly { readonly day: Day; readonly at: number }[];
  /** Does left out of the drawing. */
  readonly more: number;
}

/** The timeline from today to the last day on which anything may happen; nothing where nothing is to come. */
export function timelineOf({ due, kids, plan }: SeasonModel): Timeline | undefined {
  const first = plan.today;
  const at = (day: Day): number => daysFrom(first, day);
  const does = due.flatMap(({ expected: { doe, days } }) =>
    days === undefined || days.to < first
      ? []
      : [{ id: doe.id, from: Math.max(0, at(days.from)), to: at(days.to), likely: at(days.likely) }],
  );
  const open = kids.map(({ kid, end }) => ({ id: kid.id, from: 0, to: at(end), likely: undefined }));
  const visits = plan.visits.map(({ day, state }) => ({ day, at: at(day), state }));
  const drawn = [...open.toSorted((a, b) => a.to - b.to), ...does].slice(0, ROWS_DRAWN);
  const last = Math.max(-1, ...drawn.map(({ to }) => to), ...visits.map((visit) => visit.at));
  if (last < 0) return undefined;
  const span = last + 2;
  const weeks = Array.from({ length: span }, (_, i) => ({ day: addDays(first, i), at: i })).filter(
    ({ day }) => daysFrom(MONDAY, day) % 7 === 0,
  );
  return { first, span, rows: drawn, visits, weeks, more: open.length + does.length - drawn.length };
}

/** A Monday, to count weeks from. */
const MONDAY = "2024-01-01" as Day;

/**
 * Blocked days as their setting holds them: days, and stretches of days as their ends with two dots between.
 *
 * @example
 * blockedText([day("2026-03-02"), day("2026-03-03"), day("2026-03-09")]); // "2026-03-02..2026-03-03 2026-03-09"
 */
export function blockedText(days: readonly Day[]): string {
  const stretches: { from: Day; to: Day }[] = [];
  for (const day of [...new Set(days)].sort()) {
    const open = stretches.at(-1);
    if (open !== undefined && daysFrom(open.to, day) === 1) open.to = day;
    else stretches.push({ from: day, to: day });
  }
  return stretches.map(({ from, to }) => (from === to ? from : `${from}..${to}`)).join(" ");
}

const WEEKDAYS = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"] as const;
export type Weekday = (typeof WEEKDAYS)[number];
export { WEEKDAYS };

/** The weekdays that are ticked: none where every day will do. */
export const weekdaysTicked = (weekdays: readonly number[]): readonly Weekday[] =>
  weekdays.length === WEEKDAYS.length ? [] : WEEKDAYS.filter((_, i) => weekdays.includes(i));

/** Which litter is likeliest, by its size. */
export function likeliestLitter(litter: readonly number[]): "one" | "two" | "three" | "more" | undefined {
  const most = litter.indexOf(Math.max(...litter));
  return (["one", "two", "three"] as const)[most] ?? (most < 0 ? undefined : "more");
}

/** Days after a mating in which its kids may still be to come: longer than any goat carries. */
const CARRIED_DAYS = 170;

/** Whether a mating may still lead to kids that are to come. */
export const isThisSeason = ({ until }: { readonly until: Day }, today: Day): boolean =>
  daysFrom(until, today) <= CARRIED_DAYS;

/** Fewest heads that a limit starts from, when there was none. */
const FIRST_LIMIT = 10;

/** The limit one head down or up; 0 stands for none. */
export function headsStep(most: number | undefined, way: "less" | "more"): number {
  if (most === undefined) return FIRST_LIMIT;
  return most + (way === "more" ? 1 : -1);
}

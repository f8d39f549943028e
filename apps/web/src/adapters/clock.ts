import { type Day, day } from "@pollard/base";

/*
 * The phone's own clock, and the only place of the app that reads it. Days are local calendar days, never instants
 * (rule UI-8): a kid born at 23:50 was born that day in every time zone.
 */

const two = (n: number): string => String(n).padStart(2, "0");

/** The local calendar day. */
export function today(now = new Date()): Day {
  return day(`${String(now.getFullYear()).padStart(4, "0")}-${two(now.getMonth() + 1)}-${two(now.getDate())}`);
}

/** The local time of day, `HH:MM`. */
export const timeOfDay = (now = new Date()): string => `${two(now.getHours())}:${two(now.getMinutes())}`;

/** Local day and time of day, `YYYY-MM-DDTHH:MM`. */
export const localMinute = (now = new Date()): string => `${today(now)}T${timeOfDay(now)}`;

/** Milliseconds since the Unix epoch: for stamps and for measuring how long something took, never for days. */
export const instantMs = (): number => Date.now();

/** The present moment as stamps carry it, UTC: `2026-03-01T22:50:12.345Z`. */
export const nowUtc = (): string => new Date().toISOString();

/** A moment as stamps carry it, in milliseconds since the Unix epoch: for measuring, never for days. */
export const instantOf = (utc: string): number => Date.parse(utc);

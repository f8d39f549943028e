import type { Brand } from "./brand.ts";
import { Bug } from "./bug.ts";

/** A calendar day on the farm, `YYYY-MM-DD`. Never an instant: it has no zone, and text order is day order. */
export type Day = Brand<string, "Day">;

const SHAPE = /^(\d{4})-(\d{2})-(\d{2})$/;
const MONTH_LENGTHS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

const isLeap = (year: number): boolean => (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
const monthLength = (year: number, month: number): number =>
  month === 2 && isLeap(year) ? 29 : (MONTH_LENGTHS[month - 1] ?? 0);

/** The day a text names, or `undefined` where there is no such day (2026-02-30, 26-2-3, noon). */
export function parseDay(text: string): Day | undefined {
  const found = SHAPE.exec(text);
  if (!found) return undefined;
  const [year, month, day] = [Number(found[1]), Number(found[2]), Number(found[3])];
  return year >= 1 && day >= 1 && day <= monthLength(year, month) ? (text as Day) : undefined;
}

/** @throws Bug where there is no such day: the program wrote the text itself. */
export function day(text: string): Day {
  const parsed = parseDay(text);
  if (parsed === undefined) throw new Bug(`not a day: ${text}`);
  return parsed;
}

/**
 * Days from the civil epoch (1970-01-01 is 0) in the proleptic Gregorian calendar.
 *
 * Source: H. Hinnant, "chrono-compatible low-level date algorithms", days_from_civil (from memory, checked by its law test).
 */
function toNumber(d: Day): number {
  const month = Number(d.slice(5, 7));
  const year = Number(d.slice(0, 4)) - (month <= 2 ? 1 : 0);
  const era = Math.floor(year / 400);
  const yearOfEra = year - era * 400;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + Number(d.slice(8, 10)) - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * 146_097 + dayOfEra - 719_468;
}

function fromNumber(n: number): Day {
  const z = n + 719_468;
  const era = Math.floor(z / 146_097);
  const dayOfEra = z - era * 146_097;
  const yearOfEra = Math.floor(
    (dayOfEra - Math.floor(dayOfEra / 1460) + Math.floor(dayOfEra / 36_524) - Math.floor(dayOfEra / 146_096)) / 365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const shifted = Math.floor((5 * dayOfYear + 2) / 153);
  const month = shifted + (shifted < 10 ? 3 : -9);
  const year = yearOfEra + era * 400 + (month <= 2 ? 1 : 0);
  const dayOfMonth = dayOfYear - Math.floor((153 * shifted + 2) / 5) + 1;
  const two = (x: number) => String(x).padStart(2, "0");
  return day(`${String(year).padStart(4, "0")}-${two(month)}-${two(dayOfMonth)}`);
}

/** The day `days` whole days after `d` (before it when negative). @throws Bug outside the years 1 to 9999. */
export const addDays = (d: Day, days: number): Day => fromNumber(toNumber(d) + days);

/** Whole days from `from` to `to`; negative when `to` is earlier. */
export const daysFrom = (from: Day, to: Day): number => toNumber(to) - toNumber(from);

/** Day of the week, 0 = Monday … 6 = Sunday (ISO 8601 order). */
export const weekday = (d: Day): number => (((toNumber(d) + 3) % 7) + 7) % 7;

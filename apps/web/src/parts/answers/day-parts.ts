import { type Day, parseDay } from "@pollard/base";

/** A day as it stands in three fields while it is typed. */
export interface DayParts {
  readonly day: string;
  readonly month: string;
  readonly year: string;
}

export const partsOf = (day: Day): DayParts => ({
  day: String(Number(day.slice(8, 10))),
  month: String(Number(day.slice(5, 7))),
  year: day.slice(0, 4),
});

/**
 * The day that three fields name, or `undefined` while they name none. A month may be a number or the beginning of its
 * name; a year of two digits is one of this century.
 *
 * @example
 * dayFromParts({ day: "3", month: "mar", year: "26" }, ["January", "February", "March"]); // "2026-03-03"
 */
export function dayFromParts(parts: DayParts, months: readonly string[]): Day | undefined {
  const typed = parts.month.trim().toLowerCase();
  const named = typed.length >= 3 ? months.findIndex((month) => month.toLowerCase().startsWith(typed)) + 1 : 0;
  const month = /^\d{1,2}$/.test(typed) ? Number(typed) : named;
  const year = /^\d{2}$/.test(parts.year.trim()) ? `20${parts.year.trim()}` : parts.year.trim();
  if (month === 0 || !/^\d{1,2}$/.test(parts.day.trim())) return undefined;
  return parseDay(`${year}-${String(month).padStart(2, "0")}-${parts.day.trim().padStart(2, "0")}`);
}

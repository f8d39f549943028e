import { type Day, parseDay } from "@pollard/base";
import { plainWord } from "./list-columns.ts";

/** Which number of a day comes first: 3/4 is the third of April, or the fourth of March. */
export const DAY_ORDERS = ["day-month", "month-day"] as const;
export type DayOrder = (typeof DAY_ORDERS)[number];

/**
 * What a cell says of a day: the day, or why it is none. `either` = day first and month first are both days, `no-day-set` =
 * what a spreadsheet shows as the day of a cell that holds nothing.
 */
export type DayRead =
  | { readonly read: "day"; readonly day: Day; readonly proves: DayOrder | undefined }
  | { readonly read: "either" }
  | { readonly read: "number" }
  | { readonly read: "year" }
  | { readonly read: "no-day-set" }
  | { readonly read: "none" };

/** Months by how they begin in English, Spanish, French and German. */
const MONTHS: readonly (readonly string[])[] = [
  ["jan", "ene"],
  ["feb", "fev"],
  ["mar"],
  ["apr", "abr", "avr"],
  ["may", "mai"],
  ["jun", "juin"],
  ["jul", "juil"],
  ["aug", "ago", "aou"],
  ["sep", "set"],
  ["oct", "okt"],
  ["nov"],
  ["dec", "dic", "dez"],
];

const monthNamed = (word: string): number | undefined => {
  const at = MONTHS.findIndex((starts) => starts.some((start) => plainWord(word).startsWith(start)));
  return at < 0 ? undefined : at + 1;
};

const two = (text: string | number): string => String(text).padStart(2, "0");

const dayFrom = (year: string, month: string | number, day: string): Day | undefined =>
  parseDay(`${year}-${two(month)}-${two(day)}`);

/** A year of two digits is the last such year that is not to come: nobody lists goats that are not born. */
function fullYear(year: string, today: Day): string {
  if (year.length === 4) return year;
  const century = Number(today.slice(0, 2));
  return `${year > today.slice(2, 4) ? century - 1 : century}${year}`;
}

/** The days from which spreadsheet programs count: a cell of nothing, shown as a day, is one of them. From memory. */
const COUNTED_FROM: ReadonlySet<string> = new Set(["1899-12-30", "1899-12-31", "1900-01-00", "1904-01-01"]);

/**
 * The day in a cell: `2024-03-25`, `25/3/2024`, `3/25/24`, `25.03.2024`, `25 March 2024`, `March 25, 2024`, with or without a time.
 *
 * Where the day and the month may be swapped, `order` decides; without it the answer is `either`, never a guess.
 */
export function dayIn(cell: string, order: DayOrder | undefined, today: Day): DayRead {
  const text = cell.trim().replace(/[T ]+\d{1,2}:\d{2}(:\d{2})?(\.\d+)?Z?$/, "");
  if (/^\d{5}([.,]\d+)?$/.test(text)) return { read: "number" };
  if (/^(19|20)\d{2}$/.test(text)) return { read: "year" };
  const iso = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(text);
  if (COUNTED_FROM.has(text)) return { read: "no-day-set" };
  if (iso) return asRead(dayFrom(iso[1] ?? "", iso[2] ?? "", iso[3] ?? ""));
  const dayFirst = /^(\d{1,2})\.?[\s/-]*(?:de\s+)?(\p{L}+)\.?[\s/,-]*(?:de\s+)?(\d{4}|\d{2})$/u.exec(text);
  const monthFirst = /^(\p{L}+)\.?\s*(\d{1,2})(?:st|nd|rd|th)?[\s,]+(\d{4}|\d{2})$/u.exec(text);
  const [word, day, year] = dayFirst
    ? [dayFirst[2], dayFirst[1], dayFirst[3]]
    : [monthFirst?.[1], monthFirst?.[2], monthFirst?.[3]];
  if (word !== undefined) return asRead(dayFrom(fullYear(year ?? "", today), monthNamed(word) ?? 0, day ?? ""));
  const numbers = /^(\d{1,2})\s?[-/.]\s?(\d{1,2})\s?[-/.]\s?(\d{4}|\d{2})$/.exec(text);
  if (!numbers) return { read: "none" };
  const [, first = "", second = "", last = ""] = numbers;
  const whole = fullYear(last, today);
  const read = { "day-month": dayFrom(whole, second, first), "month-day": dayFrom(whole, first, second) };
  const [possible, ...others] = DAY_ORDERS.filter((each) => read[each] !== undefined);
  if (possible === undefined) return { read: "none" };
  if (others.length === 0 || read["day-month"] === read["month-day"])
    return asRead(read[possible], others.length === 0 ? possible : undefined);
  return order === undefined ? { read: "either" } : asRead(read[order]);
}

const asRead = (day: Day | undefined, proves?: DayOrder): DayRead =>
  day === undefined ? { read: "none" } : COUNTED_FROM.has(day) ? { read: "no-day-set" } : { read: "day", day, proves };

/** What a list's own days tell about their order, and how many cells leave it open. */
export interface DayOrderSeen {
  /** `undefined` where no cell proves one, or where some prove the one and some the other. */
  readonly proven: DayOrder | undefined;
  readonly open: number;
}

export function dayOrderIn(cells: readonly string[], today: Day): DayOrderSeen {
  const reads = cells.map((cell) => dayIn(cell, undefined, today));
  const proofs = new Set(reads.flatMap((read) => (read.read === "day" ? (read.proves ?? []) : [])));
  const [proven, ...others] = proofs;
  return {
    proven: others.length === 0 ? proven : undefined,
    open: reads.filter(({ read }) => read === "either").length,
  };
}

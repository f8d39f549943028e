import { type Day, daysFrom, weekday } from "@pollard/base";

const WEEKDAYS = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"];
const MONTHS = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
];

/** A day as said aloud. Near days by their name, others with weekday and date, the year where it is not this one's. */
export function sayDay(day: Day, today: Day): string {
  const away = daysFrom(today, day);
  if (away === 0) return "today";
  if (away === 1) return "tomorrow";
  if (away === -1) return "yesterday";
  const date = `${Number(day.slice(8, 10))} ${MONTHS[Number(day.slice(5, 7)) - 1]}`;
  const year = day.slice(0, 4) === today.slice(0, 4) ? "" : ` ${day.slice(0, 4)}`;
  return `${WEEKDAYS[weekday(day)]} ${date}${year}`;
}

/** A date where there is little room, for the margin of a drawing: "24 Mar". */
export const sayShortDay = (day: Day): string =>
  `${Number(day.slice(8, 10))} ${(MONTHS[Number(day.slice(5, 7)) - 1] ?? "").slice(0, 3)}`;

/** How far off a day is. */
export function sayDaysFrom(today: Day, day: Day): string {
  const away = daysFrom(today, day);
  if (away === 0) return "today";
  if (away === 1) return "tomorrow";
  if (away === -1) return "yesterday";
  return away > 0 ? `in ${away} days` : `${-away} days ago`;
}

/** "1 day", "3 days". */
export const sayDays = (days: number): string => `${days} ${days === 1 ? "day" : "days"}`;

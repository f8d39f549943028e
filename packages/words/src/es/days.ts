import { type Day, daysFrom, weekday } from "@pollard/base";

const WEEKDAYS = ["lunes", "martes", "miércoles", "jueves", "viernes", "sábado", "domingo"];
const SHORT_WEEKDAYS = ["lun", "mar", "mié", "jue", "vie", "sáb", "dom"];
const MONTHS = [
  "enero",
  "febrero",
  "marzo",
  "abril",
  "mayo",
  "junio",
  "julio",
  "agosto",
  "septiembre",
  "octubre",
  "noviembre",
  "diciembre",
];

const monthOf = (day: Day): string => MONTHS[Number(day.slice(5, 7)) - 1] ?? "";

/** A day as said aloud, without its article: "hoy", "lunes 3 de marzo"; the year where it is not this one's. */
export function sayDay(day: Day, today: Day): string {
  const away = daysFrom(today, day);
  if (away === 0) return "hoy";
  if (away === 1) return "mañana";
  if (away === -1) return "ayer";
  const year = day.slice(0, 4) === today.slice(0, 4) ? "" : ` de ${day.slice(0, 4)}`;
  return `${WEEKDAYS[weekday(day)]} ${Number(day.slice(8, 10))} de ${monthOf(day)}${year}`;
}

const takesArticle = (said: string): boolean => WEEKDAYS.some((name) => said.startsWith(`${name} `));

/** A day that was said, with the article it takes: "hoy", "el lunes 3 de marzo". */
export const el = (said: string): string => (takesArticle(said) ? `el ${said}` : said);

/** Of a day that was said: "de hoy", "del lunes 3 de marzo". */
export const del = (said: string): string => (takesArticle(said) ? `del ${said}` : `de ${said}`);

/** To a day that was said: "a hoy", "al lunes 3 de marzo". */
export const al = (said: string): string => (takesArticle(said) ? `al ${said}` : `a ${said}`);

/** A date where there is little room: "24 mar", never broken over two lines. */
export const sayShortDay = (day: Day): string => `${Number(day.slice(8, 10))}\u00a0${monthOf(day).slice(0, 3)}`;

/** Weekday and date, short and always with both, for tables and letters: "mar 2026-03-24". */
export const sayTableDay = (day: Day): string => `${SHORT_WEEKDAYS[weekday(day)]} ${day}`;

/** How far off a day is. */
export function sayDaysFrom(today: Day, day: Day): string {
  const away = daysFrom(today, day);
  if (away === 0) return "hoy";
  if (away === 1) return "mañana";
  if (away === -1) return "ayer";
  return away > 0 ? `dentro de ${away} días` : `hace ${-away} días`;
}

/** "1 día", "3 días". */
export const sayDays = (days: number): string => `${days} ${days === 1 ? "día" : "días"}`;

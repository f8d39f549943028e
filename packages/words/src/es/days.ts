import { type Day, daysFrom, weekday } from "@pollard/base";

const WEEKDAYS = ["lunes", "martes", "miércoles", "jueves", "viernes", "sábado", "domingo"];
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

/** Un día como se dice: los cercanos por su nombre, los demás con día de la semana y fecha. */
export function sayDay(day: Day, today: Day): string {
  const away = daysFrom(today, day);
  if (away === 0) return "hoy";
  if (away === 1) return "mañana";
  if (away === -1) return "ayer";
  const date = `${Number(day.slice(8, 10))} de ${MONTHS[Number(day.slice(5, 7)) - 1]}`;
  const year = day.slice(0, 4) === today.slice(0, 4) ? "" : ` de ${day.slice(0, 4)}`;
  return `${WEEKDAYS[weekday(day)]} ${date}${year}`;
}

/** Una fecha donde hay poco sitio: "24 mar". */
export const sayShortDay = (day: Day): string =>
  `${Number(day.slice(8, 10))} ${(MONTHS[Number(day.slice(5, 7)) - 1] ?? "").slice(0, 3)}`;

/** Cuánto falta o hace de un día. */
export function sayDaysFrom(today: Day, day: Day): string {
  const away = daysFrom(today, day);
  if (away === 0) return "hoy";
  if (away === 1) return "mañana";
  if (away === -1) return "ayer";
  return away > 0 ? `dentro de ${away} días` : `hace ${-away} días`;
}

/** "1 día", "3 días". */
export const sayDays = (days: number): string => `${days} ${days === 1 ? "día" : "días"}`;

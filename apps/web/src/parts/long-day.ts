import type { Day } from "@pollard/base";
import { words } from "../house/use-house.tsx";

/** A date in full without its year: "Wednesday 25 November", also where it is today. */
export const longDay = (day: Day): string => words.day(day, "0001-01-01" as Day).replace(/( de)? \d{4}$/, "");

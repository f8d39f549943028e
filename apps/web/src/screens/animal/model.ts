import { type Day, daysFrom } from "@pollard/base";
import type { FactKind, HistoryLine } from "@pollard/records";
import type { screens } from "@pollard/words";

/** How old a goat is, in the unit a keeper would use: days for three weeks, weeks for three months, then months, years. */
export function ageSaid(s: typeof screens, born: Day, today: Day): string {
  const days = daysFrom(born, today);
  if (days < 0) return "";
  if (days <= 21) return s.animal.ageDays(days);
  if (days <= 91) return s.animal.ageWeeks(Math.floor(days / 7));
  if (days < 730) return s.animal.ageMonths(Math.floor(days / 30.44));
  return s.animal.ageYears(Math.floor(days / 365.25));
}

/** What can be withdrawn from a goat's page, and what can be brought back. */
export function undoOf(line: HistoryLine): "strike" | "bring-back" | "none" {
  if (line.state === "stands") return "strike";
  return line.state === "struck" && line.undoneBy !== undefined ? "bring-back" : "none";
}

/** Where a kind of fact is entered for one goat. */
export function canEnter(sex: string, gone: boolean): readonly ("kidding" | "mating")[] {
  if (gone) return [];
  return sex === "doe" ? ["kidding", "mating"] : sex === "buck" ? ["mating"] : [];
}

/** What a line of the history is called. */
export const kindSaid = (s: typeof screens, kind: FactKind): string => s.animal.kinds[kind];

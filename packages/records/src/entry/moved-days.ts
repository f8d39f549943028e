import { addDays, type Day, day } from "@pollard/base";
import { type Entry, isTooNew, type TooNewEntry } from "./entry.ts";
import type { BodyOf, Fact, FactKind } from "./entry-kinds.ts";
import type { Stamp } from "./ids.ts";

/** Which fields of each body are days. Texts that merely look like a day (a tag, a note) are left alone. */
const DAY_FIELDS = {
  animal: ["born"],
  service: ["until"],
  choice: ["day"],
  care: ["until", "noMilkUntil", "noMeatUntil"],
} as const satisfies { readonly [K in FactKind]?: readonly (keyof BodyOf<K>)[] };

/**
 * The same ledger, as if everything had happened and been written `days` later (earlier when negative).
 *
 * For herds that demonstrate something: their anchor day becomes today. Ids stay as they are, so an entry can be named.
 *
 * Shape:   same order; an entry that is too new to be understood is passed on unmoved.
 * Errors:  Bug where a moved day would fall outside the years 1 to 9999.
 */
export function movedDays(entries: readonly (Entry | TooNewEntry)[], days: number): readonly (Entry | TooNewEntry)[] {
  return entries.map((entry) => (isTooNew(entry) ? entry : movedEntry(entry, days)));
}

function movedEntry(entry: Entry, days: number): Entry {
  const at = movedText(entry.at, days) as Stamp;
  switch (entry.kind) {
    case "replace":
      return {
        ...entry,
        at,
        on: movedText(entry.on, days),
        body: { ...entry.body, fact: movedFact(entry.body.fact, days) },
      };
    case "strike":
      return { ...entry, at, on: movedText(entry.on, days) };
    default:
      return { ...movedFact(entry, days), at };
  }
}

/** The day at the front of a text, moved; a time of day behind it stays. */
const movedText = (text: string, days: number): string => addDays(day(text.slice(0, 10)), days) + text.slice(10);

function movedFact<F extends Fact>(fact: F, days: number): F {
  const fields: readonly string[] = fact.kind in DAY_FIELDS ? DAY_FIELDS[fact.kind as keyof typeof DAY_FIELDS] : [];
  const moved = Object.entries(fact.body).filter(([field, value]) => fields.includes(field) && value !== undefined);
  const body = {
    ...fact.body,
    ...Object.fromEntries(moved.map(([field, value]) => [field, addDays(value as Day, days)])),
  };
  return { ...fact, on: movedText(fact.on, days), body };
}

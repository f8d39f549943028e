import type { Entry, EntryId, Fact, TooNewEntry } from "@pollard/records";
import { isTooNew } from "@pollard/records";

/** A fact as it stands now, and the entry that says so: one that corrects this one builds on it, and is no rival of it. */
export interface Standing {
  readonly entry: EntryId;
  readonly fact: Fact;
}

/** What a correction would put in a fact's place, who wrote it and when. */
export interface Replacement {
  readonly id: EntryId;
  readonly by: string;
  readonly on: string;
  readonly fact: Fact;
}

/**
 * A fact with the corrections in force upon it: what a keeper who corrects it again has to start from.
 *
 * Assumes: the fold's rule, that the last correction by stamp counts and a struck one does not.
 * Cost:    one pass over the ledger.
 */
export function standingFact(entries: readonly (Entry | TooNewEntry)[], id: EntryId): Standing | undefined {
  const known = entries.filter((entry): entry is Entry => !isTooNew(entry));
  const first = known.find((entry) => entry.id === id);
  if (first === undefined || first.kind === "strike" || first.kind === "replace") return undefined;
  const last = replacementsOf(known, id).at(-1);
  return last === undefined ? { entry: id, fact: first } : { entry: last.end, fact: last.fact };
}

/** These corrections themselves, for somebody who is asked which of them is right. */
export function replacementsNamed(
  entries: readonly (Entry | TooNewEntry)[],
  ids: readonly EntryId[],
): readonly Replacement[] {
  return entries.flatMap((entry) =>
    !isTooNew(entry) && entry.kind === "replace" && ids.includes(entry.id)
      ? [{ id: entry.id, by: entry.by, on: entry.on, fact: entry.body.fact }]
      : [],
  );
}

/** The corrections of a fact that are not struck, the earliest first; one that corrects a correction (`end`) counts in its place. */
function replacementsOf(known: readonly Entry[], id: EntryId): readonly (Replacement & { readonly end: EntryId })[] {
  const struck = new Set(
    known.flatMap((entry) => (entry.kind === "strike" && !isStruck(known, entry.id) ? [entry.body.entry] : [])),
  );
  return known
    .flatMap((entry) => (entry.kind === "replace" && entry.body.entry === id && !struck.has(entry.id) ? [entry] : []))
    .toSorted((a, b) => (a.at < b.at ? -1 : 1))
    .map((entry) => {
      const later = replacementsOf(known, entry.id).at(-1);
      const end = later?.end ?? entry.id;
      return { id: entry.id, end, by: entry.by, on: entry.on, fact: later?.fact ?? entry.body.fact };
    });
}

/** Was this strike itself struck, and so undone? */
function isStruck(known: readonly Entry[], id: EntryId): boolean {
  return known.some((entry) => entry.kind === "strike" && entry.body.entry === id && !isStruck(known, entry.id));
}

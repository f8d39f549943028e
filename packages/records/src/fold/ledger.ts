import type { Day } from "@pollard/base";
import { type Entry, isTooNew, type TooNewEntry } from "../entry/entry.ts";
import type { Herd, HerdProblem } from "../herd.ts";
import type { EntryId, HerdId } from "../entry/ids.ts";
import { canonicalText } from "../keeping/canonical-text.ts";
import { byEntry, derivation } from "./derivation.ts";
import { compareText } from "./settled-fact.ts";
import { sortedList } from "./sorted-list.ts";

/** What the entries tell on one day, and what in them makes no sense. */
export interface Folded {
  readonly herd: Herd;
  readonly problems: readonly HerdProblem[];
}

/** A herd that is kept up to date while entries come in, from anywhere, in any order, any number of times. */
export interface Ledger {
  readonly today: Day;
  /**
   * Takes in entries.
   *
   * Cost: in what the entries touch, not in what is there already; see bench/fold.ts.
   */
  add(entries: Iterable<Entry | TooNewEntry>): void;
  /** The herd as it stands. An answer stays as it was when given. */
  folded(): Folded;
}

/**
 * The herd as its entries tell it on `today`, and what in them makes no sense.
 *
 * The same set of entries gives the same answer, in whatever order they come and however often. One bad entry never hides
 * the rest: it becomes a problem that names it.
 *
 * Shape:  animals by id; services, kiddings, vet days and notes by day, then stamp; history newest first; problems by entry.
 * Cost:   100,000 entries in seconds; for one entry more use `openLedger`.
 * Errors: none.
 */
export function fold(entries: Iterable<Entry | TooNewEntry>, today: Day): Folded {
  const ledger = openLedger(today);
  ledger.add(entries);
  return ledger.folded();
}

/**
 * A ledger without entries, as seen on `today`; open another one when the day changes.
 *
 * The herd is the one that most entries speak of (the lesser id of two equals); entries of any other are a problem each and left out.
 * Two different entries under one id are a problem; the one first written counts.
 */
export function openLedger(today: Day): Ledger {
  const byId = new Map<EntryId, Entry | TooNewEntry>();
  const doubled = new Set<EntryId>();
  const sizes = new Map<HerdId, number>();
  let herd: HerdId | undefined;
  let derived = derivation(today);
  let tooNew = 0;
  let answer: Folded | undefined;
  const problems = sortedList<HerdProblem>(byEntry);
  const putProblems = problems.keyed<EntryId>();

  /** Keeps an entry; answers whether it is a new one, and whether it took the place of another. */
  function keep(entry: Entry | TooNewEntry): "new" | "known" | "instead" {
    const known = byId.get(entry.id);
    if (known === entry) return "known";
    if (!known) {
      byId.set(entry.id, entry);
      count(entry, 1);
      return "new";
    }
    const [said, saidBefore] = [firstWritten(entry), firstWritten(known)];
    if (said === saidBefore) return "known";
    doubled.add(entry.id);
    if (said > saidBefore) {
      noteProblems(known);
      return "known";
    }
    byId.set(entry.id, entry);
    count(known, -1);
    count(entry, 1);
    return "instead";
  }

  function count(entry: Entry | TooNewEntry, by: 1 | -1): void {
    if (isTooNew(entry)) tooNew += by;
    else sizes.set(entry.herd, (sizes.get(entry.herd) ?? 0) + by);
  }

  function noteProblems(entry: Entry | TooNewEntry): void {
    const found: HerdProblem[] = [];
    if (doubled.has(entry.id)) found.push({ code: "one-id-two-entries", entry: entry.id });
    if (isTooNew(entry)) found.push({ code: "too-new", entry: entry.id });
    else if (entry.herd !== herd) found.push({ code: "other-herd", entry: entry.id, herd: entry.herd });
    putProblems(entry.id, found);
  }

  const isOurs = (entry: Entry | TooNewEntry) => isTooNew(entry) || entry.herd === herd;

  return {
    today,
    add: (entries) => {
      const fresh: (Entry | TooNewEntry)[] = [];
      let start: "over" | "on" = "on";
      for (const entry of entries) {
        const kept = keep(entry);
        if (kept === "new") fresh.push(entry);
        if (kept === "instead") start = "over";
      }
      const before = herd;
      herd = [...sizes].sort(([a, n], [b, m]) => m - n || compareText(a, b))[0]?.[0];
      if (before !== herd && before !== undefined) start = "over";
      if (start === "over") derived = derivation(today);
      const taken = start === "over" ? [...byId.values()] : fresh;
      for (const entry of taken) noteProblems(entry);
      derived.add(taken.filter(isOurs));
      answer = undefined;
    },
    folded: () => {
      const [own, others] = [problems.items(), derived.problems()];
      answer ??= {
        herd: { id: herd, ...derived.herd(), tooNew },
        problems: own.length === 0 ? others : [...own, ...others].sort(byEntry),
      };
      return answer;
    },
  };
}

/** The order in which two entries under one id count: the one with the earlier stamp first, what cannot be read last. */
const firstWritten = (entry: Entry | TooNewEntry): string =>
  isTooNew(entry) ? `too new ${canonicalText(entry.tooNew)}` : `${entry.at} ${canonicalText(entry)}`;

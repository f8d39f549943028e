import { type AnimalRef, animalRef } from "@pollard/advice";
import type { Day } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import { type EntryId, type FactKind, type Herd, type HistoryLine, isTooNew, type StoredEntry } from "@pollard/records";
import { plainLetters } from "../parts/answers/plain-letters.ts";

/** What of everything entered is wanted; an empty text or `undefined` narrows nothing. */
export interface EnteredAsked {
  readonly kind: FactKind | undefined;
  readonly person: string | undefined;
  /** Part of the name, tag or chip number of a goat that the entry speaks of, or of the mark of one that has no name. */
  readonly goat: string;
  /** How many lines are shown. */
  readonly most: number;
}

/** Everything entered, narrowed: the newest lines that fit, with the goats they speak of. */
export interface Entered {
  /** Newest first. */
  readonly lines: readonly {
    readonly line: HistoryLine;
    readonly goats: readonly AnimalRef[];
    /** The last day of a spell in a pen that stands; nothing of what has but one day. */
    readonly until: Day | undefined;
  }[];
  /** How many fit, and how many there are at all. */
  readonly fitting: number;
  readonly all: number;
  /** How many entries there are beside: each only undoes one of the others, or puts it back, and has no line of its own. */
  readonly undoings: number;
  /** What there is to narrow by, in no order that matters. */
  readonly kinds: readonly FactKind[];
  readonly people: readonly string[];
}

/**
 * Every entry of the record as its history tells it: those struck out and those put right later are among them.
 *
 * Cost: one walk over the history and one over the entries.
 */
export function enteredIn(
  herd: Herd,
  stored: readonly Pick<StoredEntry, "entry">[],
  { kind, person, goat, most }: EnteredAsked,
): Entered {
  const wanted = plainLetters(goat.trim());
  const fits = (line: HistoryLine): boolean =>
    (kind === undefined || line.kind === kind) &&
    (person === undefined || line.by === person) &&
    (wanted === "" ||
      line.animals.some((id) => {
        const { name, tag, mark } = animalRef(herd, id);
        const called = [name, tag, name === undefined ? mark : undefined, herd.animals.get(id)?.chip];
        return called.some((text) => text !== undefined && plainLetters(text).includes(wanted));
      }));
  const fitting = herd.history.filter(fits);
  const ends = endsOf(herd);
  return {
    lines: fitting.slice(0, most).map((line) => ({
      line,
      goats: line.animals.map((id) => animalRef(herd, id)),
      until: ends.get(line.entry),
    })),
    fitting: fitting.length,
    all: herd.history.length,
    undoings: stored.filter(({ entry }) => !isTooNew(entry) && entry.kind === "strike").length,
    kinds: [...new Set(herd.history.map((line) => line.kind))],
    people: [...new Set(herd.history.map(({ by }) => by))],
  };
}

/** The last day of every spell in a pen, by the entry that tells it. */
const endsOf = ({ services }: Herd): ReadonlyMap<EntryId, Day> =>
  new Map(services.flatMap(({ entry, on, until }) => (until === on ? [] : [[entry, until] as const])));

/** A line of one animal's history, with those it was mated to where that is what the line tells. */
export interface LineOfAnimal {
  readonly line: HistoryLine;
  readonly mates: readonly AnimalRef[];
  /** The last day of a spell in a pen that stands; nothing of what has but one day. */
  readonly until: Day | undefined;
}

/**
 * What was entered of one animal.
 *
 * Shape: newest first; a doe's mates are all bucks that were named, a buck's the doe alone.
 */
export function historyOf(herd: Herd, id: AnimalId): readonly LineOfAnimal[] {
  const isDoe = (animal: AnimalId): boolean => herd.animals.get(animal)?.sex === "doe";
  const ends = endsOf(herd);
  return herd.history
    .filter((line) => line.animals.includes(id))
    .map((line) => {
      const mates = line.kind === "service" ? line.animals.filter((other) => isDoe(other) !== isDoe(id)) : [];
      return { line, mates: mates.map((mate) => animalRef(herd, mate)), until: ends.get(line.entry) };
    });
}

import { type Entry, isTooNew, type TooNewEntry } from "../entry/entry.ts";
import type { EntryId } from "../entry/ids.ts";
import {
  type CorrectionEntry,
  isCorrection,
  type Settlement,
  settleFact,
  settleOrphan,
  settleRing,
} from "./corrections.ts";

/** What a tree comes to now, in place of what it came to before; empty where it is part of another tree now. */
export interface SettlementChange {
  /** The entry at the top of its tree. */
  readonly top: EntryId;
  readonly after: Settlement;
}

/** All entries of one herd, sorted into trees of what corrects what. */
export interface CorrectionTrees {
  /** Takes in entries with ids not seen before; answers with what changed, each tree once. */
  add(entries: readonly (Entry | TooNewEntry)[]): readonly SettlementChange[];
}

const NOTHING: Settlement = { settled: undefined, lines: [], problems: [] };

/**
 * No entries yet.
 *
 * Every correction has one target, so following targets up from any entry ends at a fact, at an entry that is missing or
 * unread, or in a ring; what ends at the same place is one tree, and is settled together. An entry touches only its own tree.
 */
export function correctionTrees(): CorrectionTrees {
  const byId = new Map<EntryId, Entry | TooNewEntry>();
  const below = new Map<EntryId, CorrectionEntry[]>();
  const correctionsOf = (id: EntryId): readonly CorrectionEntry[] => below.get(id) ?? [];

  /** The entry that a tree is kept under: its top, or the least id of a ring. `known` remembers between calls. */
  function topOf(start: Entry, known: Map<EntryId, EntryId>): EntryId {
    const path = new Map<EntryId, number>();
    let at = start;
    let top: EntryId | undefined;
    while (top === undefined) {
      top = known.get(at.id);
      if (top !== undefined) break;
      path.set(at.id, path.size);
      const target = isCorrection(at) ? byId.get(at.body.entry) : undefined;
      if (!target || isTooNew(target)) top = at.id;
      else if (path.has(target.id)) top = [...path.keys()].slice(path.get(target.id)).sort()[0] ?? at.id;
      else at = target;
    }
    for (const id of path.keys()) known.set(id, top);
    return top;
  }

  function settle(top: EntryId): Settlement {
    const entry = byId.get(top);
    if (!entry || isTooNew(entry)) return NOTHING;
    if (!isCorrection(entry)) return settleFact(entry, correctionsOf);
    const target = byId.get(entry.body.entry);
    if (!target) return settleOrphan(entry, correctionsOf);
    return isTooNew(target) ? NOTHING : settleRing(entry, correctionsOf);
  }

  return {
    add: (entries) => {
      for (const entry of entries) {
        byId.set(entry.id, entry);
        if (isTooNew(entry) || !isCorrection(entry)) continue;
        const siblings = below.get(entry.body.entry);
        if (siblings) siblings.push(entry);
        else below.set(entry.body.entry, [entry]);
      }
      const known = new Map<EntryId, EntryId>();
      const touched = new Set<EntryId>();
      for (const entry of entries) {
        // What waited for this entry stood at the top of a tree of its own until now.
        for (const waiting of correctionsOf(entry.id)) {
          touched.add(waiting.id);
          touched.add(topOf(waiting, known));
        }
        if (!isTooNew(entry)) touched.add(topOf(entry, known));
      }
      return [...touched].map((top) => {
        const entry = byId.get(top);
        const isTop = entry && !isTooNew(entry) && topOf(entry, known) === top;
        return { top, after: isTop ? settle(top) : NOTHING };
      });
    },
  };
}

import { ok } from "@pollard/base";
import type { EntryStore, StoredEntry } from "./entry-store.ts";
import type { EntryId } from "../entry/ids.ts";

/** A store that forgets when the program ends: for tests, and for trying a herd file out without keeping it. */
export function memoryStore(): EntryStore {
  const stored: StoredEntry[] = [];
  const known = new Set<EntryId>();
  return {
    append: async (entries) => {
      const added: EntryId[] = [];
      for (const entry of entries) {
        if (known.has(entry.id)) continue;
        known.add(entry.id);
        added.push(entry.id);
        stored.push({ seq: stored.length + 1, entry });
      }
      return ok({ added });
    },
    read: async (after, limit) => ok(stored.slice(after, after + limit)),
  };
}

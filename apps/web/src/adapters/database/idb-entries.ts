import { ok, type Result } from "@pollard/base";
import {
  type Entry,
  type EntryId,
  entryJson,
  type EntryStore,
  parseEntry,
  type StoredEntry,
  type StoreFailure,
  type TooNewEntry,
} from "@pollard/records";
import type { HerdDatabase, HerdTransaction } from "./herd-database.ts";
import type { KeptPhoto } from "./idb-photos.ts";

/** The ledger of one herd on this phone. */
export interface PhoneEntries extends EntryStore {
  /**
   * Keeps the entries, and the picture that they speak of if there is one, and removes the draft they came from; all or
   * nothing: a crash in between can neither lose an answer nor offer it again.
   */
  finish(
    entries: readonly (Entry | TooNewEntry)[],
    draftKey: string,
    photo?: KeptPhoto,
  ): Promise<Result<{ readonly added: readonly EntryId[] }, StoreFailure>>;
  /** How many entries there are. */
  count(): Promise<Result<number, StoreFailure>>;
}

/** The ledger kept in one herd's database. Passes `entryStoreContract`. */
export function idbEntries(db: HerdDatabase): PhoneEntries {
  return {
    append: (entries) => db.run(["entries"], "readwrite", (t) => addAll(t, entries)),
    finish: (entries, key, photo) =>
      db.run(photo === undefined ? ["entries", "drafts"] : ["entries", "drafts", "photos"], "readwrite", async (t) => {
        const added = await addAll(t, entries);
        if (photo !== undefined) await t.objectStore("photos").put(photo);
        await t.objectStore("drafts").delete(key);
        return added;
      }),
    async read(after, limit) {
      const range = IDBKeyRange.lowerBound(after, true);
      const rows = await db.run(["entries"], "readonly", (t) => t.objectStore("entries").getAll(range, limit));
      return rows.ok ? ok(rows.value.map(storedEntry)) : rows;
    },
    count: () => db.run(["entries"], "readonly", (t) => t.objectStore("entries").count()),
  };
}

async function addAll(
  t: HerdTransaction<"readwrite">,
  entries: readonly (Entry | TooNewEntry)[],
): Promise<{ readonly added: readonly EntryId[] }> {
  const store = t.objectStore("entries");
  const byId = store.index("id");
  const keys = await Promise.all(entries.map((entry) => byId.getKey(entry.id)));
  const known = new Set(entries.filter((_, at) => keys[at] !== undefined).map((entry) => entry.id));
  const added: EntryId[] = [];
  const written: Promise<unknown>[] = [];
  for (const entry of entries) {
    if (known.has(entry.id)) continue;
    known.add(entry.id);
    added.push(entry.id);
    written.push(store.add({ id: entry.id, json: entryJson(entry) }));
  }
  await Promise.all(written);
  return { added };
}

/** What this version cannot read was read by a later one: kept and passed on as it is. */
function storedEntry(row: { seq?: number; readonly id: string; readonly json: unknown }): StoredEntry {
  const parsed = parseEntry(row.json);
  const entry = parsed.ok ? parsed.value : { id: row.id as TooNewEntry["id"], tooNew: row.json };
  return { seq: row.seq ?? 0, entry };
}

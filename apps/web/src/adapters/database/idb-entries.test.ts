import "fake-indexeddb/auto";
import { ok, present } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import type { EntryId, HerdId } from "@pollard/records";
import { anEntry, entryStoreContract } from "@pollard/records/testing";
import { describe, expect, test, vi } from "vitest";
import { herdDatabase } from "./herd-database.ts";
import { type Draft, draftKey, idbDrafts } from "./idb-drafts.ts";
import { idbEntries } from "./idb-entries.ts";

let made = 0;
const freshHerd = (): HerdId => `herd-${++made}` as HerdId;

entryStoreContract("this phone's database", async () => {
  const herd = freshHerd();
  const db = herdDatabase(herd);
  return {
    store: idbEntries(db),
    reopen: async () => {
      await db.close();
      return idbEntries(herdDatabase(herd));
    },
    close: () => db.close(),
  };
});

const aWeight = () => anEntry("weight", { animal: animalId("hazel"), kg: 3, how: "weighed" });
const aDraft = (about: string, savedAt: string): Draft => ({
  key: draftKey("head-reading", about),
  kind: "head-reading",
  about,
  entry: `entry-of-${about}` as EntryId,
  step: "skin",
  savedAt,
  state: "open",
  answers: { feel: { both: "pointed" } },
});

describe("one herd's database", () => {
  test("[UI-1] a finished answer and the end of its draft are kept together", async () => {
    const db = herdDatabase(freshHerd());
    const [entries, drafts] = [idbEntries(db), idbDrafts(db)];
    const draft = aDraft("kid-1", "2026-03-01T22:50");
    await drafts.save(draft);
    const entry = aWeight();
    expect(await entries.finish([entry], draft.key)).toEqual(ok({ added: [entry.id] }));
    expect(await drafts.all()).toEqual(ok([]));
    expect(await entries.finish([entry], draft.key)).toEqual(ok({ added: [] }));
  });

  test("[UI-2] drafts come back as they were left, the last touched first", async () => {
    const herd = freshHerd();
    const db = herdDatabase(herd);
    const [early, late] = [aDraft("kid-1", "2026-03-01T22:50"), aDraft("kid-2", "2026-03-01T23:10")];
    await idbDrafts(db).save(early);
    await idbDrafts(db).save(late);
    await db.close();
    const again = idbDrafts(herdDatabase(herd));
    expect(await again.all()).toEqual(ok([late, early]));
    expect(await again.find(early.key)).toEqual(ok(early));
    expect(await again.find("head-reading:somebody-else")).toEqual(ok(undefined));
  });

  test("[UI-3] a full phone is said, and nothing of the batch is kept", async () => {
    const db = herdDatabase(freshHerd());
    const entries = idbEntries(db);
    const add = vi.spyOn(IDBObjectStore.prototype, "add").mockImplementationOnce(() => {
      throw new DOMException("no room", "QuotaExceededError");
    });
    expect(await entries.append([aWeight(), aWeight()])).toEqual({ ok: false, error: { code: "full" } });
    add.mockRestore();
    expect(await entries.count()).toEqual(ok(0));
  });

  test("[UI-4] a connection the phone dropped is opened again", async () => {
    const db = herdDatabase(freshHerd());
    const entries = idbEntries(db);
    await entries.append([aWeight()]);
    const transaction = vi.spyOn(IDBDatabase.prototype, "transaction").mockImplementationOnce(() => {
      throw new DOMException("Connection to Indexed Database server lost", "UnknownError");
    });
    const kept = await entries.append([aWeight()]);
    transaction.mockRestore();
    expect(kept.ok && kept.value.added.length).toBe(1);
    expect(await entries.count()).toEqual(ok(2));
  });

  test("[UI-3] a database that cannot be opened is a failure that is told, never a silence", async () => {
    const open = vi.spyOn(indexedDB, "open").mockImplementation(() => {
      throw new DOMException("not here", "SecurityError");
    });
    const kept = await idbEntries(herdDatabase(freshHerd())).append([aWeight()]);
    open.mockRestore();
    expect(kept.ok ? undefined : kept.error.code).toBe("unavailable");
  });

  test("[UI-1] every write asks for the disk itself, not for a promise of it", async () => {
    const asked = vi.spyOn(IDBDatabase.prototype, "transaction");
    await idbEntries(herdDatabase(freshHerd())).append([aWeight()]);
    const writing = asked.mock.calls.find(([, mode]) => mode === "readwrite");
    asked.mockRestore();
    expect(present(writing, "the writing transaction")[2]).toEqual({ durability: "strict" });
  });
});

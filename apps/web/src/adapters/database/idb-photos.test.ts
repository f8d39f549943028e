import "fake-indexeddb/auto";
import { ok } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import type { HerdId } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import { openDB } from "idb";
import { describe, expect, test, vi } from "vitest";
import { herdDatabase } from "./herd-database.ts";
import { draftKey, idbDrafts } from "./idb-drafts.ts";
import { idbEntries } from "./idb-entries.ts";
import { idbMarks } from "./idb-marks.ts";
import { idbPhotos } from "./idb-photos.ts";

let made = 0;
const freshHerd = (): HerdId => `photo-herd-${++made}` as HerdId;
const picture = (id: string) => ({ id, bytes: new Uint8Array([0xff, 0xd8, 0xff, made % 256]) });
const anEntryOf = (id: string) => anEntry("photo", { animal: animalId("hazel"), photo: id, what: "head" });

describe("photos on this phone", () => {
  test("[UI-83] the picture, its entry and the end of its draft are kept together", async () => {
    const db = herdDatabase(freshHerd());
    const key = draftKey("photo", "hazel");
    const [entry, photo] = [anEntryOf("pic-1"), picture("pic-1")];
    const draft = { key, kind: "photo", about: "hazel", entry: entry.id, step: "photo" } as const;
    await idbDrafts(db).save({ ...draft, savedAt: "2026-03-01T07:12", state: "open", answers: {} });
    expect(await idbEntries(db).finish([entry], key, photo)).toEqual(ok({ added: [entry.id] }));
    expect(await idbPhotos(db).find("pic-1")).toEqual(ok(photo));
    expect(await idbDrafts(db).all()).toEqual(ok([]));
  });

  test("[UI-83] no room for a picture: said, and neither entry nor picture is half kept", async () => {
    const db = herdDatabase(freshHerd());
    const put = vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(() => {
      throw new DOMException("no room", "QuotaExceededError");
    });
    const kept = await idbEntries(db).finish([anEntryOf("pic-1")], "photo:hazel", picture("pic-1"));
    put.mockRestore();
    expect(kept).toEqual({ ok: false, error: { code: "full" } });
    expect(await idbEntries(db).count()).toEqual(ok(0));
    expect(await idbPhotos(db).count()).toEqual(ok(0));
  });

  test("[UI-83] pictures of a backup are added; those that are here stay as they are", async () => {
    const photos = idbPhotos(herdDatabase(freshHerd()));
    const first = picture("b");
    expect(await photos.bringIn([first])).toEqual(ok({ added: 1 }));
    expect(await photos.bringIn([{ id: "b", bytes: new Uint8Array([1]) }, picture("a")])).toEqual(ok({ added: 1 }));
    expect(await photos.find("b")).toEqual(ok(first));
    const all = await photos.all();
    expect(all.ok && all.value.map(({ id }) => id)).toEqual(["a", "b"]);
  });

  describe("regressions", () => {
    test("[UI-85] a phone's copy from before there were photos loses nothing", async () => {
      const herd = freshHerd();
      const entry = anEntry("weight", { animal: animalId("hazel"), kg: 3, how: "weighed" });
      const old = await openDB(`pollard-herd-${herd}`, 1, {
        upgrade(db) {
          const entries = db.createObjectStore("entries", { keyPath: "seq", autoIncrement: true });
          entries.createIndex("id", "id", { unique: true });
          db.createObjectStore("drafts", { keyPath: "key" });
          db.createObjectStore("marks");
        },
      });
      await old.add("entries", { id: entry.id, json: entry });
      await old.put("drafts", { key: "outcome:hazel", kind: "outcome", about: "hazel" });
      await old.put("marks", { on: "2026-03-01", time: "07:12", entries: 1 }, "backup");
      old.close();
      const db = herdDatabase(herd);
      const read = await idbEntries(db).read(0, 10);
      expect(read.ok && read.value.map((stored) => stored.entry.id)).toEqual([entry.id]);
      expect((await idbDrafts(db).find("outcome:hazel")).ok).toBe(true);
      expect(await idbMarks(db).backup()).toEqual(ok({ on: "2026-03-01", time: "07:12", entries: 1 }));
      expect(await idbPhotos(db).bringIn([picture("pic-1")])).toEqual(ok({ added: 1 }));
    });
  });
});

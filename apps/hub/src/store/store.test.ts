import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { HerdId } from "@pollard/records";
import { anEntry, entryStoreContract } from "@pollard/records/testing";
import { Kysely, sql } from "kysely";
import Database from "libsql";
import { afterAll, describe, expect, test } from "vitest";
import { ledgersIn } from "./ledger-store.ts";
import { openLibsql } from "./libsql.ts";
import { libsqlDialect } from "./libsql-dialect.ts";

const folder = mkdtempSync(join(tmpdir(), "pollard-ledger-"));
let files = 0;
const newFile = () => join(folder, `ledger-${++files}.db`);
const opened: { readonly close: () => Promise<void> }[] = [];
async function openFile(file: string, limits: { readonly mostPages?: number } = {}) {
  const database = await openLibsql(file, limits);
  return { ...ledgersIn(database), close: database.close };
}
async function open(file: string) {
  const ledgers = await openFile(file);
  opened.push(ledgers);
  return ledgers;
}
afterAll(async () => {
  for (const ledgers of opened) await ledgers.close();
  rmSync(folder, { recursive: true });
});

const herd = "herd" as HerdId;
const note = (text: string) => anEntry("note", { text });

entryStoreContract("libsql", async () => {
  const file = newFile();
  const ledgers = await openFile(file);
  let last = ledgers;
  return {
    store: ledgers.of(herd).store,
    reopen: async () => {
      await ledgers.close();
      last = await openFile(file);
      return last.of(herd).store;
    },
    close: () => last.close(),
  };
});

describe("ledgers in one file", () => {
  test("[HU-11] herds are kept apart, though an id may stand in two", async () => {
    const ledgers = await open(newFile());
    const entry = note("one");
    const [oak, elm] = ["oak" as HerdId, "elm" as HerdId];
    await ledgers.of(oak).store.append([entry, note("two")]);
    expect(await ledgers.of(elm).store.read(0, 10)).toEqual({ ok: true, value: [] });
    expect(await ledgers.of(elm).store.append([entry])).toEqual({ ok: true, value: { added: [entry.id] } });
    expect(await ledgers.herds()).toEqual({
      ok: true,
      value: [
        { id: elm, entries: 1 },
        { id: oak, entries: 2 },
      ],
    });
  });

  test("[HU-6] a copy keeps its name when opened again, and another file has another", async () => {
    const file = newFile();
    const name = await (await open(file)).of(herd).copyFor(0);
    expect(name).toMatchObject({ ok: true });
    expect(await (await open(file)).of(herd).copyFor(0)).toEqual(name);
    expect(await (await open(newFile())).of(herd).copyFor(0)).not.toEqual(name);
  });

  test("[HU-12] a copy that is behind what somebody has had from it takes a new name, once", async () => {
    const ledgers = await open(newFile());
    await ledgers.of(herd).store.append([note("one"), note("two")]);
    const name = await ledgers.of(herd).copyFor(0);
    expect(await ledgers.of(herd).copyFor(2)).toEqual(name);
    const renamed = await ledgers.of(herd).copyFor(3);
    expect(renamed).toMatchObject({ ok: true });
    expect(renamed).not.toEqual(name);
    expect(await ledgers.of(herd).copyFor(2)).toEqual(renamed);
  });

  test("[HU-8] a full disk is said, nothing is half kept, and room makes it work again", async () => {
    const file = newFile();
    const narrow = await openFile(file, { mostPages: 20 });
    const store = narrow.of(herd).store;
    const small = note("small");
    expect(await store.append([small])).toMatchObject({ ok: true });
    const large = Array.from({ length: 300 }, () => note("x".repeat(3000)));
    expect(await store.append(large)).toEqual({ ok: false, error: { code: "full" } });
    const read = await store.read(0, 1000);
    expect(read.ok && read.value.map(({ entry }) => entry)).toEqual([small]);
    expect(await store.append([note("also small")])).toMatchObject({ ok: true });
    await narrow.close();
    expect(await (await open(file)).of(herd).store.append(large)).toMatchObject({ ok: true });
  });

  test("[HU-8] when SQLite has undone a transaction by itself, the first error is the one that is told", async () => {
    const db = new Kysely({ dialect: libsqlDialect(new Database(newFile())) });
    const undone = db.transaction().execute(async (part) => {
      await sql`rollback`.execute(part); // as SQLite does at a commit for which there is no room
      throw new Error("the disk is full");
    });
    await expect(undone).rejects.toThrow("the disk is full");
    await db.destroy();
  });

  test("[HU-8] a ledger that is gone is an answer, not a crash", async () => {
    const ledgers = await openFile(newFile());
    await ledgers.close();
    expect(await ledgers.of(herd).store.append([note("late")])).toMatchObject({
      ok: false,
      error: { code: "unavailable" },
    });
    expect(await ledgers.of(herd).store.read(0, 1)).toMatchObject({ ok: false, error: { code: "unavailable" } });
    expect(await ledgers.herds()).toMatchObject({ ok: false, error: { code: "unavailable" } });
  });

  test("[HU-8] a file that is no ledger is not opened", async () => {
    await expect(openLibsql(join(folder, "no", "such", "folder.db"))).rejects.toThrow("Unable to open");
  });
});

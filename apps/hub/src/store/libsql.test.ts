import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { Worker } from "node:worker_threads";
import type { HerdId } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import { Kysely, sql } from "kysely";
import Database from "libsql";
import { afterAll, describe, expect, test } from "vitest";
import { ledgersIn } from "./ledger-store.ts";
import { openLibsql } from "./libsql.ts";
import { libsqlDialect } from "./libsql-dialect.ts";

const folder = mkdtempSync(join(tmpdir(), "pollard-ledger-"));
let files = 0;
const newFile = () => join(folder, `ledger-${++files}.db`);
afterAll(() => rmSync(folder, { recursive: true }));

const herd = "herd" as HerdId;
const note = (text: string) => anEntry("note", { text });

describe("the embedded file", () => {
  test("[HU-8] a full disk is said, nothing is half kept, and room makes it work again", async () => {
    const file = newFile();
    const narrow = await openLibsql(file, { mostPages: 40 });
    const { store } = ledgersIn(narrow).of(herd);
    const small = note("small");
    expect(await store.append([small])).toMatchObject({ ok: true });
    const large = Array.from({ length: 300 }, () => note("x".repeat(3000)));
    expect(await store.append(large)).toEqual({ ok: false, error: { code: "full" } });
    const read = await store.read(0, 1000);
    expect(read.ok && read.value.map(({ entry }) => entry)).toEqual([small]);
    expect(await store.append([note("also small")])).toMatchObject({ ok: true });
    await narrow.close();
    const wide = await openLibsql(file);
    expect(await ledgersIn(wide).of(herd).store.append(large)).toMatchObject({ ok: true });
    await wide.close();
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

  // SQLite documentation, "PRAGMA synchronous": 2 is FULL; in WAL mode it flushes at each commit, and 1 (NORMAL) does not.
  test("[HU-107] each commit is flushed, also in a file that somebody opened otherwise before", async () => {
    const file = newFile();
    const other = new Database(file);
    other.pragma("journal_mode = DELETE");
    other.pragma("synchronous = OFF");
    other.exec("create table other (id integer)");
    other.close();
    const database = await openLibsql(file);
    const told = async (pragma: string) => (await sql.raw(`pragma ${pragma}`).execute(database.db)).rows;
    expect(await told("synchronous")).toEqual([{ synchronous: 2 }]);
    expect(await told("journal_mode")).toEqual([{ journal_mode: "wal" }]);
    await database.close();
  });

  test("[HU-110] programs that open the same new file at the same moment all get it", async () => {
    const rounds = 100;
    // The others only do what SQLite does not wait for. Shared: how many were let go, and how many are done with it.
    const shared = new Int32Array(new SharedArrayBuffer(8));
    const names = Array.from({ length: rounds }, newFile);
    const others = [1, 2, 3].map(
      () =>
        new Worker(
          `const { workerData: { shared, names } } = require("node:worker_threads");
           const Database = require("libsql");
           for (let round = 0; round < names.length; round++) {
             Atomics.wait(shared, 0, round);
             const database = new Database(names[round], { timeout: 5000 });
             try { database.pragma("journal_mode = WAL"); } catch {}
             database.close();
             Atomics.add(shared, 1, 1);
             Atomics.notify(shared, 1);
           }`,
          { eval: true, workerData: { shared, names } },
        ),
    );
    for (const [round, file] of names.entries()) {
      Atomics.add(shared, 0, 1);
      Atomics.notify(shared, 0);
      await (await openLibsql(file)).close();
      for (let done = 0; done < (round + 1) * others.length; done = Atomics.load(shared, 1)) await pause(1);
    }
    await Promise.all(others.map((other) => other.terminate()));
  });

  test("[HU-8] a file that is no ledger is not opened", async () => {
    await expect(openLibsql(join(folder, "no", "such", "folder.db"))).rejects.toThrow("Unable to open");
  });
});

import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { present } from "@pollard/base";
import { entryJson, type HerdId } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import Database from "libsql";
import { afterAll, describe, expect, test } from "vitest";
import { onEachEngine } from "../testing/engines.ts";
import { ledgersIn } from "./ledger-store.ts";
import { openLibsql } from "./libsql.ts";
import { type Migration, migrate, NewerDatabase } from "./migration.ts";
import { MIGRATIONS } from "./migrations.ts";

const NOW = "2026-03-01T06:00:00.000Z";
const folder = mkdtempSync(join(tmpdir(), "pollard-steps-"));
afterAll(() => rmSync(folder, { recursive: true }));

/** What the first hub left behind, as the shell of SQLite shows it; `0001-entry` is the only step it knew. */
const FIRST_HUB = `
  CREATE TABLE "kysely_migration" ("name" varchar(255) not null primary key, "timestamp" varchar(255) not null);
  CREATE TABLE "kysely_migration_lock" ("id" varchar(255) not null primary key, "is_locked" integer default 0 not null);
  CREATE TABLE "entry" ("seq" integer primary key autoincrement, "herd" text not null, "id" text not null,
    "body" text not null, constraint "one_entry_an_id" unique ("herd", "id"));
  CREATE TABLE "copy" ("name" text not null);
  CREATE INDEX "entry_in_order" on "entry" ("herd", "seq");
  INSERT INTO kysely_migration VALUES ('0001-entry', '2026-01-01T00:00:00.000Z');
  INSERT INTO kysely_migration_lock VALUES ('migration_lock', 0);
  INSERT INTO copy VALUES ('the-first-copy');`;

onEachEngine("steps", ({ engine, newPlace }) => {
  const namesIn = async (open: Awaited<ReturnType<typeof newPlace>>) => {
    const { db } = await open.open();
    const tables = await db.introspection.getTables();
    return tables.map(({ name }) => name).sort();
  };

  test("[HU-13] opened again, a database is as it was", async () => {
    const place = await newPlace();
    const names = await namesIn(place);
    expect(names).toEqual(expect.arrayContaining(["copy", "entry", "herd"]));
    expect(await namesIn(place)).toEqual(names);
  });

  test("[HU-13] a database of a later hub is left alone, and the sentence names what is unknown here", async () => {
    const place = await newPlace();
    const { db } = await place.open();
    const later: Migration = {
      id: "9999-milk",
      up: (part) => part.schema.createTable("milk").addColumn("l", "text").execute(),
    };
    await migrate(db, engine, [...MIGRATIONS, later], NOW);
    const opened = place.open();
    await expect(opened).rejects.toThrow(NewerDatabase);
    await expect(opened).rejects.toThrow("a later version of the hub (9999-milk)");
  });

  test("[HU-13] a step that fails leaves nothing of itself nor of those before it, and may be tried again", async () => {
    const place = await newPlace();
    const { db } = await place.open();
    const milk: Migration = {
      id: "9998-milk",
      up: (part) => part.schema.createTable("milk").addColumn("l", "text").execute(),
    };
    const broken: Migration = { id: "9999-broken", up: () => Promise.reject(new Error("no room")) };
    await expect(migrate(db, engine, [...MIGRATIONS, milk, broken], NOW)).rejects.toThrow("no room");
    expect(await namesIn(place)).not.toContain("milk");
    await migrate(db, engine, [...MIGRATIONS, milk], NOW);
    expect((await db.introspection.getTables()).map(({ name }) => name)).toContain("milk");
  });
});

onEachEngine("hubs that start together", ({ engine, newPlace }) => {
  test("[HU-13] each step is made once, and all of them are ready", async () => {
    const place = await newPlace();
    const hubs = engine === "libsql" ? [await place.open()] : await Promise.all([1, 2, 3, 4].map(() => place.open()));
    const steps = await present(hubs[0], "a hub")
      .db.selectFrom("kysely_migration" as never)
      .selectAll()
      .execute();
    expect(steps.length).toBe(MIGRATIONS.length);
    for (const hub of hubs) expect(await ledgersIn(hub).herds()).toEqual({ ok: true, value: [] });
  });
});

describe("a file of the first hub", () => {
  test("[HU-13] is read on: same copy, same places, same entries, and the next one comes after them", async () => {
    const file = join(folder, "first.db");
    const note = () => anEntry("note", { text: "rain" });
    const entries = [note(), note(), note(), note()];
    const herds = ["oak", "elm", "oak", "elm"];
    const first = new Database(file);
    first.exec(FIRST_HUB);
    entries.forEach((entry, at) => {
      const row = [herds[at], entry.id, JSON.stringify(entryJson(entry))];
      first.prepare("insert into entry (herd, id, body) values (?, ?, ?)").run(row);
    });
    first.close();

    const database = await openLibsql(file);
    const ledgers = ledgersIn(database);
    const elm = ledgers.of("elm" as HerdId);
    expect(await elm.copyFor(4)).toEqual({ ok: true, value: "the-first-copy" });
    expect(await ledgers.herds()).toMatchObject({
      ok: true,
      value: [
        { id: "elm", entries: 2 },
        { id: "oak", entries: 2 },
      ],
    });
    const late = note();
    await elm.store.append([late, ...entries.slice(1, 2)]);
    const read = await elm.store.read(0, 10);
    expect(read.ok && read.value).toEqual([
      { seq: 2, entry: entries[1], notch: entries[1]?.id },
      { seq: 4, entry: entries[3], notch: entries[3]?.id },
      { seq: 5, entry: late, notch: expect.stringMatching(/^[\w-]{16}$/) as unknown },
    ]);
    await database.close();
  });
});

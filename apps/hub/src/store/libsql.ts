import { setTimeout as pause } from "node:timers/promises";
import { Kysely } from "kysely";
import Database from "libsql";
import type { HubDatabase } from "./hub-database.ts";
import { libsqlDialect } from "./libsql-dialect.ts";
import { snapshotLibsql } from "./libsql-snapshot.ts";
import { migrate } from "./migration.ts";
import { type HubTables, MIGRATIONS } from "./migrations.ts";

/** How long a second program's write may hold us up before we answer `unavailable`, ms. */
const BUSY_MS = 5000;
/** How often we ask again where SQLite itself does not wait, ms. */
const AGAIN_MS = 20;

/**
 * Opens (or makes) the one file that keeps everything of a hub.
 *
 * Written ahead and flushed on every commit (WAL, synchronous = FULL): what was acknowledged outlives the program being
 * killed. A power cut was not tried. A program opens a file once; two programs take turns. `mostPages` (of 4 kB) makes the file full before the disk is.
 *
 * Errors: throws what the database threw if the file cannot be opened, and `NewerDatabase`.
 * Source: decision 0004.
 */
export async function openLibsql(file: string, limits: { readonly mostPages?: number } = {}): Promise<HubDatabase> {
  const database = new Database(file, { timeout: BUSY_MS });
  try {
    await writeAhead(database);
  } catch (error) {
    database.close();
    throw error;
  }
  database.pragma("synchronous = FULL");
  if (limits.mostPages !== undefined) database.pragma(`max_page_count = ${limits.mostPages}`);
  const db = new Kysely<HubTables>({ dialect: libsqlDialect(database) });
  try {
    await migrate(db, "libsql", MIGRATIONS, new Date().toISOString());
  } catch (error) {
    await db.destroy();
    throw error;
  }
  return {
    engine: "libsql",
    db,
    write: (changes) => db.transaction().execute(changes),
    snapshot: (to, name) => snapshotLibsql(file, to, name),
    close: async () => {
      database.pragma("wal_checkpoint(TRUNCATE)"); // so that the one file, copied, is the whole ledger
      await db.destroy();
    },
  };
}

/**
 * Turns a file to writing ahead, once it is free.
 *
 * SQLite waits for other programs everywhere but here: two hubs that start at the same moment on a file just made find it
 * locked (6 of 100 starts, four at a time).
 */
async function writeAhead(database: Database.Database): Promise<void> {
  const latest = performance.now() + BUSY_MS;
  for (;;) {
    try {
      database.pragma("journal_mode = WAL");
      return;
    } catch (error) {
      const isBusy = error instanceof Error && "code" in error && error.code === "SQLITE_BUSY";
      if (!isBusy || performance.now() >= latest) throw error;
    }
    await pause(AGAIN_MS);
  }
}

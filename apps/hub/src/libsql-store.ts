import { randomUUID } from "node:crypto";
import { err, ok, type Result } from "@pollard/base";
import {
  type CopyName,
  type Cursor,
  type EntryStore,
  entryJson,
  type HerdId,
  parseEntry,
  type StoredEntry,
  type StoreFailure,
} from "@pollard/records";
import { Kysely } from "kysely";
import Database from "libsql";
import { type LedgerTables, migrate } from "./ledger-tables.ts";
import type { Ledgers } from "./ledgers.ts";
import { libsqlDialect } from "./libsql-dialect.ts";

/** How long a second program's write may hold us up before we answer `unavailable`, ms. */
const BUSY_MS = 5000;
/** Rows in one insert; SQLite allows 32,766 values a statement and a row has three. */
const ROWS_AT_ONCE = 500;

/** Ledgers in one file, and a way to let the file go. */
export interface LibsqlLedgers extends Ledgers {
  close(): Promise<void>;
}

/**
 * Opens (or makes) the file that keeps every herd's ledger.
 *
 * Written ahead and flushed on every commit (WAL, synchronous = FULL): what `append` has acknowledged outlives the
 * program being killed. A power cut was not tried. `mostPages` (of 4 kB) makes the file full before the disk is.
 *
 * Errors: throws what the database threw if the file cannot be opened; afterwards failures are values.
 * Source: decision 0004.
 */
export async function openLibsql(file: string, limits: { readonly mostPages?: number } = {}): Promise<LibsqlLedgers> {
  const database = new Database(file, { timeout: BUSY_MS });
  database.pragma("journal_mode = WAL");
  database.pragma("synchronous = FULL");
  if (limits.mostPages !== undefined) database.pragma(`max_page_count = ${limits.mostPages}`);
  const db = new Kysely<LedgerTables>({ dialect: libsqlDialect(database) });
  await migrate(db);
  return {
    of: (herd) => ({ herd, store: storeOf(db, herd), copyFor: (reached) => settle(() => copyName(db, reached)) }),
    herds: () =>
      settle(async () => {
        const rows = await db
          .selectFrom("entry")
          .select(({ fn }) => ["herd", fn.countAll<number>().as("entries")])
          .groupBy("herd")
          .orderBy("herd")
          .execute();
        return rows.map((row) => ({ id: row.herd as HerdId, entries: Number(row.entries) }));
      }),
    close: async () => {
      database.pragma("wal_checkpoint(TRUNCATE)"); // so that the one file, copied, is the whole ledger
      await db.destroy();
    },
  };
}

/** The name the database has; a new one if it was just made, or is behind what somebody has had from it. */
async function copyName(db: Kysely<LedgerTables>, reached: Cursor): Promise<CopyName> {
  const there = await db.selectFrom("copy").select("name").executeTakeFirst();
  const last = await db
    .selectFrom("entry")
    .select(({ fn }) => fn.max("seq").as("seq"))
    .executeTakeFirst();
  if (there && reached <= (last?.seq ?? 0)) return there.name;
  const name = randomUUID();
  await db.transaction().execute(async (part) => {
    await part.deleteFrom("copy").execute();
    await part.insertInto("copy").values({ name }).execute();
  });
  return name;
}

function storeOf(db: Kysely<LedgerTables>, herd: HerdId): EntryStore {
  return {
    append: (entries) =>
      settle(async () => {
        const rows = entries.map((entry) => ({ herd, id: entry.id, body: JSON.stringify(entryJson(entry)) }));
        const added = new Set<string>();
        await db.transaction().execute(async (part) => {
          for (let i = 0; i < rows.length; i += ROWS_AT_ONCE) {
            const inserted = await part
              .insertInto("entry")
              .values(rows.slice(i, i + ROWS_AT_ONCE))
              .onConflict((clash) => clash.columns(["herd", "id"]).doNothing())
              .returning("id")
              .execute();
            for (const { id } of inserted) added.add(id);
          }
        });
        return { added: [...new Set(entries.map(({ id }) => id))].filter((id) => added.has(id)) };
      }),
    read: (after, limit) => settle(() => readAfter(db, herd, after, limit)),
  };
}

async function readAfter(
  db: Kysely<LedgerTables>,
  herd: HerdId,
  after: Cursor,
  limit: number,
): Promise<readonly StoredEntry[]> {
  const rows = await db
    .selectFrom("entry")
    .select(["seq", "body"])
    .where("herd", "=", herd)
    .where("seq", ">", after)
    .orderBy("seq")
    .limit(limit)
    .execute();
  return rows.map(({ seq, body }) => {
    const parsed = parseEntry(JSON.parse(body));
    if (!parsed.ok) throw new Error(`entry ${seq} of herd ${herd} no longer reads: ${JSON.stringify(parsed.error)}`);
    return { seq, entry: parsed.value };
  });
}

async function settle<T>(work: () => Promise<T>): Promise<Result<T, StoreFailure>> {
  try {
    return ok(await work());
  } catch (cause) {
    const code = cause instanceof Error && "code" in cause ? String(cause.code) : "";
    return err(code.startsWith("SQLITE_FULL") ? { code: "full" } : { code: "unavailable", cause });
  }
}

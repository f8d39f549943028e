import { Kysely, PostgresDialect, sql } from "kysely";
import type { HubDatabase } from "./hub-database.ts";
import { migrate } from "./migration.ts";
import { type HubTables, MIGRATIONS } from "./migrations.ts";

/** Connections one hub keeps at most; all hubs of a server together must stay below its `max_connections`. */
const CONNECTIONS = 10;
/** How long a request waits for a free connection before we answer `unavailable`, ms. */
const CONNECT_MS = 5000;
/** Longest a single statement, or a writer that went silent, may hold others up, ms. */
const STATEMENT_MS = 30_000;

/** What may be set for a server; each has a default. */
export interface PostgresLimits {
  readonly connections?: number;
  /** Hears of connections that the server dropped; they are replaced when next needed. */
  readonly onLost?: (why: Error) => void;
}

/**
 * Opens the PostgreSQL database at an address such as `postgresql://user@host/pollard`.
 *
 * Every connection asks for commits that are flushed before they are acknowledged, whatever the server's default is; a
 * server that was told never to flush (`fsync = off`) is refused.
 *
 * Errors: throws what the server or the network said if it cannot be opened, and `NewerDatabase`.
 * Source: decision 0012; PostgreSQL documentation, "Write Ahead Log: settings".
 */
export async function openPostgres(address: string, limits: PostgresLimits = {}): Promise<HubDatabase> {
  const { default: pg } = await import("pg"); // not loaded by a hub that keeps an embedded file
  const pool = new pg.Pool({
    connectionString: address,
    max: limits.connections ?? CONNECTIONS,
    connectionTimeoutMillis: CONNECT_MS,
    statement_timeout: STATEMENT_MS,
    idle_in_transaction_session_timeout: STATEMENT_MS,
    application_name: "pollard-hub",
    options: "-c synchronous_commit=on",
  });
  // A connection tells of its end itself, whether it was idle or in the middle of a transaction; told to nobody, that
  // would end the hub. The pool repeats it for idle ones.
  pool.on("connect", (client) => client.on("error", (why) => limits.onLost?.(why)));
  pool.on("error", () => undefined);
  const db = new Kysely<HubTables>({ dialect: new PostgresDialect({ pool }) });
  try {
    const { rows } = await sql<{ readonly fsync: string }>`show fsync`.execute(db);
    if (rows[0]?.fsync !== "on") throw new Error("the server has fsync off and would lose what was acknowledged");
    await migrate(db, "postgres", MIGRATIONS, new Date().toISOString());
  } catch (error) {
    await db.destroy();
    throw error;
  }
  return {
    engine: "postgres",
    db,
    write: (changes) => db.transaction().execute(changes),
    snapshot: undefined, // the server has its own programs for that
    close: () => db.destroy(),
  };
}

import { err, ok, type Result } from "@pollard/base";
import type { StoreFailure } from "@pollard/records";
import { type Kysely, sql, type Transaction } from "kysely";
import type { Engine } from "./migration.ts";
import type { HubTables } from "./migrations.ts";

/**
 * The one database of a hub, whichever engine it is: `openLibsql` and `openPostgres` make it, and every matter that keeps
 * something (ledgers, photos, who may) is a function of it. Its tables and steps are listed in `migrations.ts`.
 */
export interface HubDatabase {
  readonly engine: Engine;
  /** For questions. What is read in one query is of one moment; two queries are not. */
  readonly db: Kysely<HubTables>;
  /**
   * Changes that are kept together or not at all, and are on disk when it settles.
   *
   * In the embedded file writers take turns. On PostgreSQL they do not, and each sees what others commit meanwhile: what
   * must not change between reading and writing is locked by writing to its row first, or by `forUpdate()`.
   */
  readonly write: <T>(changes: (part: Transaction<HubTables>) => Promise<T>) => Promise<T>;
  /** Writes a copy of all but the pictures, as it stands at one moment, under another name; only the embedded file can. */
  readonly snapshot: ((file: string, name: string) => Promise<void>) | undefined;
  readonly close: () => Promise<void>;
}

/** Whether the database answers a question now. */
export const isUp = ({ db }: HubDatabase): Promise<boolean> =>
  sql`select 1`.execute(db).then(
    () => true,
    () => false,
  );

/** The value of what the database was asked, or why it could not be had; a full disk is told from the rest. */
export async function settle<T>(work: () => Promise<T>): Promise<Result<T, StoreFailure>> {
  try {
    return ok(await work());
  } catch (cause) {
    const code = cause instanceof Error && "code" in cause ? String(cause.code) : "";
    return err(isFull(code) ? { code: "full" } : { code: "unavailable", cause });
  }
}

/** SQLITE_FULL, and PostgreSQL's `disk_full`. */
const isFull = (code: string): boolean => code.startsWith("SQLITE_FULL") || code === "53100";

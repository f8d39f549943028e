import { mkdirSync } from "node:fs";
import { join } from "node:path";
import type { HubDatabase } from "./hub-database.ts";
import { openLibsql } from "./libsql.ts";
import { openPostgres } from "./postgres.ts";

/** The embedded file, in the folder of a hub. */
export const DATABASE_FILE = "ledger.db";

/** Where a hub keeps what it is given. */
export interface DatabasePlace {
  /** The folder of the embedded file; made if it is not there. */
  readonly folder: string;
  /** The address of a PostgreSQL database; with it, the folder holds no herd. */
  readonly address: string | undefined;
  readonly connections?: number;
  readonly onLost?: (why: Error) => void;
}

/** The database of a hub: PostgreSQL where an address was given, the embedded file otherwise. */
export function openDatabase(place: DatabasePlace): Promise<HubDatabase> {
  const { folder, address, ...limits } = place;
  if (address !== undefined) return openPostgres(address, limits);
  mkdirSync(folder, { recursive: true });
  return openLibsql(join(folder, DATABASE_FILE));
}

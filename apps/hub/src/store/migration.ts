import { type Kysely, sql } from "kysely";

/** Which database a hub keeps its herds in. */
export type Engine = "libsql" | "postgres";

/** The tables as they are before, within or after a step: whichever it names. */
export type TablesOfAnyTime = Readonly<Record<string, Readonly<Record<string, unknown>>>>;

/**
 * One step of the hub's tables, run once on every database and never changed after a release.
 *
 * Written with the schema builder, so that one text serves both engines; `engine` is for what they spell differently
 * (`bytea` and `blob`). A later shape is a later step.
 */
export interface Migration {
  /** Kebab-case, unique, for ever; it is what a database remembers. */
  readonly id: string;
  up(db: Kysely<TablesOfAnyTime>, engine: Engine): Promise<void>;
}

/** A database that a later version of the hub has already changed. It is left alone. */
export class NewerDatabase extends Error {
  constructor(steps: readonly string[]) {
    super(`the database was made by a later version of the hub (${steps.join(", ")}); install that version here too`);
  }
}

/** The table in which a database remembers its steps. Its name and columns are as the first hubs made it. */
const DONE = "kysely_migration";
/** Names the lock under which hubs that start at the same moment take turns on one PostgreSQL. */
const LOCK = 7_011_942;

interface DoneTable {
  readonly [DONE]: { readonly name: string; readonly timestamp: string };
}

/**
 * Brings a database to the tables of this hub: the steps it has not had, in the order of the list.
 *
 * All in one transaction, under a lock: several hubs may start at once, and a hub that dies half-way leaves nothing.
 *
 * Errors: throws `NewerDatabase` if it had a step that is not in the list, and what the database threw.
 */
export async function migrate<T>(
  db: Kysely<T>,
  engine: Engine,
  steps: readonly Migration[],
  now: string,
): Promise<void> {
  await db.transaction().execute(async (whole) => {
    const part = whole as unknown as Kysely<DoneTable>;
    if (engine === "postgres") {
      await sql`set local statement_timeout = 0`.execute(part); // a step may have to move every entry there is
      await sql`select pg_advisory_xact_lock(${sql.lit(LOCK)})`.execute(part);
    }
    await part.schema
      .createTable(DONE)
      .ifNotExists()
      .addColumn("name", "varchar(255)", (column) => column.primaryKey())
      .addColumn("timestamp", "varchar(255)", (column) => column.notNull())
      .execute();
    const done = new Set((await part.selectFrom(DONE).select("name").execute()).map(({ name }) => name));
    const known = new Set(steps.map(({ id }) => id));
    const later = [...done].filter((id) => !known.has(id)).sort();
    if (later.length > 0) throw new NewerDatabase(later);
    for (const step of steps) {
      if (done.has(step.id)) continue;
      await step.up(whole as unknown as Kysely<TablesOfAnyTime>, engine);
      await part.insertInto(DONE).values({ name: step.id, timestamp: now }).execute();
    }
  });
}

import type { Kysely } from "kysely";
import type { Migration, TablesOfAnyTime } from "./migration.ts";

/** The tables of the ledgers. Entries are only ever added. */
export interface LedgerTables {
  /** One row: the name of this copy of the ledgers. */
  readonly copy: { readonly one: number; readonly name: string };
  /** A row for each herd that was written to; whoever adds entries to a herd holds its row. */
  readonly herd: {
    readonly id: string;
    /** The last place given. */
    readonly last: number;
    readonly entries: number;
  };
  readonly entry: {
    readonly herd: string;
    /** Order of arrival within the herd at this hub; never given twice. */
    readonly seq: number;
    readonly id: string;
    /** The entry as it came, JSON. */
    readonly body: string;
    /** Chance, one for all that was kept together: a line that was put back and grew on has others from there. */
    readonly notch: string;
    /** The device that first brought it, by its token; `null` for this computer, a backup, and what came before that was noted. */
    readonly device: string | null;
  };
}

/** The first hubs numbered the entries of all herds together. */
const entryStep: Migration = {
  id: "0001-entry",
  async up(db, engine) {
    await db.schema
      .createTable("entry")
      .addColumn("seq", engine === "postgres" ? "serial" : "integer", (column) =>
        engine === "postgres" ? column.primaryKey() : column.primaryKey().autoIncrement(),
      )
      .addColumn("herd", "text", (column) => column.notNull())
      .addColumn("id", "text", (column) => column.notNull())
      .addColumn("body", "text", (column) => column.notNull())
      .addUniqueConstraint("one_entry_an_id", ["herd", "id"])
      .execute();
    await db.schema
      .createTable("copy")
      .addColumn("name", "text", (column) => column.notNull())
      .execute();
    await db.schema.createIndex("entry_in_order").on("entry").columns(["herd", "seq"]).execute();
  },
};

/**
 * Each herd gets an order of its own, and a row that its writers hold while they add to it: with several writers, a
 * number drawn early and committed late would be passed over by a reader that has seen a higher one.
 */
const placesStep: Migration = {
  id: "0002-places",
  async up(db) {
    await db.schema
      .createTable("herd")
      .addColumn("id", "text", (column) => column.primaryKey())
      .addColumn("last", "integer", (column) => column.notNull())
      .addColumn("entries", "integer", (column) => column.notNull())
      .execute();
    await db
      .insertInto("herd")
      .columns(["id", "last", "entries"])
      .expression(
        db
          .selectFrom("entry")
          .select(({ fn }) => ["herd", fn.max("seq").as("last"), fn.countAll().as("entries")])
          .groupBy("herd"),
      )
      .execute();
    await movedInto(db, "entry", ["herd", "seq", "id", "body"], (name) =>
      db.schema
        .createTable(name)
        .addColumn("herd", "text", (column) => column.notNull())
        .addColumn("seq", "integer", (column) => column.notNull())
        .addColumn("id", "text", (column) => column.notNull())
        .addColumn("body", "text", (column) => column.notNull())
        .addPrimaryKeyConstraint("one_entry_a_place", ["herd", "seq"])
        .addUniqueConstraint("one_place_an_entry", ["herd", "id"])
        .execute(),
    );
    const name = await db.selectFrom("copy").select("name").executeTakeFirst();
    await db.schema.dropTable("copy").execute();
    await db.schema
      .createTable("copy")
      .addColumn("one", "integer", (column) => column.primaryKey())
      .addColumn("name", "text", (column) => column.notNull())
      .execute();
    if (name)
      await db
        .insertInto("copy")
        .values({ one: 1, ...name })
        .execute();
  },
};

/** Makes a table anew under its own name, with the rows of the one that was there. */
async function movedInto(
  db: Kysely<TablesOfAnyTime>,
  table: string,
  columns: readonly string[],
  make: (name: string) => Promise<void>,
): Promise<void> {
  const fresh = `${table}_moved`;
  await make(fresh);
  await db
    .insertInto(fresh)
    .columns([...columns])
    .expression(db.selectFrom(table).select([...columns]))
    .execute();
  await db.schema.dropTable(table).execute();
  await db.schema.alterTable(fresh).renameTo(table).execute();
}

/** What was there before has its id for a notch: the best there is to know it by. */
const notchStep: Migration = {
  id: "0030-notch",
  async up(db) {
    await db.schema
      .alterTable("entry")
      .addColumn("notch", "text", (column) => column.notNull().defaultTo(""))
      .execute();
    await db
      .updateTable("entry")
      .set((of) => ({ notch: of.ref("id") }))
      .execute();
  },
};

const deviceStep: Migration = {
  id: "0031-device",
  async up(db) {
    await db.schema.alterTable("entry").addColumn("device", "text").execute();
  },
};

/** From an empty database to the tables above. */
export const LEDGER_STEPS: readonly Migration[] = [entryStep, placesStep];

/** The steps of the ledgers that came after those of other matters. */
export const LATER_LEDGER_STEPS: readonly Migration[] = [notchStep, deviceStep];

import { type Generated, type Kysely, type Migration, Migrator } from "kysely";

/** The hub's tables as its queries see them. Ledgers are only ever added to. */
export interface LedgerTables {
  /** One row: the name of this copy of the ledgers, given when the database was made. */
  readonly copy: { readonly name: string };
  readonly entry: {
    /** Order of arrival at this hub, over all herds; never given twice. */
    readonly seq: Generated<number>;
    readonly herd: string;
    readonly id: string;
    /** The entry as it came, JSON. */
    readonly body: string;
  };
}

/** Steps from an empty database to the tables above, each run once and never changed after a release. */
const MIGRATIONS: Readonly<Record<string, Migration>> = {
  "0001-entry": {
    async up(db) {
      await db.schema
        .createTable("entry")
        .addColumn("seq", "integer", (column) => column.primaryKey().autoIncrement())
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
  },
};

/** Brings a database to the tables above. Errors: throws what the database threw; nothing is half done. */
export async function migrate(db: Kysely<LedgerTables>): Promise<void> {
  const migrator = new Migrator({ db, provider: { getMigrations: () => Promise.resolve({ ...MIGRATIONS }) } });
  const { error } = await migrator.migrateToLatest();
  if (error !== undefined) throw error;
}

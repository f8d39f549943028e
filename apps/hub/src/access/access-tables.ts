import type { Migration } from "../store/migration.ts";

/** The tables of who may: devices that were let in, and codes by which one more may come. No secret stands in them. */
export interface AccessTables {
  readonly device: {
    readonly id: string;
    readonly herd: string;
    /** As its holder called it: "Ines's phone". */
    readonly name: string;
    readonly role: string;
    /** SHA-256 of its token. */
    readonly token: string;
    readonly made: string;
    readonly seen: string | null;
    readonly revoked: string | null;
  };
  readonly invite: {
    /** SHA-256 of its code. */
    readonly code: string;
    readonly herd: string;
    readonly role: string;
    readonly expires: string;
  };
}

const accessStep: Migration = {
  id: "0010-access",
  async up(db) {
    await db.schema
      .createTable("device")
      .addColumn("id", "text", (column) => column.primaryKey())
      .addColumn("herd", "text", (column) => column.notNull())
      .addColumn("name", "text", (column) => column.notNull())
      .addColumn("role", "text", (column) => column.notNull())
      .addColumn("token", "text", (column) => column.notNull().unique())
      .addColumn("made", "text", (column) => column.notNull())
      .addColumn("seen", "text")
      .addColumn("revoked", "text")
      .execute();
    await db.schema
      .createTable("invite")
      .addColumn("code", "text", (column) => column.primaryKey())
      .addColumn("herd", "text", (column) => column.notNull())
      .addColumn("role", "text", (column) => column.notNull())
      .addColumn("expires", "text", (column) => column.notNull())
      .execute();
    await db.schema.createIndex("device_of_herd").on("device").column("herd").execute();
  },
};

/** From the tables of the ledgers to the tables above. */
export const ACCESS_STEPS: readonly Migration[] = [accessStep];

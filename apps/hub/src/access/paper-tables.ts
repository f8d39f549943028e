import type { Migration } from "../store/migration.ts";

/** The tables of what a keeper shows to somebody outside: papers for guests, and lists for a vet's visit. */
export interface PaperTables {
  readonly paper: {
    readonly id: string;
    readonly herd: string;
    readonly kid: string;
    /** SHA-256 of the secret in its link. */
    readonly token: string;
    /** What stands on it, JSON, as it was checked when it came. */
    readonly body: string;
    readonly made: string;
    readonly expires: string;
    readonly revoked: string | null;
  };
  readonly visit: {
    readonly herd: string;
    /** The day of the visit. */
    readonly day: string;
    /** Whom the vet is to see, JSON, as it was checked when it came. */
    readonly body: string;
    readonly made: string;
  };
}

const paperStep: Migration = {
  id: "0011-paper",
  async up(db) {
    await db.schema
      .createTable("paper")
      .addColumn("id", "text", (column) => column.primaryKey())
      .addColumn("herd", "text", (column) => column.notNull())
      .addColumn("kid", "text", (column) => column.notNull())
      .addColumn("token", "text", (column) => column.notNull().unique())
      .addColumn("body", "text", (column) => column.notNull())
      .addColumn("made", "text", (column) => column.notNull())
      .addColumn("expires", "text", (column) => column.notNull())
      .addColumn("revoked", "text")
      .execute();
    await db.schema.createIndex("paper_of_herd").on("paper").column("herd").execute();
    await db.schema
      .createTable("visit")
      .addColumn("herd", "text", (column) => column.notNull())
      .addColumn("day", "text", (column) => column.notNull())
      .addColumn("body", "text", (column) => column.notNull())
      .addColumn("made", "text", (column) => column.notNull())
      .addPrimaryKeyConstraint("one_list_a_day", ["herd", "day"])
      .execute();
  },
};

/** From the tables of who may to the tables above. */
export const PAPER_STEPS: readonly Migration[] = [paperStep];

import type { Migration } from "../store/migration.ts";

/** The table of the pictures. They are only ever added. */
export interface PhotoTables {
  readonly photo: {
    readonly herd: string;
    /** The SHA-256 of its bytes, or an id. */
    readonly name: string;
    readonly bytes: Uint8Array;
  };
  /** A row for each herd with pictures; whoever adds one holds it. */
  readonly photo_herd: {
    readonly herd: string;
    readonly photos: number;
    /** All of them together; PostgreSQL gives so large a number as text. */
    readonly bytes: number | string;
  };
}

const photoStep: Migration = {
  id: "0021-photo",
  async up(db, engine) {
    await db.schema
      .createTable("photo")
      .addColumn("herd", "text", (column) => column.notNull())
      .addColumn("name", "text", (column) => column.notNull())
      .addColumn("bytes", engine === "postgres" ? "bytea" : "blob", (column) => column.notNull())
      .addPrimaryKeyConstraint("one_photo_a_name", ["herd", "name"])
      .execute();
  },
};

const photoHerdStep: Migration = {
  id: "0032-photo-herd",
  async up(db) {
    await db.schema
      .createTable("photo_herd")
      .addColumn("herd", "text", (column) => column.primaryKey())
      .addColumn("photos", "integer", (column) => column.notNull())
      .addColumn("bytes", "bigint", (column) => column.notNull())
      .execute();
    await db
      .insertInto("photo_herd")
      .columns(["herd", "photos", "bytes"])
      .expression(
        db
          .selectFrom("photo")
          .select(({ fn }) => ["herd", fn.countAll().as("photos"), fn.sum(fn("length", ["bytes"])).as("bytes")])
          .groupBy("herd"),
      )
      .execute();
  },
};

/** From the tables of what is shown to the pictures. */
export const PHOTO_STEPS: readonly Migration[] = [photoStep];
/** What came after the later steps of the ledgers. */
export const LATER_PHOTO_STEPS: readonly Migration[] = [photoHerdStep];

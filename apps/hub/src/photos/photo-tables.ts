import type { Migration } from "../store/migration.ts";

/** The table of the pictures. They are only ever added. */
export interface PhotoTables {
  readonly photo: {
    readonly herd: string;
    /** The SHA-256 of its bytes, or an id. */
    readonly name: string;
    readonly bytes: Uint8Array;
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

/** From the tables of what is shown to the table above. */
export const PHOTO_STEPS: readonly Migration[] = [photoStep];

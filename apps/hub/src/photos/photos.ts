import { createHash } from "node:crypto";
import { err, ok, type Result } from "@pollard/base";
import { checkedPhoto, type HerdId, type PhotoProblem, type StoreFailure } from "@pollard/records";
import { type HubDatabase, settle } from "../store/hub-database.ts";
import { keyOf } from "../store/ledger-store.ts";

/** The pictures that a hub keeps, each for one herd. */
export interface HubPhotos {
  /** Which of these the hub does not have for the herd. */
  lacking(herd: HerdId, names: readonly string[]): Promise<Result<readonly string[], StoreFailure>>;
  find(herd: HerdId, name: string): Promise<Result<Uint8Array<ArrayBuffer> | undefined, StoreFailure>>;
  /** Keeps a picture, on disk when it settles. The same one again is no error; another one under its name is. */
  keep(
    herd: HerdId,
    name: string,
    bytes: Uint8Array,
  ): Promise<Result<"kept" | "known", StoreFailure | { readonly code: PhotoProblem }>>;
}

const digest = (bytes: Uint8Array): Promise<string> =>
  Promise.resolve(createHash("sha256").update(bytes).digest("hex"));

/** The pictures of a database. */
export function photosIn({ db, write }: HubDatabase): HubPhotos {
  const find: HubPhotos["find"] = (herd, name) =>
    settle(async () => {
      const row = await db
        .selectFrom("photo")
        .select("bytes")
        .where("herd", "=", keyOf(herd))
        .where("name", "=", name)
        .executeTakeFirst();
      return row && new Uint8Array(row.bytes);
    });
  return {
    find,
    lacking: (herd, names) =>
      settle(async () => {
        if (names.length === 0) return [];
        const rows = await db
          .selectFrom("photo")
          .select("name")
          .where("herd", "=", keyOf(herd))
          .where("name", "in", names)
          .execute();
        const here = new Set(rows.map(({ name }) => name));
        return names.filter((name) => !here.has(name));
      }),
    async keep(herd, name, bytes) {
      const checked = await checkedPhoto(name, bytes, digest);
      if (!checked.ok) return err({ code: checked.error });
      const added = await settle(() =>
        write((part) =>
          part
            .insertInto("photo")
            .values({ herd: keyOf(herd), name, bytes: Buffer.from(bytes) })
            .onConflict((there) => there.columns(["herd", "name"]).doNothing())
            .returning("name")
            .executeTakeFirst(),
        ),
      );
      if (!added.ok) return added;
      if (added.value !== undefined) return ok("kept");
      const there = await find(herd, name);
      if (!there.ok) return there;
      return there.value !== undefined && Buffer.compare(there.value, bytes) === 0
        ? ok("known")
        : err({ code: "other-photo" });
    },
  };
}

import { createHash } from "node:crypto";
import { err, ok, type Result } from "@pollard/base";
import { checkedPhoto, type HerdId, NO_ROOM_FOR_PHOTOS, type PhotoProblem, type StoreFailure } from "@pollard/records";
import { type HubDatabase, settle } from "../store/hub-database.ts";
import { keyOf } from "../store/ledger-store.ts";

/** The pictures that a hub keeps, each for one herd. */
export interface HubPhotos {
  /** Which of these the hub does not have for the herd. */
  lacking(herd: HerdId, names: readonly string[]): Promise<Result<readonly string[], StoreFailure>>;
  find(herd: HerdId, name: string): Promise<Result<Uint8Array<ArrayBuffer> | undefined, StoreFailure>>;
  /**
   * Keeps a picture, on disk when it settles. The same one again is no error; another one under its name is, and so is one more
   * than the herd has room for.
   */
  keep(
    herd: HerdId,
    name: string,
    bytes: Uint8Array,
  ): Promise<Result<"kept" | "known", StoreFailure | { readonly code: PhotoProblem | typeof NO_ROOM_FOR_PHOTOS }>>;
}

const digest = (bytes: Uint8Array): Promise<string> =>
  Promise.resolve(createHash("sha256").update(bytes).digest("hex"));

/** Room for the pictures of one herd unless the hub is told otherwise, bytes: some ten thousand. Our judgement. */
export const ROOM_FOR_PHOTOS = 2_000_000_000;

/** Thrown within a writing, so that nothing of it is kept. */
class NoRoom extends Error {}

/** The pictures of a database, each herd's in so much room. */
export function photosIn({ db, write }: HubDatabase, room = ROOM_FOR_PHOTOS): HubPhotos {
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
        write(async (part) => {
          const fresh = await part
            .insertInto("photo")
            .values({ herd: keyOf(herd), name, bytes: Buffer.from(bytes) })
            .onConflict((there) => there.columns(["herd", "name"]).doNothing())
            .returning("name")
            .executeTakeFirst();
          if (fresh === undefined) return "there";
          const all = await part
            .insertInto("photo_herd")
            .values({ herd: keyOf(herd), photos: 1, bytes: bytes.length })
            .onConflict((there) =>
              there.column("herd").doUpdateSet((of) => ({
                photos: of("photo_herd.photos", "+", 1),
                bytes: of("photo_herd.bytes", "+", bytes.length),
              })),
            )
            .returning("bytes")
            .executeTakeFirstOrThrow();
          if (Number(all.bytes) > room) throw new NoRoom();
          return "kept";
        }),
      );
      if (!added.ok) {
        const isNoRoom = added.error.code === "unavailable" && added.error.cause instanceof NoRoom;
        return isNoRoom ? err({ code: NO_ROOM_FOR_PHOTOS }) : added;
      }
      if (added.value === "kept") return ok("kept");
      const there = await find(herd, name);
      if (!there.ok) return there;
      return there.value !== undefined && Buffer.compare(there.value, bytes) === 0
        ? ok("known")
        : err({ code: "other-photo" });
    },
  };
}

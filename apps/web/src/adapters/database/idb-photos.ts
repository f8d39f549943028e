import { ok, type Result } from "@pollard/base";
import type { PhotoShelf, StoreFailure } from "@pollard/records";
import type { HerdDatabase } from "./herd-database.ts";

/** A picture under the name that its entry gives it. Ours is a JPEG; what came from elsewhere may be a PNG or WebP. */
export interface KeptPhoto {
  readonly id: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** Pictures of one herd on this phone. The ledger is whole without them. */
export interface Photos {
  find(id: string): Promise<Result<KeptPhoto | undefined, StoreFailure>>;
  /** All of them, in the order of their names. */
  all(): Promise<Result<readonly KeptPhoto[], StoreFailure>>;
  count(): Promise<Result<number, StoreFailure>>;
  names(): Promise<Result<readonly string[], StoreFailure>>;
  /** Keeps pictures that came from elsewhere; one that is here already stays as it is. */
  bringIn(photos: readonly KeptPhoto[]): Promise<Result<{ readonly added: number }, StoreFailure>>;
}

export function idbPhotos(db: HerdDatabase): Photos {
  return {
    async find(id) {
      const found = await db.run(["photos"], "readonly", (t) => t.objectStore("photos").get(id));
      return found.ok ? ok(found.value) : found;
    },
    all: () => db.run(["photos"], "readonly", (t) => t.objectStore("photos").getAll()),
    names: () => db.run(["photos"], "readonly", (t) => t.objectStore("photos").getAllKeys()),
    count: () => db.run(["photos"], "readonly", (t) => t.objectStore("photos").count()),
    bringIn: (photos) =>
      db.run(["photos"], "readwrite", async (t) => {
        const store = t.objectStore("photos");
        const here = new Set(await store.getAllKeys());
        const fresh = photos.filter(({ id }) => !here.has(id));
        await Promise.all(fresh.map((photo) => store.put(photo)));
        return { added: fresh.length };
      }),
  };
}

/** The same pictures as the exchange knows them. */
export function photoShelf(db: HerdDatabase): PhotoShelf {
  const photos = idbPhotos(db);
  return {
    async lacking(names) {
      const keys = await db.run(["photos"], "readonly", (t) => t.objectStore("photos").getAllKeys());
      if (!keys.ok) return keys;
      const here = new Set(keys.value);
      return ok(names.filter((name) => !here.has(name)));
    },
    async find(name) {
      const found = await photos.find(name);
      return found.ok ? ok(found.value?.bytes) : found;
    },
    keep: (id, bytes) => photos.bringIn([{ id, bytes: Uint8Array.from(bytes) }]),
  };
}

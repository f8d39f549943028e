import { mkdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { type HerdId, pictureType } from "@pollard/records";
import { photosIn } from "../photos/photos.ts";
import type { HubDatabase } from "../store/hub-database.ts";
import { keyOf, nameOf } from "../store/ledger-store.ts";

/** The folder of a backup in which each herd with pictures has one of its own. */
export const PHOTOS_FOLDER = "photos";

const ENDINGS = { "image/jpeg": ".jpg", "image/png": ".png", "image/webp": ".webp" } as const;

/** The herds that have pictures here. */
export async function herdsWithPhotos({ db }: HubDatabase): Promise<readonly HerdId[]> {
  const rows = await db.selectFrom("photo").select("herd").distinct().execute();
  return rows.map(({ herd }) => nameOf(herd) as HerdId);
}

/** Writes the pictures of a herd into a folder, each under its own name; gives the names of the files. */
export async function writePhotos({ db }: HubDatabase, herd: HerdId, folder: string): Promise<readonly string[]> {
  const ofHerd = db.selectFrom("photo").where("herd", "=", keyOf(herd));
  const names = await ofHerd.select("name").orderBy("name").execute();
  const files: string[] = [];
  if (names.length > 0) await mkdir(folder, { recursive: true });
  for (const { name } of names) {
    const row = await ofHerd.select("bytes").where("name", "=", name).executeTakeFirstOrThrow();
    const bytes = new Uint8Array(row.bytes); // each engine has bytes of its own sort
    const type = pictureType(bytes);
    const file = `${name}${type === undefined ? "" : ENDINGS[type]}`;
    await writeFile(join(folder, file), bytes);
    files.push(file);
  }
  return files;
}

/** Reads the pictures of a herd in again; gives those that are none, or are others than their names say. */
export async function readPhotos(
  database: HubDatabase,
  herd: HerdId,
  files: readonly string[],
): Promise<readonly string[]> {
  const photos = photosIn(database, Number.POSITIVE_INFINITY); // what was kept once is kept again
  const unusable: string[] = [];
  for (const file of files) {
    const name = (file.split(/[\\/]/).at(-1) ?? "").replace(/\.\w+$/, "");
    const kept = await photos.keep(herd, name, await readFile(file));
    if (kept.ok) continue;
    if ("cause" in kept.error) throw kept.error.cause;
    if (kept.error.code === "full") throw new Error("the disk is full");
    unusable.push(file);
  }
  return unusable;
}

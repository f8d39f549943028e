import { createHash, randomUUID } from "node:crypto";
import { mkdir, open, readdir, rename, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { type Entry, type HerdId, type TooNewEntry, writeHerdFile } from "@pollard/records";
import type { HubDatabase } from "../store/hub-database.ts";
import { ledgersIn } from "../store/ledger-store.ts";
import { SUMS_FILE, sumsOf } from "./checksums.ts";
import { backupName, outdatedBackups } from "./kept-backups.ts";
import { herdsWithPhotos, PHOTOS_FOLDER, writePhotos } from "./photo-files.ts";

/** The folder of a backup in which each herd has a file that any device of the app can open. */
export const HERDS_FOLDER = "herds";
/** The copy of the embedded file, which also holds who may see what. */
export const SNAPSHOT_FILE = "ledger.db";
/** The ending of a backup that is being made; one that is found was cut short. */
const UNFINISHED = ".part";
/** Entries read at once. */
const PAGE = 1000;

/** A backup that was made. */
export interface Backup {
  readonly folder: string;
  readonly herds: number;
  readonly entries: number;
  readonly photos: number;
  /** How many older ones were removed after it. */
  readonly removed: number;
}

/**
 * Makes a backup of everything a hub keeps, as a folder of its own, and removes those that are outdated.
 *
 * One herd file for each herd, which needs no program of ours to be read, and its pictures; the embedded file as it stood at
 * one moment; and the list of their checksums. It appears under its name only when all of it is on disk. The hub goes on meanwhile: what
 * arrives during the backup is in the next one at the latest.
 *
 * Errors: throws what the database or the disk said; the older backups are untouched then.
 */
export async function makeBackup(database: HubDatabase, to: string, at: Date): Promise<Backup> {
  const folder = join(to, backupName(at));
  const part = `${folder}${UNFINISHED}`;
  await mkdir(to, { recursive: true });
  for (const name of await readdir(to)) if (isUnfinished(name)) await rm(join(to, name), { recursive: true });
  await mkdir(join(part, HERDS_FOLDER), { recursive: true });
  const names: string[] = [];
  let entries = 0;
  const ledgers = ledgersIn(database);
  const written = valueOf(await ledgers.herds()).map(({ id }) => id);
  const herds = new Set([...written, ...(await herdsWithPhotos(database))]);
  const folders = [HERDS_FOLDER, ""];
  let photos = 0;
  for (const herd of herds) {
    const all = await entriesOf(ledgers.of(herd).store);
    entries += all.length;
    const own = fileNameOf(herd);
    names.push(`${HERDS_FOLDER}/${own}.jsonl`);
    await writeFile(join(part, HERDS_FOLDER, `${own}.jsonl`), writeHerdFile(all, { herd, written: at.toISOString() }));
    const pictures = await writePhotos(database, herd, join(part, PHOTOS_FOLDER, own));
    photos += pictures.length;
    names.push(...pictures.map((file) => `${PHOTOS_FOLDER}/${own}/${file}`));
    if (pictures.length > 0) folders.unshift(`${PHOTOS_FOLDER}/${own}`);
  }
  if (photos > 0) folders.push(PHOTOS_FOLDER);
  if (database.snapshot) {
    await database.snapshot(join(part, SNAPSHOT_FILE), randomUUID());
    names.push(SNAPSHOT_FILE);
  }
  await writeFile(join(part, SUMS_FILE), await sumsOf(part, names));
  for (const name of [...names, SUMS_FILE]) await flush(join(part, name), "file");
  for (const name of folders) await flush(join(part, name), "folder");
  await rename(part, folder);
  await flush(to, "folder");
  const outdated = outdatedBackups(await readdir(to));
  for (const name of outdated) await rm(join(to, name), { recursive: true });
  return { folder, herds: herds.size, entries, photos, removed: outdated.length };
}

const isUnfinished = (name: string): boolean => /^pollard-\d{8}T\d{6}Z\.part$/.test(name);

/** Plain small names stay as they are; others, which a file system might confuse or refuse, are told by their digest. */
const fileNameOf = (herd: HerdId): string =>
  /^[a-z0-9-]{1,80}$/.test(herd) ? herd : createHash("sha256").update(JSON.stringify(herd)).digest("hex");

async function entriesOf(store: {
  readonly read: ReturnType<ReturnType<typeof ledgersIn>["of"]>["store"]["read"];
}): Promise<readonly (Entry | TooNewEntry)[]> {
  const all: (Entry | TooNewEntry)[] = [];
  for (let after = 0; ; ) {
    const page = valueOf(await store.read(after, PAGE));
    all.push(...page.map(({ entry }) => entry));
    const last = page.at(-1);
    if (last === undefined) return all;
    after = last.seq;
  }
}

function valueOf<T>(
  result: { readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: unknown },
): T {
  if (result.ok) return result.value;
  const { error } = result;
  throw typeof error === "object" && error !== null && "cause" in error ? error.cause : new Error("the disk is full");
}

/** Windows lets nobody flush a folder, and a file only through a handle that may write. */
async function flush(path: string, what: "file" | "folder"): Promise<void> {
  if (what === "folder" && process.platform === "win32") return;
  const handle = await open(path, what === "folder" ? "r" : "r+");
  await handle.sync();
  await handle.close();
}

import { copyFile, mkdir, readFile, stat } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { type HerdFile, type HerdId, isTooNew, readHerdFile } from "@pollard/records";
import type { HubDatabase } from "../store/hub-database.ts";
import { ledgersIn, renameCopy } from "../store/ledger-store.ts";
import { HERDS_FOLDER, SNAPSHOT_FILE } from "./backup.ts";
import { checkedFiles } from "./checksums.ts";
import { PHOTOS_FOLDER, readPhotos } from "./photo-files.ts";

/** Entries handed to a ledger at once. */
const PAGE = 500;

/** A backup as it was found: what it holds that can be used. */
export interface FoundBackup {
  /** Herd files, whole or, if that was asked for, as far as they can be read. */
  readonly herdFiles: readonly string[];
  /** Files of pictures that are there and whole, by the name of the herd's file. */
  readonly photoFiles: ReadonlyMap<string, readonly string[]>;
  /** The copy of the embedded file, if there is a whole one. */
  readonly snapshot: string | undefined;
  /** What is missing or changed, by its name in the backup. */
  readonly damaged: readonly string[];
}

/**
 * What a backup holds: the folder that a hub made, or one herd file, as a device writes it.
 *
 * Errors: throws if it is neither, or cannot be read.
 */
export async function foundBackup(path: string): Promise<FoundBackup> {
  if ((await stat(path)).isFile())
    return { herdFiles: [path], photoFiles: new Map(), snapshot: undefined, damaged: [] };
  const { whole, damaged } = await checkedFiles(path);
  const isThere = await Promise.all(
    damaged.map((name) =>
      stat(join(path, name)).then(
        () => true,
        () => false,
      ),
    ),
  );
  const readable = [...whole, ...damaged.filter((_, at) => isThere[at])];
  return {
    herdFiles: readable.filter((name) => name.startsWith(`${HERDS_FOLDER}/`)).map((name) => join(path, name)),
    photoFiles: byFolder(whole.filter((name) => name.startsWith(`${PHOTOS_FOLDER}/`)).map((name) => join(path, name))),
    snapshot: whole.includes(SNAPSHOT_FILE) ? join(path, SNAPSHOT_FILE) : undefined,
    damaged,
  };
}

function byFolder(files: readonly string[]): FoundBackup["photoFiles"] {
  const folders = new Map<string, string[]>();
  for (const file of files) {
    const name = basename(dirname(file));
    folders.set(name, [...(folders.get(name) ?? []), file]);
  }
  return folders;
}

/** Puts the copy of the embedded file in place, where there is none yet; says whether it did. */
async function putBack(snapshot: string, file: string): Promise<boolean> {
  await mkdir(dirname(file), { recursive: true });
  const isThere = await stat(file).then(
    () => true,
    () => false,
  );
  if (isThere) return false;
  await copyFile(snapshot, file);
  return true;
}

/** What came of reading a backup in. */
export interface Restored {
  readonly herds: number;
  readonly entries: number;
  /** How many of them were not here before. */
  readonly added: number;
  readonly photos: number;
  /** Files in which something could not be read. */
  readonly incomplete: readonly string[];
}

/**
 * Adds what a backup's herd files and pictures hold and a database has not, and gives the copy another name.
 *
 * Entries are only ever added, so it may be stopped and done again, and nothing that is here is lost. By the new name
 * every device notices, hands over what it has beyond the backup, and asks for everything once more.
 *
 * Errors: throws what the database said; a bad line never keeps the good ones out.
 */
export async function restore(
  database: HubDatabase,
  { herdFiles, photoFiles }: Pick<FoundBackup, "herdFiles" | "photoFiles">,
): Promise<Restored> {
  const herds = new Set<HerdId>();
  const incomplete: string[] = [];
  let [entries, added, photos] = [0, 0, 0];
  const ledgers = ledgersIn(database);
  for (const name of herdFiles) {
    const file = readHerdFile(await readFile(name, "utf8"));
    if (file.problems.length > 0) incomplete.push(name);
    const pictures = photoFiles.get(basename(name, ".jsonl")) ?? [];
    photos += pictures.length;
    const owner = file.header?.herd;
    incomplete.push(...(owner === undefined ? pictures : await readPhotos(database, owner, pictures)));
    for (const [herd, own] of byHerd(file)) {
      herds.add(herd);
      entries += own.length;
      for (let at = 0; at < own.length; at += PAGE) {
        const kept = await ledgers.of(herd).store.append(own.slice(at, at + PAGE));
        if (!kept.ok) throw "cause" in kept.error ? kept.error.cause : new Error("the disk is full");
        added += kept.value.added.length;
      }
    }
  }
  await renameCopy(database);
  return { herds: herds.size, entries, added, photos, incomplete };
}

/** The entries of a file by the herd they name; one too new to be understood goes with the herd of the file. */
function byHerd(file: HerdFile): ReadonlyMap<HerdId, HerdFile["entries"]> {
  const herds = new Map<HerdId, HerdFile["entries"][number][]>();
  const own = file.header?.herd ?? file.entries.flatMap((entry) => (isTooNew(entry) ? [] : [entry.herd]))[0];
  for (const entry of file.entries) {
    const herd = isTooNew(entry) ? own : entry.herd;
    if (herd === undefined) continue;
    const kept = herds.get(herd) ?? [];
    kept.push(entry);
    herds.set(herd, kept);
  }
  return herds;
}

/** A backup to be read in, and where to. */
export interface RestoreWish {
  readonly from: string;
  readonly evenDamaged: boolean;
  /** The embedded file, which is put back whole where there is none; `undefined` on a database server. */
  readonly file: string | undefined;
}

/**
 * The whole of `--restore`: looks at the backup, puts the embedded file back where there is none, adds what is missing.
 *
 * Shape: what to tell whoever asked, and 0 done; 1 not begun, or done as far as it could be, since the backup is damaged.
 * Errors: throws what the disk or the database said.
 */
export async function restoreInto(
  open: () => Promise<HubDatabase>,
  { from, evenDamaged, file }: RestoreWish,
): Promise<{ readonly sentence: string; readonly exitCode: 0 | 1 }> {
  const found = await foundBackup(from);
  if (found.damaged.length > 0 && !evenDamaged)
    return {
      sentence: `Nothing was changed: the backup is not whole (${found.damaged.join(", ")}).
With --even-damaged, what can be read of it is read.`,
      exitCode: 1,
    };
  const isPutBack = file !== undefined && found.snapshot !== undefined && (await putBack(found.snapshot, file));
  const database = await open();
  const { herds, entries, added, photos, incomplete } = await restore(database, found);
  await database.close();
  const notWhole = [...new Set([...found.damaged, ...incomplete])];
  return {
    sentence: [
      `Herds in the backup: ${herds}. Entries: ${entries}; ${isPutBack ? "all are back" : `not here before: ${added}`}.`,
      ...(photos === 0 ? [] : [`Pictures in the backup: ${photos}.`]),
      ...(isPutBack ? ["A device that was locked out since then is let in again: look at the list of devices."] : []),
      ...(notWhole.length === 0 ? [] : [`Not whole: ${notWhole.join(", ")}.`]),
    ].join("\n"),
    exitCode: notWhole.length === 0 ? 0 : 1,
  };
}

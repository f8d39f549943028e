import { type Day, err, ok, type Result } from "@pollard/base";
import { type PackedProblem, readBackup } from "../adapters/files/backup-file.ts";
import type { Device } from "../adapters/device.ts";
import { herdDatabase } from "../adapters/database/herd-database.ts";
import { idbPhotos } from "../adapters/database/idb-photos.ts";
import { type FileRefusal, type TakenIn, takeInFile } from "./take-in-file.ts";

/** What came of a backup that was brought in. */
export interface BackupTakenIn extends TakenIn {
  /** Photos that came in; `no-room` where the entries did and the photos could not be kept. */
  readonly photos: number | "no-room";
}

/**
 * Brings a backup file in, packed with photos or not: first the entries, then the pictures. Pictures that cannot be kept
 * never hold up the entries.
 */
export async function takeInBackup(
  file: Blob,
  device: Device,
  today: Day,
  unnamed: string,
): Promise<Result<BackupTakenIn, FileRefusal | { readonly code: PackedProblem }>> {
  const backup = await readBackup(file);
  if (!backup.ok) return err({ code: backup.error });
  const taken = await takeInFile(backup.value.text, device, today, unnamed);
  if (!taken.ok) return taken;
  if (backup.value.photos.length === 0) return ok({ ...taken.value, photos: 0 });
  const db = herdDatabase(taken.value.herd.id);
  const kept = await idbPhotos(db).bringIn(backup.value.photos);
  await db.close();
  return ok({ ...taken.value, photos: kept.ok ? kept.value.added : "no-room" });
}

import { err, ok, type Result } from "@pollard/base";
import type { KeptPhoto } from "../database/idb-photos.ts";

/** A backup as it lies in a file: the herd file's text, and the pictures beside it. */
export interface Backup {
  readonly text: string;
  readonly photos: readonly KeptPhoto[];
}

/** Why a packed backup could not be opened: it is damaged, or packed and something else. */
export type PackedProblem = "packed-damaged" | "packed-strange";

/** Where things lie in a packed backup. */
const HERD = "herd.jsonl";
const PHOTO = /^photos\/([A-Za-z0-9-]{1,80})\.jpg$/;
/** Most that is unpacked of one part, bytes: no herd's text and no picture of ours comes near. */
const MOST_TEXT = 200_000_000;
const MOST_PHOTO = 2_000_000;
/** What every JPEG begins with. */
const JPEG = [0xff, 0xd8, 0xff] as const;

/** The backup as a file: the herd file alone, or, where there are pictures, packed (zip) with them. */
export async function writeBackup({ text, photos }: Backup): Promise<{ readonly blob: Blob; readonly ending: string }> {
  if (photos.length === 0) return { blob: new Blob([text], { type: "application/jsonl" }), ending: "jsonl" };
  const { strToU8, zipSync } = await import("fflate");
  const packed = zipSync({
    [HERD]: strToU8(text),
    photos: Object.fromEntries(photos.map(({ id, bytes }) => [`${id}.jpg`, [bytes, { level: 0 }]])),
  });
  return { blob: new Blob([packed], { type: "application/zip" }), ending: "zip" };
}

/** What a file that was brought in holds. A herd file alone is read as it is; what is wrong in its text is told elsewhere. */
export async function readBackup(file: Blob): Promise<Result<Backup, PackedProblem>> {
  const start = new Uint8Array(await file.slice(0, 4).arrayBuffer());
  const isPacked = start[0] === 0x50 && start[1] === 0x4b && (start[2] === 3 || start[2] === 5);
  if (!isPacked) return ok({ text: await file.text(), photos: [] });
  const { strFromU8, unzipSync } = await import("fflate");
  let parts: Readonly<Record<string, Uint8Array<ArrayBuffer>>>;
  try {
    parts = unzipSync(new Uint8Array(await file.arrayBuffer()), {
      filter: ({ name, originalSize }) =>
        name === HERD ? originalSize <= MOST_TEXT : PHOTO.test(name) && originalSize <= MOST_PHOTO,
    });
  } catch {
    return err("packed-damaged");
  }
  const herd = parts[HERD];
  if (herd === undefined) return err("packed-strange");
  const photos = Object.entries(parts).flatMap(([name, bytes]): readonly KeptPhoto[] => {
    const id = PHOTO.exec(name)?.[1];
    return id === undefined || JPEG.some((byte, at) => bytes[at] !== byte) ? [] : [{ id, bytes }];
  });
  return ok({ text: strFromU8(herd), photos });
}

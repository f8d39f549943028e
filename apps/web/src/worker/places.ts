import { type AnimalRef, animalRef } from "@pollard/advice";
import { type Day, ok, type Result } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import { type Entry, type Herd, isTooNew, type StoredEntry, type StoreFailure, timeOf } from "@pollard/records";
import { instantMs, instantOf } from "../adapters/clock.ts";
import type { HerdDatabase } from "../adapters/database/herd-database.ts";
import { type BackupMark, type HubMark, idbMarks, type RefusedPhotoMark } from "../adapters/database/idb-marks.ts";
import { idbPhotos } from "../adapters/database/idb-photos.ts";
import { handedOver } from "./handed-over.ts";

/** How much is kept in one place. */
export interface Held {
  readonly entries: number;
  readonly photos: number;
}

/** What is kept where. */
export interface Places {
  readonly here: Held;
  readonly onHub: Held;
  /** `undefined` before the first backup. */
  readonly inBackup: (Held & { readonly on: Day; readonly time: string }) | undefined;
  /** What is neither on the hub nor in the backup. */
  readonly alone: Held;
  /** The same by the goat it speaks of first, the one with most first; what speaks of none, last. */
  readonly aloneOf: readonly (Held & { readonly goat: AnimalRef | undefined })[];
  /** For how many whole days the oldest of it has been here alone. */
  readonly aloneDays: number;
  /** Pictures that the hub would not take, of which goat, and why. */
  readonly refusedPhotos: readonly { readonly goat: AnimalRef | undefined; readonly reason: string }[];
}

/** Everything that says what is kept where. */
export interface Whereabouts {
  readonly stored: readonly StoredEntry[];
  readonly herd: Herd;
  readonly hub: Pick<HubMark, "marks" | "refused">;
  readonly backup: BackupMark | undefined;
  /** Names of the pictures that are here. */
  readonly photos: readonly string[];
  readonly photosOnHub: readonly string[];
  readonly refusedPhotos: readonly RefusedPhotoMark[];
  /** Milliseconds since the Unix epoch. */
  readonly now: number;
}

const DAY_MS = 86_400_000;

/**
 * What is kept where, and what is nowhere but on this phone: a lost phone would take it along.
 *
 * A backup holds what was here when it was made, and the ledger only grows: the first so many entries are in it.
 *
 * Cost: one walk over the entries.
 */
export function placesOf({ stored, herd, hub, backup, photos, photosOnHub, refusedPhotos, now }: Whereabouts): Places {
  const onHub = handedOver(hub);
  const [hubPhotos, backupPhotos] = [new Set(photosOnHub), new Set(backup?.photos)];
  const photosAlone = new Set(photos.filter((name) => !hubPhotos.has(name) && !backupPhotos.has(name)));
  const inBackup = backup?.entries ?? 0;
  const alone = stored.filter((each, at) => at >= inBackup && !onHub(each));
  const pictures = stored.flatMap(({ entry }) => pictureIn(entry));
  const goats = goatsOf(herd);
  const counted = new Map<AnimalId | undefined, { entries: number; photos: number }>();
  const count = (goat: AnimalId | undefined, what: "entries" | "photos"): void => {
    const held = counted.get(goat) ?? { entries: 0, photos: 0 };
    held[what] += 1;
    counted.set(goat, held);
  };
  for (const { entry } of alone) count(goats(entry.id), "entries");
  for (const name of photosAlone) count(pictures.find(({ photo }) => photo === name)?.animal, "photos");
  const written = alone.flatMap(({ entry }) => (isTooNew(entry) ? [] : [instantOf(timeOf(entry.at))]));
  const refOf = (goat: AnimalId | undefined): AnimalRef | undefined =>
    goat === undefined ? goat : animalRef(herd, goat);
  return {
    here: { entries: stored.length, photos: photos.length },
    onHub: { entries: stored.filter(onHub).length, photos: hubPhotos.size },
    inBackup: backup && { entries: inBackup, photos: backupPhotos.size, on: backup.on, time: backup.time },
    alone: { entries: alone.length, photos: photosAlone.size },
    aloneOf: [...counted].map(([goat, held]) => ({ ...held, goat: refOf(goat) })).toSorted((a, b) => rank(b) - rank(a)),
    aloneDays: written.length === 0 ? 0 : Math.max(0, Math.floor((now - Math.min(...written)) / DAY_MS)),
    refusedPhotos: refusedPhotos.map(({ photo, code }) => ({
      goat: refOf(pictures.find((picture) => picture.photo === photo)?.animal),
      reason: code,
    })),
  };
}

const rank = ({ goat, entries, photos }: Places["aloneOf"][number]): number =>
  goat === undefined ? -1 : entries + photos;

/** The picture that an entry names, with its goat. */
const pictureIn = (entry: StoredEntry["entry"]): readonly { readonly photo: string; readonly animal: AnimalId }[] =>
  !isTooNew(entry) && entry.kind === "photo" ? [entry.body] : [];

/** Of which goat an entry speaks first, where its history says so. */
function goatsOf(herd: Herd): (entry: Entry["id"]) => AnimalId | undefined {
  const lines = new Map(herd.history.map((line) => [line.entry, line.animals[0]]));
  return (entry) => lines.get(entry);
}

/** The same, of one herd's database. */
export async function placesIn(
  db: HerdDatabase,
  stored: readonly StoredEntry[],
  herd: Herd,
): Promise<Result<Places, StoreFailure>> {
  const marks = idbMarks(db);
  const [backup, hub, photosOnHub, refused, photos] = [
    await marks.backup(),
    await marks.hub(),
    await marks.photos(),
    await marks.refusedPhotos(),
    await idbPhotos(db).names(),
  ];
  if (!backup.ok) return backup;
  if (!hub.ok) return hub;
  if (!photosOnHub.ok) return photosOnHub;
  if (!refused.ok) return refused;
  if (!photos.ok) return photos;
  return ok(
    placesOf({
      stored,
      herd,
      hub: hub.value,
      backup: backup.value,
      photos: photos.value,
      photosOnHub: photosOnHub.value.onHub,
      refusedPhotos: refused.value,
      now: instantMs(),
    }),
  );
}

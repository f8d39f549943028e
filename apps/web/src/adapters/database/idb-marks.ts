import { type Day, ok, type Result } from "@pollard/base";
import { type EntryId, type ExchangeMarks, NO_MARKS, type StoreFailure } from "@pollard/records";
import { newId } from "../new-id.ts";
import type { HerdDatabase } from "./herd-database.ts";
import type { VisitOfDay } from "../hub/visit-peer.ts";

/** When a backup of this copy was last made, and how many entries it held. */
export interface BackupMark {
  readonly on: Day;
  readonly time: string;
  readonly entries: number;
  /** The pictures that it held; nothing said where the backup was made before they were counted. */
  readonly photos?: readonly string[];
}

/** What is known of the pictures on the hub. */
export interface PhotoMark {
  /** Which copy of the hub's, under which token, all this speaks of. */
  readonly of: string;
  readonly onHub: readonly string[];
}

/** How far the exchange with the hub has come, and when it last answered (local day and time). */
export interface HubMark {
  readonly marks: ExchangeMarks;
  readonly answered: string | undefined;
  /** How far this phone's clock was ahead of the hub's when it last answered, seconds. */
  readonly aheadSeconds?: number | undefined;
  /** What the hub would not take, oldest first. */
  readonly refused: readonly RefusedMark[];
  /** The token that all this speaks of: under another one everything is handed over anew. */
  readonly token?: string | undefined;
}

/** An entry of this phone that the hub would not take, and why. */
export interface RefusedMark {
  readonly entry: EntryId;
  readonly code: string;
  /** Of what kind it was, where the reason says so. */
  readonly kind?: string;
}

/** A picture of this phone that the hub would not take, and why. */
export interface RefusedPhotoMark {
  readonly photo: string;
  readonly code: string;
}

/** Whom a vet's list held when it was last printed from here (local day and time). */
export interface PrintedMark {
  readonly at: string;
  readonly kids: readonly string[];
}

const NO_PHOTOS: PhotoMark = { of: "", onHub: [] };
const NO_HUB: HubMark = { marks: NO_MARKS, answered: undefined, refused: [] };

/** Small facts about this phone's copy of a herd. */
export interface Marks {
  backup(): Promise<Result<BackupMark | undefined, StoreFailure>>;
  setBackup(mark: BackupMark): Promise<Result<void, StoreFailure>>;
  hub(): Promise<Result<HubMark, StoreFailure>>;
  setHub(mark: HubMark): Promise<Result<void, StoreFailure>>;
  /** The pictures that the hub would not take when they were last offered. */
  refusedPhotos(): Promise<Result<readonly RefusedPhotoMark[], StoreFailure>>;
  setRefusedPhotos(refused: readonly RefusedPhotoMark[]): Promise<Result<void, StoreFailure>>;
  photos(): Promise<Result<PhotoMark, StoreFailure>>;
  setPhotos(mark: PhotoMark): Promise<Result<void, StoreFailure>>;
  /** What was last printed of the vet's list for a day. */
  printed(day: Day): Promise<Result<PrintedMark | undefined, StoreFailure>>;
  setPrinted(day: Day, mark: PrintedMark): Promise<Result<void, StoreFailure>>;
  /** The lists that a vet's phone was shown last. */
  visits(): Promise<Result<readonly VisitOfDay[], StoreFailure>>;
  setVisits(visits: readonly VisitOfDay[]): Promise<Result<void, StoreFailure>>;
  /** The name of this copy; made at the first asking, so that an erased and refilled copy has another. */
  copyName(): Promise<Result<string, StoreFailure>>;
}

export function idbMarks(db: HerdDatabase): Marks {
  const get = async <T>(key: string): Promise<Result<T | undefined, StoreFailure>> => {
    const found = await db.run(["marks"], "readonly", (t) => t.objectStore("marks").get(key));
    return found.ok ? ok(found.value as T | undefined) : found;
  };
  const put = (key: string, value: unknown): Promise<Result<void, StoreFailure>> =>
    db.run(["marks"], "readwrite", async (t) => {
      await t.objectStore("marks").put(value, key);
    });
  return {
    backup: () => get<BackupMark>("backup"),
    setBackup: (mark) => put("backup", mark),
    async hub() {
      const found = await get<HubMark>("hub");
      if (!found.ok) return found;
      const mark = found.value ?? NO_HUB;
      // Before the reasons were kept, how many there were was.
      return ok(Array.isArray(mark.refused) ? mark : { ...mark, refused: [] });
    },
    setHub: (mark) => put("hub", mark),
    async refusedPhotos() {
      const found = await get<readonly RefusedPhotoMark[]>("refused-photos");
      return found.ok ? ok(found.value ?? []) : found;
    },
    setRefusedPhotos: (refused) => put("refused-photos", refused),
    async photos() {
      const found = await get<PhotoMark>("photos");
      return found.ok ? ok(found.value ?? NO_PHOTOS) : found;
    },
    setPhotos: (mark) => put("photos", mark),
    printed: (day) => get<PrintedMark>(`printed ${day}`),
    setPrinted: (day, mark) => put(`printed ${day}`, mark),
    async visits() {
      const found = await get<readonly VisitOfDay[]>("visits");
      return found.ok ? ok(found.value ?? []) : found;
    },
    setVisits: (visits) => put("visits", visits),
    copyName: () =>
      db.run(["marks"], "readwrite", async (t) => {
        const store = t.objectStore("marks");
        const known = (await store.get("copy")) as string | undefined;
        const name = known ?? newId();
        if (known === undefined) await store.put(name, "copy");
        return name;
      }),
  };
}

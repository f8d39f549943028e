import { ok, type Result } from "@pollard/base";
import { DRIFT_LIMIT_SECONDS, type EntryId, type StoredEntry, type StoreFailure } from "@pollard/records";
import type { HerdDatabase } from "../adapters/database/herd-database.ts";
import { type BackupMark, idbMarks, type RefusedMark } from "../adapters/database/idb-marks.ts";
import { handedOver } from "./handed-over.ts";

/** How safe the herd is: where its entries are, and which are nowhere else. */
export interface Safety {
  readonly entries: number;
  readonly backup: BackupMark | undefined;
  /** Local day and time at which the hub last answered; `undefined` if it never did. */
  readonly hubAnswered: string | undefined;
  readonly hubRefused: readonly RefusedMark[];
  /** Entries that the hub is not known to have. */
  readonly onlyHere: readonly EntryId[];
  /** How far this phone's clock is ahead of the hub's, seconds, where that is more than clocks may differ. */
  readonly ownClock: number | undefined;
  /** Who wrote with a clock that is far ahead of this one; not told where this one is known to be wrong. */
  readonly drift: string | undefined;
}

/** How safe one herd is; `drift` is who wrote with a clock far ahead of this one. */
export async function safetyIn(
  db: HerdDatabase,
  stored: readonly StoredEntry[],
  drift: string | undefined,
): Promise<Result<Safety, StoreFailure>> {
  const marks = idbMarks(db);
  const [backup, hub] = [await marks.backup(), await marks.hub()];
  if (!backup.ok) return backup;
  if (!hub.ok) return hub;
  const onHub = handedOver(hub.value);
  const { aheadSeconds = 0 } = hub.value;
  const ownClock = Math.abs(aheadSeconds) > DRIFT_LIMIT_SECONDS ? aheadSeconds : undefined;
  return ok({
    entries: stored.length,
    backup: backup.value,
    hubAnswered: hub.value.answered,
    hubRefused: hub.value.refused,
    onlyHere: stored.filter((each) => !onHub(each)).map(({ entry }) => entry.id),
    ownClock,
    drift: ownClock === undefined ? drift : undefined,
  });
}

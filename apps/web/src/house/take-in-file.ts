import { type Day, daysFrom, err, ok, type Result } from "@pollard/base";
import {
  type Entry,
  type FileProblem,
  type HerdId,
  isTooNew,
  movedDays,
  readHerdFile,
  type StoreFailure,
  type TooNewEntry,
} from "@pollard/records";
import type { Device, KeptHerd } from "../adapters/device.ts";
import { herdDatabase } from "../adapters/database/herd-database.ts";
import { herdNameIn } from "../adapters/herd-name.ts";
import { idbEntries } from "../adapters/database/idb-entries.ts";

/** What came of a herd file that was brought in. */
export interface TakenIn {
  readonly herd: KeptHerd;
  readonly added: number;
  readonly known: number;
  readonly problems: readonly FileProblem[];
}

/** Why nothing was brought in. */
export type FileRefusal = { readonly code: "no-entries"; readonly problems: readonly FileProblem[] } | StoreFailure;

/**
 * Brings a herd file in: its entries are added to the copy of that herd on this phone, which is made if there is none.
 * Bringing the same file in twice changes nothing. A file that demonstrates something (it has an `asOf`) is moved so
 * that its day is today.
 */
export async function takeInFile(
  text: string,
  device: Device,
  today: Day,
  unnamed: string,
): Promise<Result<TakenIn, FileRefusal>> {
  const file = readHerdFile(text);
  const herd = file.header?.herd ?? mostSpokenOf(file.entries);
  if (herd === undefined || file.entries.length === 0) return err({ code: "no-entries", problems: file.problems });
  const { asOf } = file.header ?? {};
  const entries = asOf === undefined ? file.entries : movedDays(file.entries, daysFrom(asOf, today));
  const db = herdDatabase(herd);
  const kept = await idbEntries(db).append(entries);
  await db.close();
  if (!kept.ok) return kept;
  const known = (await device.herds()).find((each) => each.id === herd);
  const named = known ?? { id: herd, name: herdNameIn(entries) ?? unnamed, sort: asOf === undefined ? "own" : "demo" };
  if (known === undefined) await device.keepHerd(named);
  const added = kept.value.added.length;
  return ok({ herd: named, added, known: entries.length - added, problems: file.problems });
}

/** The herd that most entries are of. */
function mostSpokenOf(entries: readonly (Entry | TooNewEntry)[]): HerdId | undefined {
  const counts = new Map<HerdId, number>();
  for (const entry of entries) if (!isTooNew(entry)) counts.set(entry.herd, (counts.get(entry.herd) ?? 0) + 1);
  return [...counts].toSorted((a, b) => b[1] - a[1])[0]?.[0];
}

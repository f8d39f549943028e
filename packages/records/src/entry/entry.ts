import type { Correction, Fact } from "./entry-kinds.ts";
import type { DeviceId, EntryId, HerdId, Stamp } from "./ids.ts";

/** The version of entries that this program writes and fully understands. */
export const ENTRY_VERSION = 1;

/** What every entry carries, whatever its kind. */
export interface Envelope {
  readonly v: typeof ENTRY_VERSION;
  readonly id: EntryId;
  readonly herd: HerdId;
  /** Who saw it, by the name they chose. */
  readonly by: string;
  readonly at: Stamp;
  readonly device: DeviceId;
}

/**
 * One thing that happened, as it was written down. Never edited, never deleted: a mistake is met by `replace` or `strike`.
 *
 * `on` is the person's claim of when it happened (local day, or local day and time); `at` is when it was written.
 */
export type Entry = Envelope & (Fact | Correction);

/** An entry that a later version of the program wrote. Kept and passed on as it came, never interpreted here. */
export interface TooNewEntry {
  readonly id: EntryId;
  readonly tooNew: unknown;
}

/** Was it written by a later version of the program, and so is only kept and passed on? */
export const isTooNew = (entry: Entry | TooNewEntry): entry is TooNewEntry => !("kind" in entry);

/** The JSON an entry is stored, sent and backed up as: itself, with every field it came with. */
export const entryJson = (entry: Entry | TooNewEntry): unknown => (isTooNew(entry) ? entry.tooNew : entry);

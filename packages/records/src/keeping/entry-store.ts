import type { Result } from "@pollard/base";
import type { Entry, TooNewEntry } from "../entry/entry.ts";
import type { EntryId } from "../entry/ids.ts";

/** Why a store could not do what was asked. The cause is for the log, never for the keeper. */
export type StoreFailure = { readonly code: "full" } | { readonly code: "unavailable"; readonly cause: unknown };

/** A place in a store's own order of arrival, a whole number; ask for what came after it. `0` is before everything. */
export type Cursor = number;

/**
 * A place of a store, with the notch that was put there when the place was given. The notch is chance: a store that was put back
 * from an older copy and grew on has other notches from there on, though its places and even its entries may be the same. Who
 * finds a notch again therefore finds all that came before it as well.
 */
export interface Landmark {
  readonly place: Cursor;
  readonly notch: string;
}

/** An entry as a store keeps it, with its place, and its notch where the store puts any. */
export interface StoredEntry {
  readonly seq: Cursor;
  readonly entry: Entry | TooNewEntry;
  readonly notch?: string;
}

/** Which of the entries were not there before, in their order; and how far the furthest of all of them lies, where there are notches. */
export interface Appended {
  readonly added: readonly EntryId[];
  readonly furthest?: Landmark;
}

/** Where the ledger is kept. Every adapter passes `entryStoreContract`; nothing else defines what a store is. */
export interface EntryStore {
  /**
   * Keeps the entries, all or none. Settles only when they are on disk. An entry whose id is there already is left as
   * it was (rule ES-2), so sending twice is safe. `added` names those that were not there before, in their order.
   */
  append(entries: readonly (Entry | TooNewEntry)[]): Promise<Result<Appended, StoreFailure>>;
  /** The entries that came after `after`, oldest first, at most `limit`. */
  read(after: Cursor, limit: number): Promise<Result<readonly StoredEntry[], StoreFailure>>;
}

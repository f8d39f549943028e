import type { Result } from "@pollard/base";
import type { CopyName, Cursor, EntryStore, HerdId, StoreFailure } from "@pollard/records";

/** A herd that this hub keeps, without a word about its goats. */
export interface KeptHerd {
  readonly id: HerdId;
  readonly entries: number;
}

/** What the hub needs of a database: a ledger for each herd, and which herds there are. */
export interface Ledgers {
  /**
   * The name of this database, so that nobody goes on counting from a place in another one. If somebody has come to a place
   * beyond any that was given here, this one was put back from an older backup, and takes a new name.
   */
  readonly copyFor: (reached: Cursor) => Promise<Result<CopyName, StoreFailure>>;
  /** The ledger of one herd; a herd nobody has written to yet is an empty one. */
  of(herd: HerdId): EntryStore;
  herds(): Promise<Result<readonly KeptHerd[], StoreFailure>>;
}

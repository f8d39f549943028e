import type { Result } from "@pollard/base";
import type { HerdId, KeptLedger, StoreFailure } from "@pollard/records";

/** A herd that this hub keeps, without a word about its goats. */
export interface KeptHerd {
  readonly id: HerdId;
  readonly entries: number;
}

/** What the hub needs of a database: a ledger for each herd, and which herds there are. */
export interface Ledgers {
  /** The ledger of one herd; a herd nobody has written to yet is an empty one. */
  of(herd: HerdId): KeptLedger;
  herds(): Promise<Result<readonly KeptHerd[], StoreFailure>>;
}

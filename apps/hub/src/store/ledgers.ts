import type { Result } from "@pollard/base";
import type { HerdId, KeptLedger, StoreFailure } from "@pollard/records";

/** A herd that this hub keeps, without a word about its goats. */
export interface KeptHerd {
  readonly id: HerdId;
  readonly entries: number;
}

/** What the hub needs of a database: a ledger for each herd, and which herds there are. */
export interface Ledgers {
  /**
   * The ledger of one herd; a herd nobody has written to yet is an empty one. What is new to it is noted as handed over by
   * this device.
   */
  of(herd: HerdId, device?: string): KeptLedger;
  /** Which of these entries are here, and the device that brought each first; `undefined` where none is noted. */
  bringers(
    herd: HerdId,
    ids: readonly string[],
  ): Promise<Result<ReadonlyMap<string, string | undefined>, StoreFailure>>;
  herds(): Promise<Result<readonly KeptHerd[], StoreFailure>>;
}

import { err, ok, type Result } from "@pollard/base";
import type { Cursor, HerdId, StoreFailure } from "@pollard/records";
import { type DBSchema, type IDBPDatabase, type IDBPTransaction, openDB } from "idb";

/** What one herd's database on this phone holds. */
export interface HerdSchema extends DBSchema {
  /** The ledger, in order of arrival here. `json` is the entry as it is stored everywhere. */
  readonly entries: {
    readonly key: number;
    readonly value: { seq?: Cursor; readonly id: string; readonly json: unknown };
    readonly indexes: { readonly id: string };
  };
  /** Answers given but not finished: one draft per thing they belong to. */
  readonly drafts: { readonly key: string; readonly value: { readonly key: string } };
  /** Small facts about this copy: its name, how far each exchange has come. */
  readonly marks: { readonly key: string; readonly value: unknown };
  /** Pictures, by the name that an entry gives them: bytes of a JPEG. */
  readonly photos: {
    readonly key: string;
    readonly value: { readonly id: string; readonly bytes: Uint8Array<ArrayBuffer> };
  };
}

type StoreName = "entries" | "drafts" | "marks" | "photos";
export type HerdTransaction<M extends IDBTransactionMode> = IDBPTransaction<HerdSchema, StoreName[], M>;

/** One herd's database on this phone: everything that touches it goes through `run`. */
export interface HerdDatabase {
  readonly herd: HerdId;
  /**
   * Does `work` in one transaction, all or none, and settles only when it is on disk.
   *
   * A connection that the phone has dropped (it happens after a spell in the background) is opened again, once.
   */
  run<M extends "readonly" | "readwrite", T>(
    stores: readonly StoreName[],
    mode: M,
    work: (transaction: HerdTransaction<M>) => Promise<T>,
  ): Promise<Result<T, StoreFailure>>;
  close(): Promise<void>;
}

/** 1: entries, drafts, marks. 2: photos. Each step is made on top of what is there. */
const VERSION = 2;
const nameOf = (herd: HerdId): string => `pollard-herd-${herd}`;

/** The database of one herd; made empty where there is none yet. */
export function herdDatabase(herd: HerdId): HerdDatabase {
  let connection: Promise<IDBPDatabase<HerdSchema>> | undefined;

  const drop = (): void => {
    connection = undefined;
  };
  const open = (): Promise<IDBPDatabase<HerdSchema>> => {
    connection ??= openDB<HerdSchema>(nameOf(herd), VERSION, {
      upgrade(db, before) {
        if (before < 2) db.createObjectStore("photos", { keyPath: "id" });
        if (before >= 1) return;
        db.createObjectStore("entries", { keyPath: "seq", autoIncrement: true }).createIndex("id", "id", {
          unique: true,
        });
        db.createObjectStore("drafts", { keyPath: "key" });
        db.createObjectStore("marks");
      },
      blocking(_current, _blocked, event) {
        // A newer version of the app, or erasing, waits for us: let go, and open again when next asked.
        drop();
        (event.target as IDBDatabase).close();
      },
      terminated: drop,
    });
    return connection;
  };

  const attempt = async <M extends "readonly" | "readwrite", T>(
    stores: readonly StoreName[],
    mode: M,
    work: (transaction: HerdTransaction<M>) => Promise<T>,
  ): Promise<T> => {
    const db = await open();
    const transaction = db.transaction([...stores], mode, { durability: "strict" }) as HerdTransaction<M>;
    // The transaction may fail before or after the work does; either way it is awaited once, and its own reason wins.
    const settled = transaction.done.then(
      () => undefined,
      (reason: unknown) => ({ reason }),
    );
    try {
      const value = await work(transaction);
      const failed = await settled;
      if (failed) throw failed.reason;
      return value;
    } catch (cause) {
      abortQuietly(transaction);
      const failed = await settled;
      throw nameOfError(cause) === "AbortError" && failed ? failed.reason : cause;
    }
  };

  return {
    herd,
    async run(stores, mode, work) {
      try {
        return ok(await attempt(stores, mode, work));
      } catch (first) {
        if (isFull(first)) return err({ code: "full" });
        await closeQuietly(connection);
        drop();
        try {
          return ok(await attempt(stores, mode, work));
        } catch (second) {
          return err(isFull(second) ? { code: "full" } : { code: "unavailable", cause: second });
        }
      }
    },
    async close() {
      await closeQuietly(connection);
      drop();
    },
  };
}

/** Removes one herd's database from this phone, with everything in it. */
export async function eraseHerdDatabase(herd: HerdId): Promise<Result<void, StoreFailure>> {
  return new Promise((settle) => {
    const request = indexedDB.deleteDatabase(nameOf(herd));
    request.addEventListener("success", () => settle(ok(undefined)));
    request.addEventListener("error", () => settle(err({ code: "unavailable", cause: request.error })));
  });
}

const nameOfError = (error: unknown): string =>
  error instanceof Error || error instanceof DOMException ? error.name : "";
const isFull = (error: unknown): boolean => nameOfError(error) === "QuotaExceededError";

/** A transaction that is over already cannot be aborted, and need not be. */
function abortQuietly(transaction: { abort(): void }): void {
  try {
    transaction.abort();
  } catch (error) {
    if (nameOfError(error) !== "InvalidStateError") throw error;
  }
}

/** A connection that never opened has nothing to close. */
async function closeQuietly(connection: Promise<IDBPDatabase<HerdSchema>> | undefined): Promise<void> {
  const db = await connection?.catch(() => undefined);
  db?.close();
}

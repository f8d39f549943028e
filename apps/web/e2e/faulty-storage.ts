import type { Page } from "playwright-core";

/** A phone's storage that a test makes fail, as phones' storage does. Nothing of the app is changed: only what the browser lends it. */
export interface FaultyStorage {
  /** Leaves so many bytes; `undefined` leaves as much as there is. What no longer fits fails when it is committed, as when a disk is full. */
  leaveRoom(bytes: number | undefined): Promise<void>;
  /** From now on no database opens, or they open again. */
  opening(state: "fails" | "works"): Promise<void>;
  /** Every open connection is lost without a word, as after a spell in the background. */
  loseConnections(): Promise<void>;
}

interface Faults {
  room: number | undefined;
  opening: "fails" | "works";
  readonly open: Set<IDBDatabase>;
}
type Faulty = typeof globalThis & { faults: Faults };

/** Prepares a page that has not been opened yet. The worker's own connection only reads, and is left as it is. */
export async function faultyStorage(page: Page): Promise<FaultyStorage> {
  await page.addInitScript(() => {
    const faults: Faults = { room: undefined, opening: "works", open: new Set() };
    (globalThis as Faulty).faults = faults;
    const opening = "open" as const;
    const open = IDBFactory.prototype[opening];
    IDBFactory.prototype[opening] = function (...asked) {
      if (faults.opening === "fails") throw new DOMException("the storage does not answer", "UnknownError");
      const request = open.apply(this, asked);
      request.addEventListener("success", () => faults.open.add(request.result));
      return request;
    };
    const sizeOf = (value: unknown): number =>
      JSON.stringify(value, (_, part: unknown) => (part instanceof Uint8Array ? "x".repeat(part.length) : part)).length;
    for (const name of ["put", "add"] as const) {
      const write = IDBObjectStore.prototype[name];
      IDBObjectStore.prototype[name] = function (value: unknown, ...key) {
        const request = write.call(this, value, ...key);
        const size = faults.room === undefined ? 0 : sizeOf(value);
        if (faults.room !== undefined && size <= faults.room) faults.room -= size;
        else if (faults.room !== undefined) {
          const error = new DOMException("the disk is full", "QuotaExceededError");
          Object.defineProperty(this.transaction, "error", { get: () => error });
          this.transaction.abort();
        }
        return request;
      };
    }
  });
  return {
    leaveRoom: (bytes) => page.evaluate((room) => void ((globalThis as Faulty).faults.room = room), bytes),
    opening: (state) => page.evaluate((now) => void ((globalThis as Faulty).faults.opening = now), state),
    loseConnections: () =>
      page.evaluate(() => {
        for (const db of (globalThis as Faulty).faults.open) db.close();
      }),
  };
}

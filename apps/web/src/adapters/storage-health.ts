/** How safely this browser keeps what it was given. */
export interface StorageHealth {
  /** `kept`: only a person can remove it. `may-go`: the browser may drop all of it when the disk is full. */
  readonly keeping: "kept" | "may-go" | "not-told";
  readonly usedBytes: number | undefined;
  readonly quotaBytes: number | undefined;
}

/** Looks, without asking for anything. */
export async function storageHealth(storage: StorageManager | undefined): Promise<StorageHealth> {
  const persisted = await storage?.persisted?.();
  const estimate = await storage?.estimate?.();
  return {
    keeping: persisted === undefined ? "not-told" : persisted ? "kept" : "may-go",
    usedBytes: estimate?.usage,
    quotaBytes: estimate?.quota,
  };
}

/** Asks the browser to keep the herd for good. To be called from a tap. */
export async function askToKeep(storage: StorageManager | undefined): Promise<StorageHealth["keeping"]> {
  const granted = await storage?.persist?.();
  return granted === undefined ? "not-told" : granted ? "kept" : "may-go";
}

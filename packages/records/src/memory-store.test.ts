import { entryStoreContract } from "./entry-store.contract.ts";
import { memoryStore } from "./memory-store.ts";

entryStoreContract("memory", async () => ({ store: memoryStore() }));

import { entryStoreContract } from "./entry-store.contract.ts";
import { memoryStore } from "./memory-store.ts";

entryStoreContract("memory", async () => {
  const store = memoryStore();
  return { store, reopen: async () => store };
});

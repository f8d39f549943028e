// Builders
export { anEntry, aReplacement, aStrike, type Over, stampOf } from "./entry-builders.ts";
// What every store must do, and the smallest one
export { entryStoreContract, type StoreUnderTest } from "./entry-store.contract.ts";
export { memoryStore } from "./memory-store.ts";

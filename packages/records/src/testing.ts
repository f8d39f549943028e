// Builders
export { anEntry, aReplacement, aStrike, type Over, stampOf } from "./entry/entry-builders.ts";
// What every store must do, and the smallest one
export { entryStoreContract, type StoreUnderTest } from "./keeping/entry-store.contract.ts";
export { memoryStore } from "./keeping/memory-store.ts";
// The other side of an exchange
export { storePeer } from "./exchange/store-peer.ts";

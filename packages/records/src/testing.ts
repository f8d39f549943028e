// Builders
export { anEntry, aReplacement, aStrike, type Over, stampOf } from "./entry-builders.ts";

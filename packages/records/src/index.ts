// Entries
export { type Entry, ENTRY_VERSION, type Envelope, entryJson, isTooNew, type TooNewEntry } from "./entry.ts";
export {
  type BodyOf,
  CARE_ANSWERS,
  type CareAnswer,
  type Correction,
  type Fact,
  FACT_KINDS,
  type FactKind,
  GROWN_HEADS,
  type GrownHead,
  KID_CHOICES,
  type KidChoice,
  PHOTO_SUBJECTS,
  type PhotoSubject,
  PREGNANCY_CHECKS,
  PREGNANCY_FINDINGS,
  type PregnancyCheckWay,
  type PregnancyFinding,
  SERVICE_WAYS,
  type ServiceWay,
  type Sex,
  SEXES,
} from "./entry-kinds.ts";
export type { DeviceId, EntryId, HerdId, Stamp } from "./ids.ts";
export { parseEntry } from "./parse.ts";
export type { ParseProblem, Shown } from "./parse-problem.ts";
// The herd they tell
export { fold, type Folded, type Ledger, openLedger } from "./fold/ledger.ts";
export type * from "./herd.ts";
// Writing them down
export { entryId, ID_BYTES } from "./entry-id.ts";
export { type ClockDrift, DRIFT_LIMIT_SECONDS, nextStamp, receiveStamp, timeOf } from "./stamp.ts";
// Where they are kept
export {
  type FileLook,
  type FileProblem,
  HERD_FILE_VERSION,
  type HerdFile,
  type HerdFileHeader,
  readHerdFile,
  type Seal,
  writeHerdFile,
} from "./herd-file.ts";
export type { Cursor, EntryStore, StoredEntry, StoreFailure } from "./entry-store.ts";
// Handing them on
export * from "./exchange/exchange.ts";
export { type AskedFailure, givePull, type KeptLedger, takePush } from "./exchange/kept-ledger.ts";
export {
  type ExchangeFailure,
  exchangeOnce,
  type ExchangeReport,
  type ExchangeSides,
  type RefusedEntry,
} from "./exchange/exchange-once.ts";
// Herds that demonstrate
export { movedDays } from "./moved-days.ts";

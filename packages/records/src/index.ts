// Entries
export { type Entry, ENTRY_VERSION, type Envelope, entryJson, isTooNew, type TooNewEntry } from "./entry.ts";
export {
  type BodyOf,
  type Correction,
  type Fact,
  FACT_KINDS,
  type FactKind,
  GROWN_HEADS,
  type GrownHead,
  KID_CHOICES,
  type KidChoice,
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
export type {
  Animal,
  Herd,
  HerdProblem,
  HistoryLine,
  Kidding,
  Provenance,
  Service,
  VetDay,
} from "./herd.ts";
// Where they are kept
export type { Cursor, EntryStore, StoredEntry, StoreFailure } from "./entry-store.ts";
// Handing them on
export {
  BATCH_LIMIT,
  type CopyName,
  type CopyOf,
  EXCHANGE_VERSION,
  type ExchangeMarks,
  type ExchangePeer,
  type ExchangeRefusal,
  NO_MARKS,
  type PeerFailure,
  type PullReply,
  type PushReply,
  type PushRequest,
  type Refusal,
  type Verdict,
} from "./exchange/exchange.ts";
// Herds that demonstrate
export { movedDays } from "./moved-days.ts";

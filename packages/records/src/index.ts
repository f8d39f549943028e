/* Long because three matters meet here: what is kept, how it is handed on, and what spreadsheets are told and tell. */
// Entries
export { type Entry, entryJson, type Envelope, isTooNew, type TooNewEntry } from "./entry/entry.ts";
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
  HEAVIEST_KG,
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
  canBe,
} from "./entry/entry-kinds.ts";
export type { DeviceId, EntryId, HerdId, Stamp } from "./entry/ids.ts";
export { HERD_ENTRY_SCHEMA } from "./entry/herd-schema.ts";
export { parseEntry } from "./entry/parse.ts";
export type { ParseProblem, Shown } from "./entry/parse-problem.ts";
// The herd they tell
export { bornTogether, kiddingOf, kiddingsOf, servicesOf } from "./births-and-services.ts";
export { fold, type Folded, type Ledger, openLedger } from "./fold/ledger.ts";
export type * from "./herd.ts";
export {
  putTogether,
  type SameAnswer,
  sameKey,
  type SameNewborn,
  sameNewborns,
  withSameAnimals,
} from "./same-animals.ts";
export {
  canHaveKidded,
  hasKidded,
  KIDDED_TRAIT,
  kiddedFact,
  saidToHaveKidded,
  saysKidded,
  YOUNGEST_DAM_DAYS,
} from "./kidded.ts";
// Writing them down
export { entryId, ID_BYTES } from "./entry/entry-id.ts";
export { type ClockDrift, DRIFT_LIMIT_SECONDS, nextStamp, receiveStamp, timeOf } from "./entry/stamp.ts";
export { stampToFollow } from "./entry/stamp-to-follow.ts";
// Where they are kept
export { readHerdFile, writeHerdFile } from "./keeping/herd-file.ts";
export type * from "./keeping/herd-file.ts";
export type { Appended, Cursor, EntryStore, Landmark, StoredEntry, StoreFailure } from "./keeping/entry-store.ts";
// Handing them on
export * from "./exchange/exchange.ts";
export * from "./exchange/photo.ts";
export * from "./exchange/photo-exchange.ts";
export { seenCopyIn } from "./exchange/exchange-replies.ts";
export { type AskedFailure, givePull, type KeptLedger, takePush } from "./exchange/kept-ledger.ts";
export {
  type ExchangeFailure,
  exchangeOnce,
  type ExchangeReport,
  type ExchangeSides,
  type RefusedEntry,
} from "./exchange/exchange-once.ts";
// Herds that demonstrate
export { movedDays } from "./entry/moved-days.ts";
// Lists and tables of spreadsheets
export { chipNumber, type ChipProblem } from "./table/chip.ts";
export { type CsvRow, csvRows } from "./table/csv-rows.ts";
export { csvText, type Formulas } from "./table/csv-text.ts";
export { type HerdTable, herdTables } from "./table/herd-tables.ts";
export { type GoatList, goatList, type ListProblem } from "./table/list.ts";
export { type ColumnMap, guessedColumns, LIST_COLUMNS, type ListColumn } from "./table/list-columns.ts";
export { DAY_ORDERS, type DayOrder, type DayOrderSeen } from "./table/list-days.ts";
export type { Difference } from "./table/list-facts.ts";
export { PARENT_CHOICES, type ParentChoice } from "./table/list-parents.ts";
export {
  type IntoHerd,
  listFacts,
  type ListPlan,
  listPlan,
  type ListWishes,
  type PlannedRow,
} from "./table/list-plan.ts";
export type { ListedGoat, RowProblem } from "./table/list-row.ts";
export { entryIdMadeOf, nameMadeOf } from "./table/made-names.ts";

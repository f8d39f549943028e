import { LATER_LEDGER_STEPS, LEDGER_STEPS, type LedgerTables } from "./ledger-tables.ts";
import { ACCESS_STEPS, type AccessTables } from "../access/access-tables.ts";
import { PAPER_STEPS, type PaperTables } from "../access/paper-tables.ts";
import { LATER_PHOTO_STEPS, PHOTO_STEPS, type PhotoTables } from "../photos/photo-tables.ts";
import type { Migration } from "./migration.ts";

/** Every table of the hub as its queries see it; each matter describes its own beside its steps. */
export type HubTables = LedgerTables & AccessTables & PaperTables & PhotoTables;

/** Every step from an empty database to those tables, oldest first. A new one goes to the end. */
export const MIGRATIONS: readonly Migration[] = [
  ...LEDGER_STEPS,
  ...ACCESS_STEPS,
  ...PAPER_STEPS,
  ...PHOTO_STEPS,
  ...LATER_LEDGER_STEPS,
  ...LATER_PHOTO_STEPS,
];

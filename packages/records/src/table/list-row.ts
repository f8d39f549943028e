import { type Day, err, ok, type Result } from "@pollard/base";
import type { GrownHead, Sex } from "../entry/entry-kinds.ts";
import { chipNumber, type ChipProblem, ROUNDED } from "./chip.ts";
import type { CsvRow } from "./csv-rows.ts";
import type { GoatList } from "./list.ts";
import type { ColumnMap, ListColumn } from "./list-columns.ts";
import { type DayOrder, dayIn } from "./list-days.ts";
import { headIn, isUnknown, kiddedIn, sexIn, type Why, whyIn } from "./list-words.ts";

/** What is wrong with one row; nothing of it is brought in. `got` is the cell, cut to what can be shown. */
export type RowProblem =
  | { readonly code: "nameless" | "no-sex" | "left-without-day" | "left-before-born" | "own-parent" }
  | { readonly code: "kidded-no-doe" | "kidded-too-young" }
  | { readonly code: "more-cells"; readonly cells: number; readonly headings: number }
  | {
      readonly code:
        | "not-a-sex"
        | "not-a-head"
        | "head-open"
        | "not-kidded"
        | "not-a-why"
        | "too-long"
        | "number-rounded";
      readonly column: ListColumn;
      readonly got: string;
    }
  | {
      readonly code: "not-a-day" | "day-either" | "day-is-a-number" | "day-is-a-year" | "day-not-set" | "day-to-come";
      readonly column: "born" | "left";
      readonly got: string;
    }
  | { readonly code: "not-a-chip"; readonly why: ChipProblem; readonly got: string }
  | { readonly code: "several-goats"; readonly column: "name" | "tag" | "chip" | "dam" | "sire"; readonly got: string }
  | { readonly code: "tag-of-another"; readonly got: string; readonly name: string }
  | {
      readonly code: "not-a-parent" | "parent-younger" | "parent-loop";
      readonly column: "dam" | "sire";
      readonly got: string;
    }
  | { readonly code: "twice"; readonly first: number };

/** A row as it was read, before anybody has looked whom of the herd it means. `undefined` = the cell is empty. */
export interface ListedGoat {
  readonly line: number;
  readonly id: string | undefined;
  readonly name: string | undefined;
  readonly tag: string | undefined;
  readonly chip: string | undefined;
  readonly sex: Sex | undefined;
  readonly born: Day | undefined;
  readonly breed: string | undefined;
  readonly dam: string | undefined;
  readonly sire: string | undefined;
  readonly head: GrownHead | undefined;
  /** Of a doe: whether she has kidded. */
  readonly kidded: "yes" | "no" | undefined;
  readonly note: string | undefined;
  readonly left: { readonly on: Day; readonly why: Why } | undefined;
}

/** Longest name, tag, breed or parent, and longest note, as entries have them. */
const NAME_LIMIT = 80;
const NOTE_LIMIT = 4000;
/** What is wrong with a cell that should be a day, by what it was read as. */
const DAY_PROBLEMS = {
  day: "day-to-come",
  either: "day-either",
  number: "day-is-a-number",
  year: "day-is-a-year",
  "no-day-set": "day-not-set",
  none: "not-a-day",
} as const;
/** How much of a cell is shown. */
const SHOWN = 40;

const shown = (cell: string): string => (cell.length > SHOWN ? `${cell.slice(0, SHOWN)}…` : cell);

/**
 * What one row says, by what its columns hold.
 *
 * Errors: everything that is wrong with it, so that it can be mended in one go.
 */
export function listedGoat(
  row: CsvRow,
  list: Pick<GoatList, "headings">,
  columns: ColumnMap,
  days: DayOrder | undefined,
  today: Day,
): Result<ListedGoat, readonly RowProblem[]> {
  const problems: RowProblem[] = [];
  const cellOf = (column: ListColumn): string => {
    const at = columns.indexOf(column);
    return at < 0 ? "" : (row.cells[at] ?? "");
  };
  const text = (column: ListColumn, limit = NAME_LIMIT): string | undefined => {
    const cell = cellOf(column);
    if (cell.length > limit) problems.push({ code: "too-long", column, got: shown(cell) });
    return cell === "" ? undefined : cell;
  };
  const dayOf = (column: "born" | "left"): Day | undefined => {
    const cell = cellOf(column);
    if (cell === "") return undefined;
    const read = dayIn(cell, days, today);
    if (read.read === "day" && read.day <= today) return read.day;
    problems.push({ code: DAY_PROBLEMS[read.read], column, got: shown(cell) });
    return undefined;
  };
  const worded = <T>(
    column: "sex" | "head" | "kidded" | "why",
    code: "not-a-sex" | "not-a-head" | "not-kidded" | "not-a-why",
    read: (cell: string) => T | undefined,
  ): T | undefined => {
    const cell = cellOf(column);
    const value = cell === "" ? undefined : read(cell);
    if (cell !== "" && value === undefined) problems.push({ code, column, got: shown(cell) });
    return value;
  };

  const spare = row.cells.slice(list.headings.length).filter((cell) => cell !== "").length;
  if (spare > 0) problems.push({ code: "more-cells", cells: row.cells.length, headings: list.headings.length });
  const tag = text("tag");
  if (tag !== undefined && ROUNDED.test(tag)) problems.push({ code: "number-rounded", column: "tag", got: tag });
  const chip = chipIn(text("chip"), problems);
  const name = text("name");
  const id = text("id");
  if ([name, tag, chip, id].every((word) => word === undefined)) problems.push({ code: "nameless" });
  const born = dayOf("born");
  const heading = list.headings[columns.indexOf("head")] ?? "";
  const head = worded("head", "not-a-head", (cell) => headIn(cell, heading));
  if (head === "open") problems.push({ code: "head-open", column: "head", got: shown(cellOf("head")) });
  const kidded = worded("kidded", "not-kidded", kiddedIn);
  const parent = (column: "dam" | "sire"): string | undefined => {
    const cell = text(column);
    return cell === undefined || isUnknown(cell) ? undefined : cell;
  };
  const goat: ListedGoat = {
    line: row.line,
    id,
    name,
    tag,
    chip,
    sex: worded("sex", "not-a-sex", sexIn),
    born,
    breed: text("breed"),
    dam: parent("dam"),
    sire: parent("sire"),
    head: head === "open" ? undefined : head,
    kidded: kidded === "unknown" ? undefined : kidded,
    note: text("note", NOTE_LIMIT),
    left: leaving(dayOf("left"), worded("why", "not-a-why", whyIn), born, problems),
  };
  return problems.length === 0 ? ok(goat) : err(problems);
}

function chipIn(cell: string | undefined, problems: RowProblem[]): string | undefined {
  if (cell === undefined) return undefined;
  const chip = chipNumber(cell);
  if (chip.ok) return chip.value;
  problems.push({ code: "not-a-chip", why: chip.error, got: shown(cell) });
  return undefined;
}

/** When and why a goat left. One that was born dead left on the day it was born. */
function leaving(
  on: Day | undefined,
  why: ReturnType<typeof whyIn>,
  born: Day | undefined,
  problems: RowProblem[],
): ListedGoat["left"] {
  if (on !== undefined && born !== undefined && on < born) problems.push({ code: "left-before-born" });
  if (on === undefined && (why === undefined || why === "here")) return undefined;
  const day = on ?? (why === "born-dead" ? born : undefined);
  if (day === undefined) {
    problems.push({ code: "left-without-day" });
    return undefined;
  }
  return { on: day, why: why === "born-dead" ? "died" : why === undefined || why === "here" ? "other" : why };
}

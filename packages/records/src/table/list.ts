import { err, ok, type Result } from "@pollard/base";
import { type BytesProblem, type Encoding, tableText } from "./table-bytes.ts";
import { type CsvProblem, type CsvRow, csvRows, delimiterOf } from "./csv-rows.ts";
import { unguarded } from "./csv-text.ts";

/** A list from a spreadsheet: its headings and its rows, every cell still text. */
export interface GoatList {
  readonly headings: readonly string[];
  readonly rows: readonly CsvRow[];
  /** How its letters were written; said where it is a guess. */
  readonly encoding: Encoding;
}

/** Why a file is no list of goats. */
export type ListProblem =
  | { readonly code: BytesProblem | "no-rows" | "no-columns" }
  | ({ readonly code: "quotes" } & CsvProblem);

/** Most rows of one list. */
export const LIST_ROWS = 20_000;

interface Row {
  readonly line: number;
  readonly cells: readonly string[];
}

/** A farm's name or a date that stands alone above the headings is none of them. */
const belowTitles = (rows: readonly Row[]): readonly Row[] => {
  const headings = rows.findIndex(({ cells }) => cells.filter((cell) => cell !== "").length > 1);
  return headings < 0 ? rows : rows.slice(headings);
};

/**
 * The list in a file's bytes: commas, semicolons or tabs between cells, whichever its headings show. Lines of one cell above
 * the headings are passed over.
 *
 * Errors: bytes that are no text, a quote that does not close, fewer than two columns, no row below the headings.
 */
export function goatList(bytes: Uint8Array): Result<GoatList, ListProblem> {
  const read = tableText(bytes);
  if (!read.ok) return err({ code: read.error });
  const rows = csvRows(read.value.text, delimiterOf(read.value.text));
  if (!rows.ok) return err({ code: "quotes", ...rows.error });
  const plain = rows.value.map(({ line, cells }) => ({ line, cells: cells.map((cell) => unguarded(cell).trim()) }));
  const [head, ...others] = belowTitles(plain);
  const filled = others.filter(({ cells }) => cells.some((cell) => cell !== ""));
  if (head === undefined || filled.length === 0) return err({ code: "no-rows" });
  if (filled.length > LIST_ROWS) return err({ code: "too-large" });
  const headings = head.cells.findLastIndex((cell) => cell !== "") + 1;
  if (headings < 2) return err({ code: "no-columns" });
  return ok({ headings: head.cells.slice(0, headings), rows: filled, encoding: read.value.encoding });
}

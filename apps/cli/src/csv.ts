import { err, ok, type Result } from "@pollard/base";

/** First characters of a cell that spreadsheets may take for a formula. */
const FORMULA = /^[=+\-@\t\r]/;

/**
 * Rows as comma-separated values.
 *
 * With `formulas: "guard"` a cell that a spreadsheet might run as a formula gets an apostrophe in front. That changes the
 * cell, so it is asked for, not the rule.
 *
 * Shape:  lines end in CRLF; cells with a comma, quote or line break are quoted, quotes doubled.
 * Source: [rfc4180] section 2.
 */
export function csvText(rows: readonly (readonly string[])[], formulas: "guard" | "as-is"): string {
  const cell = (text: string): string => {
    const safe = formulas === "guard" && FORMULA.test(text) ? `'${text}` : text;
    return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
  };
  return rows.map((row) => `${row.map(cell).join(",")}\r\n`).join("");
}

/** Why a text is no comma-separated table: the line (from 1) where it goes wrong. */
export interface CsvProblem {
  readonly line: number;
  readonly what: "open-quote" | "after-quote";
}

/**
 * The rows of a comma-separated text: quoted cells may hold commas, quotes and line breaks; lines end in LF or CRLF.
 *
 * Shape:  a byte-order mark and empty lines are passed over; rows keep their own number of cells.
 * Errors: a quote that never closes, or text between a closing quote and the next comma.
 * Source: [rfc4180] section 2.
 */
export function csvRows(
  text: string,
): Result<readonly { readonly line: number; readonly cells: readonly string[] }[], CsvProblem> {
  const rows: { line: number; cells: string[] }[] = [];
  const cellShape = /(?:"((?:[^"]|"")*)"|([^",\r\n][^,\r\n]*)?)(,|\r\n|\n|\r|$)/y;
  let line = 1;
  let begun = 1;
  let cells: string[] = [];
  let at = text.startsWith("\uFEFF") ? 1 : 0;
  while (at <= text.length) {
    cellShape.lastIndex = at;
    const found = cellShape.exec(text);
    if (!found) return err({ line, what: /"(?:[^"]|"")*"/y.test(text.slice(at)) ? "after-quote" : "open-quote" });
    const [whole, quoted, bare = "", end = ""] = found;
    cells.push(quoted === undefined ? bare : quoted.replaceAll('""', '"'));
    if (end !== ",") {
      if (cells.length > 1 || cells[0] !== "" || quoted !== undefined) rows.push({ line: begun, cells });
      cells = [];
    }
    line += whole.match(/\r\n|\n|\r/g)?.length ?? 0;
    if (end !== ",") begun = line;
    at += whole.length;
    if (at === text.length && end !== ",") break;
  }
  return ok(rows);
}

// oxlint-disable-next-line typescript/triple-slash-reference -- a module of types cannot be imported at run time
/// <reference path="./papaparse.d.ts" />

import { err, ok, type Result } from "@pollard/base";
import Papa from "papaparse/papaparse.js";

/** Why a text is no table: the line (from 1) where it goes wrong. */
export interface CsvProblem {
  readonly line: number;
  readonly what: "open-quote" | "after-quote";
}

/** One row of a table, and the line (from 1) on which it begins. */
export interface CsvRow {
  readonly line: number;
  readonly cells: readonly string[];
}

/** What may stand between cells. A spreadsheet whose decimal sign is a comma writes semicolons. */
const DELIMITERS = [",", ";", "\t"] as const;
export type Delimiter = (typeof DELIMITERS)[number];

const MARK = "\uFEFF";

/**
 * The rows of a text with a delimiter between cells: quoted cells may hold delimiters, quotes and line breaks.
 *
 * Every cell stays text. Lines end in LF, CRLF or CR, also mixed.
 *
 * Shape:  a byte-order mark and empty lines are passed over; rows keep their own number of cells.
 * Errors: a quote that never closes, or text between a closing quote and the next delimiter.
 * Source: [rfc4180] section 2.
 */
export function csvRows(text: string, delimiter: Delimiter = ","): Result<readonly CsvRow[], CsvProblem> {
  const plain = withPlainLines(text.startsWith(MARK) ? text.slice(1) : text);
  const rows: CsvRow[] = [];
  let problem: CsvProblem | undefined;
  let line = 1;
  let at = 0;
  const lineAfter = (cursor: number): number => {
    let next = line;
    for (let found = plain.indexOf("\n", at); found >= 0 && found < cursor; found = plain.indexOf("\n", found + 1))
      next++;
    return next;
  };
  Papa.parse<string[]>(plain, {
    delimiter,
    newline: "\n",
    step({ data, errors, meta }, parser) {
      const [fault] = errors.filter(({ type }) => type === "Quotes");
      if (fault) {
        problem = { line, what: fault.code === "InvalidQuotes" ? "after-quote" : "open-quote" };
        parser.abort();
        return;
      }
      if (data.length > 1 || data[0] !== "") rows.push({ line, cells: data });
      line = lineAfter(meta.cursor);
      at = meta.cursor;
    },
  });
  return problem === undefined ? ok(rows) : err(problem);
}

/** The text with every line break outside quotes as LF. */
const withPlainLines = (text: string): string =>
  text.includes("\r")
    ? text.replace(/(?<=^|[,;\t\r\n])"(?:[^"]|"")*"|\r\n?/g, (found) => (found.startsWith('"') ? found : "\n"))
    : text;

/** Lines among which the first of several cells is looked for. */
const TITLE_LINES = 10;

/** The delimiter that makes most cells of a text's first line of several cells; the comma where none does. */
export function delimiterOf(text: string): Delimiter {
  let rest = text;
  for (let looked = 0; looked < TITLE_LINES && rest !== ""; looked++) {
    rest = rest.replace(/^[\uFEFF\r\n]+/, "");
    const line = /^(?:"(?:[^"]|"")*"|[^"\r\n])*/.exec(rest)?.[0] ?? "";
    const cells = (delimiter: Delimiter): number => {
      const row = csvRows(line, delimiter);
      return row.ok ? (row.value[0]?.cells.length ?? 0) : 0;
    };
    const best = DELIMITERS.reduce((most, delimiter) => (cells(delimiter) > cells(most) ? delimiter : most));
    if (cells(best) > 1) return best;
    if (line === "") break;
    rest = rest.slice(line.length);
  }
  return ",";
}

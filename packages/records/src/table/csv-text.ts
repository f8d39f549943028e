/** First characters of a cell that spreadsheets may take for a formula. */
const FORMULA = /^[=+\-@\t\r]/;

/** Whether cells that a spreadsheet might run are changed: `guard` puts an apostrophe in front. */
export type Formulas = "guard" | "as-is";

/**
 * Rows as comma-separated values.
 *
 * With `formulas: "guard"` a cell that a spreadsheet might run as a formula gets an apostrophe in front. That changes the
 * cell, so it is asked for, not the rule.
 *
 * Shape:  lines end in CRLF; cells with a comma, quote or line break are quoted, quotes doubled.
 * Source: [rfc4180] section 2.
 */
export function csvText(rows: readonly (readonly string[])[], formulas: Formulas): string {
  const cell = (text: string): string => {
    const safe = formulas === "guard" && FORMULA.test(text) ? `'${text}` : text;
    return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
  };
  return rows.map((row) => `${row.map(cell).join(",")}\r\n`).join("");
}

/** The cell as it was before `csvText` guarded it. */
export const unguarded = (cell: string): string => (/^'[=+\-@\t\r]/.test(cell) ? cell.slice(1) : cell);

/** A column of a table: its heading, and whether its cells line up at the right (numbers) or left (words). */
export interface Column {
  readonly title: string;
  readonly align?: "right";
  /** Widest it may get; longer cells go on in the next line. */
  readonly most?: number;
}

/** How wide a table may get, in characters. */
const WIDTH = 100;

/**
 * A table for people: aligned columns two spaces apart, long cells wrapped at words, no lines and no colour.
 *
 * Shape: ends with a line break; nothing at all for no rows. A last column without a limit takes the room that is left.
 */
export function table(columns: readonly Column[], rows: readonly (readonly string[])[]): string {
  if (rows.length === 0) return "";
  const natural = columns.map(({ title }, i) => Math.max(title.length, ...rows.map((row) => width(row[i] ?? ""))));
  const limited = natural.map((n, i) => Math.min(n, columns[i]?.most ?? n));
  const before = limited.slice(0, -1).reduce((sum, n) => sum + n + 2, 0);
  const last = limited.length - 1;
  const widths = limited.map((n, i) =>
    i === last ? Math.max(columns[i]?.title.length ?? 0, Math.min(n, Math.max(20, WIDTH - before))) : n,
  );
  const lines = [columns.map(({ title }) => title), ...rows].flatMap((row) => rowLines(columns, widths, row));
  return lines.map((line) => `${line.trimEnd()}\n`).join("");
}

function rowLines(columns: readonly Column[], widths: readonly number[], row: readonly string[]): readonly string[] {
  const cells = widths.map((most, i) => wrapped(row[i] ?? "", most));
  const height = Math.max(...cells.map((cell) => cell.length));
  return Array.from({ length: height }, (_, line) =>
    cells.map((cell, i) => padded(cell[line] ?? "", widths[i] ?? 0, columns[i]?.align)).join("  "),
  );
}

/** A text cut at its words into lines of at most `most` characters; a longer word stands alone. */
export function wrapped(text: string, most: number): readonly string[] {
  const lines: string[] = [];
  for (const word of text.split(/\s+/)) {
    const line = lines.at(-1);
    if (line !== undefined && width(line) + 1 + width(word) <= most) lines[lines.length - 1] = `${line} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/** Characters as a person counts them, for columns that line up with accents and other scripts. */
const width = (text: string): number => Array.from(text).length;

function padded(text: string, to: number, align: "right" | undefined): string {
  const gap = " ".repeat(Math.max(0, to - width(text)));
  return align === "right" ? gap + text : text + gap;
}

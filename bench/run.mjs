import { readdirSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { installIfNeeded } from "../tools/installed.mjs";
import { loadTs } from "../tools/run-ts.mjs";

/**
 * `npm run bench`: every `bench/*.ts`, or those named, and one table of what they measured.
 *
 * A bench exports `bench()`, which gives its lines, or a promise of them.
 * @typedef {{ readonly what: string, readonly value: number, readonly unit: string, readonly note?: string }} Line
 */
const here = dirname(fileURLToPath(import.meta.url));
installIfNeeded(dirname(here));

const wanted = process.argv.slice(2);
const files = readdirSync(here)
  .filter((name) => name.endsWith(".ts") && (wanted.length === 0 || wanted.includes(name.slice(0, -3))))
  .sort();

/** @type {string[][]} */
const rows = [["what", "value", "unit", "note"]];
for (const file of files) {
  const { bench } = await loadTs(join(here, file));
  if (typeof bench !== "function") throw new Error(`bench/${file} exports no bench()`);
  /** @type {readonly Line[]} */
  const lines = await bench();
  for (const { what, value, unit, note } of lines) rows.push([what, shown(value), unit, note ?? ""]);
}
print(rows);

/** Three figures that count; a measurement has no more. @param {number} value */
function shown(value) {
  return Number(value.toPrecision(3)).toLocaleString("en", { maximumFractionDigits: 6 });
}

/** @param {readonly (readonly string[])[]} table */
function print(table) {
  const widths = [0, 1, 2].map((column) => Math.max(...table.map((row) => (row[column] ?? "").length)));
  for (const row of table)
    console.log(
      row
        .map((cell, column) => (column === 1 ? cell.padStart(widths[1] ?? 0) : cell.padEnd(widths[column] ?? 0)))
        .join("  ")
        .trimEnd(),
    );
}

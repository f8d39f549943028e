import { day } from "@pollard/base";
import { fold, herdTables, LIST_COLUMNS } from "@pollard/records";
import { describe, expect, test } from "vitest";
import { textOf } from "./repository.ts";

const page = textOf("docs/FORMATS.md");

/** The rows of the page's table under this heading: what stands in their first cells, and what follows. */
const rowsUnder = (heading: string): readonly (readonly [string, string])[] => {
  const [, part = ""] = page.split(`| ${heading} |`);
  const [table = ""] = part.split("\n\n");
  return [...table.matchAll(/^\| ([^|]+) \| (.+) \|$/gm)].map((row) => [row[1] ?? "", row[2] ?? ""] as const);
};

describe("formats", () => {
  test("[HO-15] docs/FORMATS.md names every table and every column, in their order", () => {
    const told = rowsUnder("table | columns").filter(([name]) => !name.startsWith("-"));
    const tables = herdTables(fold([], day("2026-01-01")).herd, () => []);
    expect(told).toEqual(tables.map(({ name, columns }) => [name, columns.map((column) => `\`${column}\``).join(" ")]));
  });

  test("[HO-15] docs/FORMATS.md tells of every column that a list may have", () => {
    const told = rowsUnder("column | what may stand there").flatMap(([names]) => names.split(", "));
    expect(LIST_COLUMNS.filter((column) => !told.includes(column))).toEqual([]);
  });
});

import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import published from "../../published/tables/tables.json";
import { csvRows, type Delimiter, delimiterOf } from "./csv-rows.ts";
import { csvText } from "./csv-text.ts";

/** The cells of a text that is a table, without line numbers. */
function cells(text: string): readonly (readonly string[])[] {
  const rows = csvRows(text);
  if (!rows.ok) throw new Error(JSON.stringify(rows.error));
  return rows.value.map((row) => row.cells);
}

describe("csv", () => {
  test("[RE-50] commas, quotes and line breaks inside a cell are quoted", () => {
    expect(csvText([["a,b", 'say "no"', "two\nlines", "plain"]], "as-is")).toBe(
      '"a,b","say ""no""","two\nlines",plain\r\n',
    );
  });

  test("[RE-50] the guard puts an apostrophe before what a spreadsheet might run, and only when asked", () => {
    expect(csvText([["=1+1", "-3", "@x", "a=b"]], "guard")).toBe("'=1+1,'-3,'@x,a=b\r\n");
    expect(csvText([["=1+1"]], "as-is")).toBe("=1+1\r\n");
  });

  test("[RE-50] a missing last line break, a byte-order mark and empty lines are no trouble", () => {
    expect(cells("\uFEFFid,sire\nHazel,\n\nRook,Jackdaw")).toEqual([
      ["id", "sire"],
      ["Hazel", ""],
      ["Rook", "Jackdaw"],
    ]);
  });

  test("[RE-50] a quote inside a cell that does not begin with one is part of the text", () => {
    expect(cells('a\n12" collar,b\n')).toEqual([["a"], ['12" collar', "b"]]);
  });

  test("[RE-50] lines are counted through quoted line breaks", () => {
    const rows = csvRows('a\r\n"x\ny",b\r\nc\r\n');
    expect(rows.ok && rows.value.map((row) => row.line)).toEqual([1, 2, 4]);
  });

  test.each([
    ['a,"open\nb,c\n', { line: 1, what: "open-quote" }],
    ['a\n"closed"x,b\n', { line: 2, what: "after-quote" }],
  ])("[RE-50] %j is no table, and the line is named", (text, problem) => {
    expect(csvRows(text)).toEqual({ ok: false, error: problem });
  });

  test.each([
    ["name,tag\nHazel;1,2", ","],
    ["name;tag;born\nHazel;1,2;", ";"],
    ['\uFEFF"a,b"\tc\td\n', "\t"],
    ["name", ","],
  ])("[RE-51] the first line shows what stands between cells: %j", (text, delimiter) => {
    expect(delimiterOf(text)).toBe(delimiter);
  });

  test("[RE-50] line ends of all sorts in one file", () => {
    expect(cells('a,b\r\nc,"d\r\ne"\rf\n')).toEqual([["a", "b"], ["c", "d\r\ne"], ["f"]]);
  });

  describe("laws", () => {
    const cell = fc.oneof(fc.string(), fc.constantFrom("", ",", '"', '""', "\r\n", "\n", "=1", "Müller"));
    const row = fc.array(cell, { minLength: 1, maxLength: 5 }).filter((row) => row.length > 1 || row[0] !== "");

    test("[RE-50] what was written is read back", () =>
      fc.assert(
        fc.property(fc.array(row), (rows) => {
          expect(cells(csvText(rows, "as-is"))).toEqual(rows);
        }),
      ));

    test("[RE-50] guarded cells never begin like a formula", () =>
      fc.assert(
        fc.property(fc.array(row), (rows) => {
          for (const one of cells(csvText(rows, "guard")).flat()) expect(one).not.toMatch(/^[=+\-@\t\r]/);
        }),
      ));
  });

  describe("published", () => {
    test.each(published.tables)(
      "[RE-50] a table of Python's csv module, with $delimiter",
      ({ delimiter, text, rows }) => {
        const read = csvRows(text, delimiter as Delimiter);
        expect(read.ok && read.value.map((row) => row.cells)).toEqual(rows);
      },
    );

    test("[RE-50] what Python's csv module writes with commas is what is written here", () => {
      const [minimal] = published.tables;
      expect(csvText(minimal?.rows ?? [], "as-is")).toBe(minimal?.text);
    });

    // RFC 4180, section 2, the examples of rules 1, 2, 5, 6 and 7.
    test.each([
      [
        "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n",
        [
          ["aaa", "bbb", "ccc"],
          ["zzz", "yyy", "xxx"],
        ],
      ],
      [
        "aaa,bbb,ccc\r\nzzz,yyy,xxx",
        [
          ["aaa", "bbb", "ccc"],
          ["zzz", "yyy", "xxx"],
        ],
      ],
      [
        '"aaa","bbb","ccc"\r\nzzz,yyy,xxx',
        [
          ["aaa", "bbb", "ccc"],
          ["zzz", "yyy", "xxx"],
        ],
      ],
      [
        '"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx',
        [
          ["aaa", "b\r\nbb", "ccc"],
          ["zzz", "yyy", "xxx"],
        ],
      ],
      ['"aaa","b""bb","ccc"', [["aaa", 'b"bb', "ccc"]]],
    ])("[RE-50] RFC 4180 reads %j", (text, rows) => {
      expect(cells(text)).toEqual(rows);
    });
  });
});

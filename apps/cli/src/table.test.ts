import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { table, wrapped } from "./table.ts";

describe("table", () => {
  test("[CL-7] words line up left, numbers right, two spaces apart", () => {
    expect(
      table(
        [{ title: "Kid" }, { title: "Age", align: "right" }],
        [
          ["Moth", "17"],
          ["Fescue", "9"],
        ],
      ),
    ).toBe("Kid     Age\nMoth     17\nFescue    9\n");
  });

  test("[CL-7] a long cell goes on in the next line, under its own column", () => {
    expect(table([{ title: "Kid" }, { title: "Why", most: 12 }], [["Pip", "nothing is sure yet"]])).toBe(
      "Kid  Why\nPip  nothing is\n     sure yet\n",
    );
  });

  test("[CL-7] no rows, no table", () => {
    expect(table([{ title: "Kid" }], [])).toBe("");
  });

  test("[CL-7] letters with accents take one place", () => {
    expect(
      table(
        [{ title: "A" }, { title: "B" }],
        [
          ["Zoë", "1"],
          ["Anna", "2"],
        ],
      ),
    ).toBe("A     B\nZoë   1\nAnna  2\n");
  });

  describe("laws", () => {
    const words = fc
      .array(fc.stringMatching(/^[a-z]{1,9}$/), { minLength: 1, maxLength: 30 })
      .map((all) => all.join(" "));

    test("[CL-7] no line is wider than 100 characters, and no word is lost", () =>
      fc.assert(
        fc.property(fc.array(fc.tuple(words, words), { minLength: 1, maxLength: 5 }), (rows) => {
          const text = table([{ title: "One", most: 30 }, { title: "Two" }], rows);
          for (const line of text.split("\n")) expect(line.length).toBeLessThanOrEqual(100);
          const sorted = (all: string) =>
            all
              .split(/\s+/)
              .filter((word) => word !== "")
              .sort();
          expect(sorted(text)).toEqual(sorted(`One Two ${rows.flat().join(" ")}`));
        }),
      ));

    test("[CL-7] wrapping keeps the words and their order", () =>
      fc.assert(
        fc.property(words, fc.integer({ min: 9, max: 40 }), (text, most) => {
          const lines = wrapped(text, most);
          expect(lines.join(" ")).toBe(text);
          for (const line of lines) expect(line.length).toBeLessThanOrEqual(most);
        }),
      ));
  });
});

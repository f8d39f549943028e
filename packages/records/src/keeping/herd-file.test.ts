import { day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { entryJson, type TooNewEntry } from "../entry/entry.ts";
import { anEntry, aStrike } from "../entry/entry-builders.ts";
import { readHerdFile, writeHerdFile } from "./herd-file.ts";
import type { EntryId, HerdId } from "../entry/ids.ts";

const herd = "herd" as HerdId;
const hazel = animalId("hazel");
const first = anEntry("animal", { animal: hazel, sex: "doe", name: "Häsel 🐐", tag: "0012" });
const second = anEntry("weight", { animal: hazel, kg: 41, how: "weighed" });
const third = aStrike(second.id);
const tooNew: TooNewEntry = { id: "n1" as EntryId, tooNew: { v: 2, id: "n1", kind: "milk-yield", litres: 2.5 } };
const entries = [first, second, third, tooNew];
const file = writeHerdFile(entries, { herd, written: "2026-03-01T22:50:12.345Z" });
const lines = file.trimEnd().split("\n");
const codes = (text: string) => readHerdFile(text).problems.map(({ code }) => code);
const join = (...parts: readonly (string | undefined)[]) => `${parts.join("\n")}\n`;

describe("herd file", () => {
  test("[RE-20] a header, one entry a line, a seal", () => {
    expect(lines[0]).toBe('{"format":"pollard-herd","version":1,"herd":"herd","written":"2026-03-01T22:50:12.345Z"}');
    expect(lines[1]).toBe(JSON.stringify(first));
    expect(lines[4]).toBe(JSON.stringify(tooNew.tooNew));
    expect(lines[5]).toMatch(/^\{"seal":\{"entries":4,"crc32":"[0-9a-f]{8}"\}\}$/);
  });

  test("[RE-20] what was written is read back, entries too new included", () => {
    expect(readHerdFile(file)).toEqual({
      header: { herd, written: "2026-03-01T22:50:12.345Z" },
      entries,
      problems: [],
    });
  });

  test("[RE-20] an empty herd has a file too", () => {
    expect(readHerdFile(writeHerdFile([], {}))).toEqual({ header: {}, entries: [], problems: [] });
  });

  test("[RE-20] the header says the day of a demonstration herd, and keeps what others added", () => {
    expect(readHerdFile(writeHerdFile([], { asOf: day("2026-03-18") })).header).toEqual({ asOf: "2026-03-18" });
    const more = { format: "pollard-herd", version: 1, made: "by hand" };
    expect(readHerdFile(join(JSON.stringify(more), lines[1])).header).toEqual({ made: "by hand" });
  });

  test("[RE-21] line ends of any system, empty lines, blanks and a byte order mark make no difference", () => {
    const whole = { entries, problems: [] };
    expect(readHerdFile(file.replaceAll("\n", "\r\n"))).toMatchObject(whole);
    expect(readHerdFile(`\uFEFF${file}`)).toMatchObject(whole);
    expect(readHerdFile(`\n${file.replaceAll("\n", "  \n\n")}\n`)).toMatchObject(whole);
    expect(readHerdFile(file.trimEnd())).toMatchObject(whole);
  });

  test("[RE-21] two files one after the other are read as one; the same again adds nothing", () => {
    const other = writeHerdFile([anEntry("note", { text: "rain" })], { herd });
    expect(readHerdFile(file + other)).toMatchObject({ problems: [] });
    expect(readHerdFile(file + other).entries).toHaveLength(5);
    expect(readHerdFile(file + file)).toMatchObject({ entries, problems: [] });
  });

  test("[RE-22] a bad line is named and never hides the good ones", () => {
    const bad = { ...second, body: { ...second.body, kg: -1 } };
    const read = readHerdFile(join(lines[0], lines[1], JSON.stringify(bad), '{"v":1,', lines[3]));
    expect(read.entries).toEqual([first, third]);
    expect(read.problems).toEqual([
      { code: "line-unreadable", line: 3, reason: { code: "out-of-range", path: "body.kg", got: -1 } },
      { code: "line-unreadable", line: 4, reason: { code: "not-json" } },
      { code: "cut-short", line: 6 },
    ]);
  });

  test("[RE-23] what is no herd file is said to be none, and what it looks like", () => {
    const looks = (text: string) => readHerdFile(text).problems;
    for (const [text, look] of [
      ["", "empty"],
      ["\uFEFF \n\n", "empty"],
      ["name,sex\nHazel,doe\n", "csv"],
      ["name;sex", "csv"],
      ["name\tsex", "csv"],
      [JSON.stringify(entries), "json"],
      [JSON.stringify({ animals: [] }, null, 2), "json"],
      ["PK\u0003\u0004\u0014\u0000", "zip"],
      ["\uFFFDPNG\r\n\u001a\n\u0000", "binary"],
      ["Dear vet", "text"],
    ] as const)
      expect(looks(text)).toEqual([{ code: "not-a-herd-file", looks: look }]);
  });

  test("[RE-23] without its header a file still gives its entries, and says so", () => {
    const read = readHerdFile(join(...lines.slice(1)));
    expect(read.entries).toEqual(entries);
    expect(read.problems).toEqual([{ code: "no-header" }]);
  });

  test("[RE-23] a later format is said, and what can be read is read", () => {
    const header = '{"format":"pollard-herd","version":7}';
    expect(readHerdFile(join(header, ...lines.slice(1)))).toMatchObject({
      entries,
      problems: [{ code: "newer-format", version: 7 }],
    });
  });

  test("[RE-24] a file without its end is cut short", () => {
    expect(codes(join(...lines.slice(0, -1)))).toEqual(["cut-short"]);
    expect(codes(join(lines[0]))).toEqual(["cut-short"]);
    expect(codes(join(...lines.slice(0, 2)) + file)).toEqual(["cut-short"]);
  });

  test("[RE-24] a line that went missing or was changed breaks the seal", () => {
    expect(codes(join(...lines.filter((_, at) => at !== 2)))).toEqual(["damaged"]);
    const altered = file.replace('"kg":41', '"kg":14');
    expect(readHerdFile(altered)).toMatchObject({ problems: [{ code: "damaged", line: 6, sealed: { entries: 4 } }] });
    expect(readHerdFile(altered).entries).toHaveLength(4);
  });

  test("[RE-25] an entry of another herd is read, and said", () => {
    const stray = anEntry("note", { text: "rain" }, { herd: "elsewhere" });
    const read = readHerdFile(writeHerdFile([first, stray], { herd }));
    expect(read.entries).toEqual([first, stray]);
    expect(read.problems).toEqual([{ code: "other-herd", line: 3, herd: "elsewhere", own: "herd" }]);
  });

  test("[RE-25] two different entries under one id are both read, and said", () => {
    const other = { ...second, by: "Tobias" };
    const read = readHerdFile(writeHerdFile([second, first, other], { herd }));
    expect(read.entries).toEqual([second, first, other]);
    expect(read.problems).toEqual([{ code: "one-id-twice", line: 4, first: 2, entry: second.id }]);
  });

  describe("laws", () => {
    const { format: _, version: __, ...bodyless } = { format: "", version: 1, ...first };
    const anyEntry = fc.oneof(
      fc.constantFrom(first, second, third),
      fc
        .dictionary(fc.string(), fc.jsonValue({ maxDepth: 3 }), { maxKeys: 4 })
        .map((more) => ({ ...more, ...bodyless, id: `e${JSON.stringify(more).length}` as EntryId })),
    );

    test("[RE-20] whatever was written is read back without a problem", () => {
      fc.assert(
        fc.property(fc.uniqueArray(anyEntry, { selector: ({ id }) => id }), (written) => {
          const read = readHerdFile(writeHerdFile(written, { herd }));
          expect(read.problems).toEqual([]);
          expect(read.entries.map((entry) => JSON.stringify(entryJson(entry)))).toEqual(
            written.map((entry) => JSON.stringify(entry)),
          );
        }),
      );
    });

    test("[RE-22] any text gives an answer", () => {
      const piece = fc.oneof(fc.constantFrom(...lines), fc.string(), fc.json());
      fc.assert(
        fc.property(fc.array(piece), fc.constantFrom("\n", "\r\n"), (pieces, end) => {
          const read = readHerdFile(pieces.join(end));
          expect(read.problems.length + read.entries.length + (read.header ? 1 : 0)).toBeGreaterThan(0);
        }),
      );
    });

    test("[RE-24] one letter changed anywhere between header and end is noticed", () => {
      const from = (lines[0]?.length ?? 0) + 1;
      const to = file.length - 1;
      fc.assert(
        fc.property(fc.integer({ min: from, max: to - 1 }), fc.constantFrom("x", "0", "}", '"'), (at, letter) => {
          const same = file[at] === letter || file.codePointAt(at) !== file.charCodeAt(at) || file.charCodeAt(at) > 127;
          fc.pre(!same);
          expect(codes(file.slice(0, at) + letter + file.slice(at + 1)).length).toBeGreaterThan(0);
        }),
      );
    });

    test("[RE-24] a file that lost its tail anywhere is noticed, and gives the whole lines before it", () => {
      fc.assert(
        fc.property(fc.nat(file.length - 2), (length) => {
          const read = readHerdFile(file.slice(0, length));
          const whole = file.slice(0, length).split("\n").length - 2;
          expect(read.problems.length).toBeGreaterThan(0);
          expect(read.entries.length).toBeGreaterThanOrEqual(Math.min(whole, 4));
        }),
      );
    });
  });
});

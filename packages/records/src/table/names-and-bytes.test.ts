import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import published from "../../published/tables/tables.json";
import { chipNumber } from "./chip.ts";
import { entryIdMadeOf, nameMadeOf } from "./made-names.ts";
import { sha1 } from "./sha1.ts";
import { tableText } from "./table-bytes.ts";
import { utf8Bytes, utf8Text } from "./utf8.ts";

const bytesOf = (hex: string): Uint8Array =>
  Uint8Array.from(hex.match(/../g)?.map((byte) => Number.parseInt(byte, 16)) ?? []);
const hexOf = (bytes: readonly number[]): string => bytes.map((byte) => byte.toString(16).padStart(2, "0")).join("");

describe("letters of a file", () => {
  test.each([
    ["504b0304", "spreadsheet"],
    ["d0cf11e0", "spreadsheet"],
    ["", "empty"],
    ["20200a", "empty"],
    ["610062", "not-text"],
  ])("[RE-51] %s is no table: %s", (hex, why) => {
    expect(tableText(bytesOf(hex))).toEqual({ ok: false, error: why });
  });

  test("[RE-51] any bytes are a text or no table, and are never a crash", () =>
    fc.assert(
      fc.property(fc.uint8Array(), (bytes) => {
        expect(tableText(bytes).ok).toBeTypeOf("boolean");
      }),
    ));

  test("[RE-51] a text's bytes are its text again", () =>
    fc.assert(
      fc.property(fc.string({ unit: "grapheme" }), (text) => {
        expect(utf8Text(Uint8Array.from(utf8Bytes(text)))).toBe(text);
      }),
    ));

  describe("published", () => {
    test.each(published.letters)("[RE-51] $encoding, as Python's codecs write it", ({ encoding, text, bytes }) => {
      const read = tableText(bytesOf(bytes));
      expect(read.ok && { ...read.value, text: read.value.text.replace("\uFEFF", "") }).toEqual({ text, encoding });
    });
  });
});

describe("names made of texts", () => {
  test("[RE-52] an entry's id keeps the time, and is a UUID of version 7 as all are", () => {
    expect(entryIdMadeOf("a", 0x017f22e279b0)).toMatch(/^017f22e2-79b0-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
    expect(entryIdMadeOf("a", 1)).not.toBe(entryIdMadeOf("b", 1));
  });

  describe("published", () => {
    test.each(published.digests)("[RE-52] SHA-1 as Python's hashlib has it: %#", ({ text, sha1: digest }) => {
      expect(hexOf(sha1(utf8Bytes(text)))).toBe(digest);
    });

    test.each(published.names)(
      "[RE-52] the name of $text in $space, as Python's uuid has it",
      ({ text, space, name }) => {
        expect(nameMadeOf(text, space)).toBe(name);
      },
    );

    test("[RE-52] RFC 9562, appendix A.4", () => {
      expect(nameMadeOf("www.example.com", "6ba7b810-9dad-11d1-80b4-00c04fd430c8")).toBe(
        "2ed6657d-e927-568b-95e1-2665a8aea6a2",
      );
    });
  });
});

describe("chip numbers", () => {
  test.each(["276000123456789", "276 000 123 456 789", "276-000123456789", "999274877906943"])("[RE-53] %s", (text) => {
    expect(chipNumber(text)).toEqual({ ok: true, value: text.replace(/\D/g, "") });
  });

  test.each([
    ["27600012345678", "not-15-digits"],
    ["2760001234567890", "not-15-digits"],
    ["276A00123456789", "not-digits"],
    ["", "not-digits"],
    ["276274877906944", "no-such-number"],
    ["9.8E+14", "rounded"],
    ["2,76E+14", "rounded"],
  ])("[RE-53] %s is none: %s", (text, why) => {
    expect(chipNumber(text)).toEqual({ ok: false, error: why });
  });
});

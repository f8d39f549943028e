import fc from "fast-check";
import { describe, expect, test } from "vitest";
import published from "../../published/check-values.json";
import { crc32 } from "./crc32.ts";

/** The slow way: the bytes as the platform encodes them, one bit at a time. */
function byBits(text: string): string {
  const percent = encodeURIComponent(text);
  const bytes = [...percent.matchAll(/%([0-9A-F]{2})|(.)/g)].map(([, hex, plain]) =>
    hex === undefined ? (plain ?? "").charCodeAt(0) : Number.parseInt(hex, 16),
  );
  let sum = 0xffffffffn;
  for (const byte of bytes)
    for (let bit = 0; bit < 8; bit++) {
      const low = (sum ^ BigInt((byte >> bit) & 1)) & 1n;
      sum = (sum >> 1n) ^ (low === 1n ? 0xedb88320n : 0n);
    }
  return (sum ^ 0xffffffffn).toString(16).padStart(8, "0");
}

describe("crc32", () => {
  test("[RE-24] nothing has the sum nought", () => {
    expect(crc32("")).toBe("00000000");
  });

  test("[RE-24] half a pair of surrogates counts as the sign for what could not be read", () => {
    expect(crc32("a\ud83db")).toBe(crc32("a\ufffdb"));
    expect(crc32("\udc10")).toBe(crc32("\ufffd"));
  });

  describe("laws", () => {
    const anyText = fc.string({ unit: "binary" });

    test("[RE-24] it equals dividing bit by bit", () => {
      fc.assert(
        fc.property(anyText, (text) => {
          expect(crc32(text)).toBe(byBits(text));
        }),
      );
    });

    test("[RE-24] a text in two parts has the sum of the whole", () => {
      fc.assert(
        fc.property(anyText, anyText, (a, b) => {
          expect(crc32(b, crc32(a))).toBe(crc32(a + b));
        }),
      );
    });
  });

  describe("published", () => {
    test.each(published.crc32)("[RE-24] $source, $where", ({ text, crc32: sum }) => {
      expect(crc32(text)).toBe(sum);
    });
  });
});

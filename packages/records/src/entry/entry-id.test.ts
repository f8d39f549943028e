import fc from "fast-check";
import { describe, expect, test } from "vitest";
import published from "../../published/check-values.json";
import { entryId } from "./entry-id.ts";

const anyTime = fc.integer({ min: 0, max: 2 ** 48 - 1 });
const anyChance = fc.uint8Array({ minLength: 10, maxLength: 10 });

/** The ten bytes of chance that hold the given digits of rand_a (12 bits) and rand_b (62 bits). */
function chanceOf(randA: string, randB: string): Uint8Array {
  const hex = `0${randA}${randB}`;
  return Uint8Array.from({ length: 10 }, (_, at) => Number.parseInt(hex.slice(at * 2, at * 2 + 2), 16));
}

describe("entryId", () => {
  test("[RE-30] an impossible time or too little chance is our own mistake", () => {
    for (const time of [-1, 0.5, Number.NaN, 2 ** 48])
      expect(() => entryId(time, new Uint8Array(10))).toThrow("no time for an id");
    expect(() => entryId(0, new Uint8Array(9))).toThrow("bytes for an id");
  });

  describe("laws", () => {
    test("[RE-30] every id is a UUID of version 7 in lower case", () => {
      fc.assert(
        fc.property(anyTime, anyChance, (time, chance) => {
          expect(entryId(time, chance)).toMatch(
            /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/,
          );
        }),
      );
    });

    test("[RE-30] what is made in a later millisecond comes later as text", () => {
      fc.assert(
        fc.property(anyTime, anyTime, anyChance, anyChance, (a, b, chanceA, chanceB) => {
          fc.pre(a !== b);
          expect(entryId(a, chanceA) < entryId(b, chanceB)).toBe(a < b);
        }),
      );
    });

    test("[RE-30] all 74 bits of chance are in the id", () => {
      fc.assert(
        fc.property(anyTime, anyChance, fc.nat(79), (time, chance, bit) => {
          const other = chance.map((byte, at) => (at === bit >> 3 ? byte ^ (0x80 >> (bit & 7)) : byte));
          const spoken = bit < 4 || bit === 16 || bit === 17; // version and variant
          expect(entryId(time, other) === entryId(time, chance)).toBe(spoken);
        }),
      );
    });
  });

  describe("published", () => {
    test.each(published.uuid7)("[RE-30] $source, $where", ({ unixMs, randA, randB, uuid }) => {
      expect(entryId(unixMs, chanceOf(randA, randB))).toBe(uuid);
    });
  });
});

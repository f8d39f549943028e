import type { AnimalRef, CallLine, Counted, ReaderRecord, RegrowthGroup } from "@pollard/advice";
import { day } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { english } from "./en/english.ts";
import { CATALOGUES, expectPlain, expectShort } from "./testing.ts";

const nameOf = (id: AnimalId): AnimalRef => ({
  id,
  name: "Hazel",
  tag: undefined,
  mark: undefined,
  sex: "doe",
  damName: undefined,
});
const words = english(nameOf);
const about = (count: number, of: Counted["of"] = 10): Counted => ({ of, count, sense: "about" });
const line = (over: Partial<CallLine> = {}): CallLine => ({
  kids: 20,
  horned: 17,
  said: about(8),
  meanCall: 0.82,
  low: 0.7,
  high: 0.93,
  came: "as-called",
  ...over,
});
const reader = (over: Partial<ReaderRecord> = {}): ReaderRecord => ({
  reader: "Tobias",
  kids: 14,
  right: 12,
  wrong: 1,
  open: 1,
  low: 0.6,
  high: 0.95,
  ...over,
});
const buds = (over: Partial<RegrowthGroup> = {}): RegrowthGroup => ({
  of: "all",
  buds: 22,
  grew: { nothing: 16, scur: 5, horn: 0, "soft-lump": 1 },
  again: about(5, 20),
  low: about(3, 20),
  high: about(7, 20),
  ...over,
});
/** Every text of these screens, its gaps filled with these. */
function textsOf(group: object, asked: readonly unknown[]): readonly string[] {
  return Object.values(group).flatMap((value: unknown): readonly string[] => {
    if (typeof value === "string") return [value];
    if (typeof value === "function") {
      return [(value as (...asked: readonly unknown[]) => string)(...asked)];
    }
    return typeof value === "object" && value !== null ? textsOf(value, asked) : [];
  });
}

describe("how the calls came out, in words", () => {
  test("[WO-2] what was called and what came, with both sides as counts", () => {
    expect(words.call(line())).toBe(
      "Of 20 heads called about 8 in 10 for horns: 17 horned, 3 hornless. That is as called.",
    );
  });

  test("[WO-10] a short line is not judged, a surprising one is told which way it leaned", () => {
    expect(words.call(line({ kids: 3, horned: 2 }))).toContain("Too few to judge.");
    expect(words.call(line({ came: "fewer-horned" }))).toContain("leaned too far to horns");
    expect(words.call(line({ came: "more-horned" }))).toContain("leaned too far to hornless");
  });

  test("[WO-10] a reader hears first what was right, is not blamed, and is told when it is too little to say", () => {
    expect(words.reader(reader())).toBe(
      "Tobias read 14 heads that are known since. 12 of 13 clear calls were right. 1 was left open. Such heads fool anybody: a second look helps.",
    );
    expect(words.reader(reader({ kids: 3, right: 3, wrong: 0, open: 0 }))).toContain("All 3 clear calls were right.");
    expect(words.reader(reader({ kids: 3, right: 3, wrong: 0, open: 0 }))).toContain("Too few to say more.");
    expect(words.reader(reader({ kids: 2, right: 0, wrong: 0, open: 2 }))).toContain("an honest answer");
    for (const said of [reader(), reader({ right: 0, wrong: 14, open: 0 })].map((of) => words.reader(of)))
      expect(said).not.toMatch(/wrong|bad|fail|mistake|poor/i);
  });

  test("[WO-2] what grew again, and what to expect of the next bud", () => {
    expect(words.regrowth(buds())).toBe(
      "Of 22 buds, something grew again on 6: 5 scurs, 1 soft lump. Expect it on about 5 in 20. Between 3 and 7 in 20 would not surprise.",
    );
    expect(words.regrowth(buds({ buds: 1, grew: { nothing: 1, scur: 0, horn: 0, "soft-lump": 0 } }))).toContain(
      "Of 1 bud, something grew again on none.",
    );
  });

  test.each(CATALOGUES)(
    "[WO-1] no sentence of a screen has more than 15 words, its gaps filled: %s",
    (_, catalogue) => {
      const { score, compare, blind, photo, animal, answer, today, safe, season } = catalogue.screens;
      const screens = {
        score,
        compare,
        blind,
        photo,
        animal,
        answer,
        today,
        safe,
        season: { ...season, shortDay: "" },
      };
      const counted = textsOf(screens, ["2", "2", "2"]);
      expect(counted.length).toBeGreaterThan(300);
      expectPlain(counted);
      expectShort(
        textsOf(screens, ["Ines", "Tobias", catalogue.words(nameOf).day(day("2026-03-02"), day("2026-04-02"))]),
      );
    },
  );

  describe("laws", () => {
    const few = fc.nat(60);

    test("[WO-1] whatever the counts, no sentence has more than 15 words", () => {
      fc.assert(
        fc.property(few, few, few, fc.constantFrom("as-called", "fewer-horned", "more-horned"), (a, b, c, came) => {
          for (const [, catalogue] of CATALOGUES) {
            const said = catalogue.words(nameOf);
            expectPlain([
              said.call(line({ kids: a + b, horned: a, came })),
              said.reader(reader({ kids: a + b + c, right: a, wrong: b, open: c })),
              said.regrowth(buds({ buds: a + b + c, grew: { nothing: a, scur: b, horn: 1, "soft-lump": c } })),
            ]);
          }
        }),
      );
    });

    test("[WO-2] the two sides of a line of calls add up to its heads", () => {
      fc.assert(
        fc.property(few, few, (a, b) => {
          const [kids, horned, not] = [
            ...words.call(line({ kids: a + b, horned: a })).matchAll(/\d+(?= heads?| horned| hornless)/g),
          ];
          expect(Number(horned?.[0]) + Number(not?.[0])).toBe(Number(kids?.[0]));
        }),
      );
    });
  });
});

import { addDays, day } from "@pollard/base";
import { screens } from "@pollard/words";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dayFromParts, partsOf } from "./day-parts.ts";

const months = screens.day.months.split(" ");
const typed = (d: string, month: string, year: string) => dayFromParts({ day: d, month, year }, months);

describe("a day in three fields", () => {
  test.each([
    ["3", "3", "2026", "2026-03-03"],
    ["03", "March", "2026", "2026-03-03"],
    [" 3 ", "mar", "26", "2026-03-03"],
    ["29", "feb", "2028", "2028-02-29"],
    ["29", "feb", "2026", undefined],
    ["31", "4", "2026", undefined],
    ["3", "ma", "2026", undefined],
    ["3", "13", "2026", undefined],
    ["", "3", "2026", undefined],
    ["3", "3", "", undefined],
    ["three", "3", "2026", undefined],
  ])("[UI-8] %s / %s / %s", (d, month, year, wanted) => {
    expect(typed(d, month, year)).toBe(wanted);
  });

  describe("laws", () => {
    test("[UI-8] every day comes back as it was, by number and by name", () => {
      fc.assert(
        fc.property(fc.integer({ min: -9000, max: 30_000 }), (away) => {
          const d = addDays(day("2000-01-01"), away);
          const parts = partsOf(d);
          expect(dayFromParts(parts, months)).toBe(d);
          expect(dayFromParts({ ...parts, month: months[Number(parts.month) - 1] ?? "" }, months)).toBe(d);
        }),
      );
    });
  });
});

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { addDays, day, daysFrom, parseDay, weekday } from "./day.ts";

const anyOffset = fc.integer({ min: -200_000, max: 200_000 });
const base = day("2000-02-29");

describe("day", () => {
  test("[BA-1] a day that the calendar does not have is no day", () => {
    for (const text of ["2026-02-29", "2026-13-01", "2026-00-10", "2026-1-1", "0000-01-01", "noon", ""])
      expect(parseDay(text)).toBeUndefined();
    expect(parseDay("2028-02-29")).toBe("2028-02-29");
  });

  test("[BA-2] days are counted over month ends, leap days and year ends", () => {
    expect(addDays(day("2026-02-28"), 1)).toBe("2026-03-01");
    expect(addDays(day("2028-02-28"), 1)).toBe("2028-02-29");
    expect(addDays(day("2026-01-01"), -1)).toBe("2025-12-31");
    expect(daysFrom(day("2025-10-05"), day("2026-03-04"))).toBe(150);
  });

  describe("laws", () => {
    test("[BA-2] going n days on and counting back gives n", () => {
      fc.assert(
        fc.property(anyOffset, (n) => {
          expect(daysFrom(base, addDays(base, n))).toBe(n);
        }),
      );
    });

    test("[BA-2] it agrees with the platform's own calendar", () => {
      fc.assert(
        fc.property(anyOffset, (n) => {
          const platform = new Date(Date.UTC(2000, 1, 29 + n));
          expect(addDays(base, n)).toBe(platform.toISOString().slice(0, 10));
          expect(weekday(addDays(base, n))).toBe((platform.getUTCDay() + 6) % 7);
        }),
      );
    });

    test("[BA-2] text order is day order", () => {
      fc.assert(
        fc.property(anyOffset, anyOffset, (a, b) => {
          expect(addDays(base, a) < addDays(base, b)).toBe(a < b);
        }),
      );
    });
  });

  describe("published", () => {
    test("[BA-2] day and weekday of known dates (ISO 8601:2004 examples, from memory: 1985-04-12 is a Friday)", () => {
      expect(weekday(day("1985-04-12"))).toBe(4);
      expect(weekday(day("1970-01-01"))).toBe(3);
    });
  });
});

import { addDays, day } from "@pollard/base";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dayDoubt, mayAskDay } from "./phone-day.ts";

const written = { made: day("2026-01-10"), lastWritten: day("2026-03-16") };

describe("is this phone's date right?", () => {
  test.each([
    ["2026-03-16", undefined],
    ["2026-03-14", undefined],
    ["2026-03-13", "behind-entries"],
    ["2001-01-01", "behind-entries"],
    ["2026-04-30", undefined],
    ["2026-05-01", "long-after-entries"],
    ["2032-03-16", "long-after-entries"],
  ] as const)("[UI-249] last written on 16 March 2026, it says %s: %s", (today, doubt) => {
    expect(dayDoubt(day(today), written)).toBe(doubt);
  });

  test("[UI-249] before anything was written, a day on which there was no such app is asked about", () => {
    const fresh = { ...written, lastWritten: undefined };
    expect(dayDoubt(day("2026-01-08"), fresh)).toBe("before-made");
    expect(dayDoubt(day("2026-01-09"), fresh)).toBe(undefined);
    expect(dayDoubt(day("2036-01-09"), fresh)).toBe(undefined);
    expect(dayDoubt(day("1970-01-01"), { made: undefined, lastWritten: undefined })).toBe(undefined);
  });

  test("[UI-249] it is asked where something is entered, never where a head is read or where nothing is", () => {
    for (const at of [
      "/kidding/hazel/0",
      "/add",
      "/fact/moth",
      "/outcome/moth",
      "/care/hooves/moth",
      "/vet/2026-03-20/moth",
    ])
      expect(mayAskDay(at), at).toBe(true);
    for (const at of [
      "/",
      "/reading/moth",
      "/reading/moth/check",
      "/answer/moth",
      "/find",
      "/care/days",
      "/vet/2026-03-20",
    ])
      expect(mayAskDay(at), at).toBe(false);
  });

  test("[UI-249] in the days after something was written nobody is asked", () => {
    fc.assert(
      fc.property(fc.integer({ min: -2, max: 45 }), (days) => {
        expect(dayDoubt(addDays(written.lastWritten, days), { ...written, made: undefined })).toBe(undefined);
      }),
    );
  });
});

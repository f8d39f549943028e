import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { KID_SEXES } from "./kid-sex.ts";
import published from "../published/disbudding-windows.json" with { type: "json" };
import { DEFAULT_VET_WINDOWS, isOrdered, windowByClocks, windowOf, windowState } from "./vet-window.ts";

describe("windowOf", () => {
  test("[HD-12] bucklings are due earlier than doelings, and both end on day 14", () => {
    const [buck, doe] = [windowOf("buck"), windowOf("doe")];
    expect(buck.aimTo.value).toBeLessThan(doe.aimTo.value);
    expect([buck.end.value, doe.end.value]).toEqual([14, 14]);
  });

  test("[HD-12] where the sex is not known the earlier window counts", () => {
    for (const sex of ["intersex", "unsure", "wether"] as const) expect(windowOf(sex)).toEqual(windowOf("buck"));
  });

  test("[HD-12] the vet's own figure wins and is marked as such; the others stay", () => {
    const w = windowOf("doe", { doe: { end: 10 }, buck: { end: 7 } });
    expect(w.end).toEqual({ value: 10, source: "keepers-vet", checked: "set-by-keepers-vet" });
    expect(w.aimTo).toEqual(DEFAULT_VET_WINDOWS.doe.aimTo);
  });

  test("[HD-13] the last day counts as inside, the day after is the vet's", () => {
    const w = windowOf("buck");
    const states = [1, 2, 3, 5, 6, 7, 8, 14, 15].map((age) => windowState(w, age));
    expect(states).toEqual(["too-young", "look", "aim", "aim", "due", "due", "amber", "amber", "ring-vet"]);
  });

  test("[HD-14] a kid born five days early is shown by both clocks, one born late by its birth alone", () => {
    expect(windowByClocks(windowOf("buck"), 8, 3)).toEqual({ fromBirth: "amber", fromDue: "aim" });
    expect(windowByClocks(windowOf("buck"), 4, 6)).toEqual({ fromBirth: "aim" });
    expect(windowByClocks(windowOf("buck"), 4, undefined)).toEqual({ fromBirth: "aim" });
  });

  describe("laws", () => {
    test("[HD-13] a kid never goes back in the window, and past the end it is always the vet's", () => {
      const order = ["too-young", "look", "aim", "due", "amber", "ring-vet"];
      fc.assert(
        fc.property(fc.constantFrom(...KID_SEXES), fc.nat(60), fc.nat(60), (sex, a, b) => {
          const w = windowOf(sex);
          const [young, old] = [Math.min(a, b), Math.max(a, b)];
          expect(order.indexOf(windowState(w, young))).toBeLessThanOrEqual(order.indexOf(windowState(w, old)));
          expect(windowState(w, old) === "ring-vet").toBe(old > 14);
        }),
      );
    });

    test("[HD-12] the default windows rise from day to day; one that does not is seen", () => {
      for (const sex of KID_SEXES) expect(isOrdered(windowOf(sex))).toBe(true);
      expect(isOrdered(windowOf("doe", { doe: { end: 4 } }))).toBe(false);
      expect(isOrdered(windowOf("doe", { doe: { end: 11.5 } }))).toBe(false);
    });
  });

  describe("published", () => {
    test.each(published.windows)("[HD-12] $source: our aim overlaps what it recommends, our end is no later", (row) => {
      for (const sex of ["buck", "doe"] as const) {
        if (row.sex !== "both" && row.sex !== sex) continue;
        const w = windowOf(sex);
        expect(w.aimFrom.value).toBeLessThanOrEqual(row.to);
        expect(w.aimTo.value).toBeGreaterThanOrEqual(row.from);
        if (row.limit !== undefined) expect(w.end.value).toBeLessThanOrEqual(row.limit);
      }
    });
  });
});

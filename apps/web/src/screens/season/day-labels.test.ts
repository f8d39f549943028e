import { present } from "@pollard/base";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dayLabels } from "./day-labels.ts";

const WIDTH = 52;

/** What a word covers from left to right. */
const cover = (place: number, anchor: "start" | "middle" | "end"): readonly [number, number] => {
  const left = anchor === "start" ? place : anchor === "end" ? place - WIDTH : place - WIDTH / 2;
  return [left, left + WIDTH];
};

describe("words above the days of a timeline", () => {
  test("[UI-377] alone it stands over its mark; two close ones face away from each other; a third stands higher", () => {
    expect(dayLabels([100], WIDTH)).toEqual([{ row: 0, anchor: "middle" }]);
    expect(dayLabels([100, 110, 400], WIDTH)).toEqual([
      { row: 0, anchor: "end" },
      { row: 0, anchor: "start" },
      { row: 0, anchor: "middle" },
    ]);
    expect(dayLabels([100, 110, 120], WIDTH).map(({ row }) => row)).toEqual([0, 1, 0]);
  });

  test("[UI-377] whatever the days, no word touches another and no mark runs through one", () => {
    const days = fc.uniqueArray(fc.integer({ min: 1, max: 300 }), { minLength: 1, maxLength: 9 });
    fc.assert(
      fc.property(days, fc.integer({ min: 3, max: 30 }), (at, dayWidth) => {
        const places = at.toSorted((a, b) => a - b).map((day) => day * dayWidth);
        const labels = dayLabels(places, WIDTH).map((label, i) => {
          const place = present(places[i], "a place");
          return { ...label, place, cover: cover(place, label.anchor) };
        });
        expect(labels).toHaveLength(places.length);
        for (const one of labels)
          for (const other of labels) {
            if (one.place >= other.place) continue;
            if (one.row === other.row) expect(one.cover[1]).toBeLessThanOrEqual(other.cover[0]);
            const [low, high] = one.row < other.row ? [one, other] : [other, one];
            if (low.row < high.row)
              expect(high.place <= low.cover[0] || high.place >= low.cover[1], "a mark runs through a word").toBe(true);
          }
      }),
    );
  });
});

import { type ExpectedDoe, VISIT_SETTINGS, type VetDayLine, type VetDaysModel, visitWishes } from "@pollard/advice";
import { addDays, type Day, day, present, probability } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { fold } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { DueDoe, SeasonModel } from "../../worker/season-answers.ts";
import {
  acrossFor,
  blockedText,
  countMarks,
  countMayShow,
  dayMarks,
  dotCounts,
  enoughIn,
  headDots,
  kiddingDots,
  likeliestLitter,
  placeOfDot,
  stacked,
  timelineOf,
  twentyOf,
  usualRoom,
  weekdaysTicked,
} from "./model.ts";

const today = day("2026-03-02");
const ref = (id: string) =>
  ({ id: animalId(id), name: id, tag: undefined, mark: undefined, sex: "doe", damName: undefined }) as const;
const expected = (from: Day, likely: Day, to: Day): ExpectedDoe => ({
  doe: ref(`doe-${likely}`),
  served: { from: addDays(likely, -150), to: addDays(likely, -150) },
  inKid: probability(0.8),
  willKid: probability(0.8),
  days: { from, likely, to },
  litter: [],
  meanKids: 1.5,
  sires: [],
  horned: probability(0.5),
  returns: [],
});
const dueOn = (days: readonly (readonly [Day, number])[]): DueDoe => ({
  expected: expected(today, today, today),
  births: days.map(([on, chance]) => ({ day: on, chance })),
});
const visit = (over: Partial<VetDayLine> = {}): VetDayLine => ({
  day: addDays(today, 9),
  state: "proposed",
  expected: 1,
  low: 0,
  high: 2,
  chances: [0.25, 0.5, 0.25],
  from: [],
  ...over,
});
const plan = (visits: readonly VetDayLine[]): VetDaysModel => ({
  today,
  visits,
  heads: 1,
  missed: 0,
  lateDays: 0,
  fewer: undefined,
  more: undefined,
  does: 0,
  kids: 0,
  limit: undefined,
  rule: "AD-33",
});
const season = (over: Partial<SeasonModel>): SeasonModel => ({
  due: [],
  kids: [],
  plan: plan([]),
  wishes: { weekdays: [0, 1, 2, 3, 4, 5, 6], blocked: [], mostHeads: undefined },
  agreed: [],
  vet: undefined,
  ...over,
});

describe("the season as pictures", () => {
  test("[UI-60] a quarter no head, a half one head, a quarter two: 5, 10 and 5 dots", () => {
    const dots = headDots(visit());
    expect([0, 1, 2].map((n) => dots.filter(({ at }) => at === n).length)).toEqual([5, 10, 5]);
    expect(dotCounts(dots)).toEqual([
      { at: 0, dots: 5 },
      { at: 1, dots: 10 },
      { at: 2, dots: 5 },
    ]);
    expect(Math.max(...dots.map(({ above }) => above))).toBe(10);
  });

  test("[UI-60] a doe due on one of two days, one three times as likely: 15 dots and 5", () => {
    const dots = present(
      kiddingDots(
        dueOn([
          [addDays(today, 3), 0.25],
          [addDays(today, 1), 0.75],
        ]),
      ),
      "dots",
    );
    expect(dots.first).toBe(addDays(today, 1));
    expect(dots.span).toBe(3);
    expect(dots.dots.filter(({ at }) => at === 0)).toHaveLength(15);
    expect(dots.dots.filter(({ at }) => at === 2)).toHaveLength(5);
  });

  test("[UI-60] one litter of one day twice is one stack; no births, no picture", () => {
    const once = dueOn([
      [today, 0.5],
      [today, 0.5],
    ]);
    expect(kiddingDots(once)?.span).toBe(1);
    expect(kiddingDots(dueOn([]))).toBeUndefined();
  });

  test("[UI-60] dots fill a place from the bottom left, so that it can be counted", () => {
    expect([1, 2, 3, 4].map((above) => placeOfDot({ at: 1, above }, 3))).toEqual([
      { at: 1, along: 0, up: 0 },
      { at: 1, along: 1, up: 0 },
      { at: 1, along: 2, up: 0 },
      { at: 1, along: 0, up: 1 },
    ]);
    expect([1, 3, 6, 9, 30].map(acrossFor)).toEqual([5, 5, 3, 2, 1]);
  });

  test("[UI-60] room for one head is enough in 15 of 20, for two in all; two are asked for", () => {
    const dots = headDots(visit());
    expect([0, 1, 2].map((room) => enoughIn(dots, room))).toEqual([5, 15, 20]);
    expect(usualRoom(dots)).toBe(2);
    expect(usualRoom([])).toBe(0);
  });

  test("[UI-60] words under a picture do not touch", () => {
    expect(countMarks(4)).toEqual([0, 1, 2, 3, 4]);
    expect(countMarks(12)).toEqual([0, 2, 4, 6, 8, 10, 12]);
    const picture = { first: today, span: 12, dots: [] };
    expect(dayMarks(picture, addDays(today, 5)).map(({ at }) => at)).toEqual([0, 5, 11]);
    expect(dayMarks(picture, addDays(today, 2)).map(({ at }) => at)).toEqual([0, 11]);
    expect(dayMarks({ ...picture, span: 3 }, addDays(today, 1)).map(({ at }) => at)).toEqual([0]);
  });

  test("[UI-61] a visit for one kid nobody has read shows no count; with a litter to come it does", () => {
    const unread = { animal: ref("pip"), what: "kid", expected: undefined } as const;
    expect(countMayShow(visit({ from: [unread] }))).toBe(false);
    expect(countMayShow(visit({ from: [unread, { animal: ref("ash"), what: "dam", expected: 0.4 }] }))).toBe(true);
    expect(countMayShow(visit({ from: [unread, { animal: ref("ash"), what: "dam", expected: 0.01 }] }))).toBe(false);
    expect(countMayShow(visit({ from: [{ animal: ref("ash"), what: "dam", expected: 0.01 }] }))).toBe(true);
    expect(countMayShow(visit())).toBe(true);
  });

  test("[UI-62] the timeline runs from today to the last bar; what began before begins today", () => {
    const line = present(
      timelineOf(
        season({
          due: [{ expected: expected(addDays(today, -2), addDays(today, 1), addDays(today, 4)), births: [] }],
          kids: [{ kid: ref("pip"), born: addDays(today, -5), end: addDays(today, 9) }],
          plan: plan([visit()]),
        }),
      ),
      "timeline",
    );
    expect(line.rows).toEqual([
      { id: "pip", from: 0, to: 9, likely: undefined },
      { id: `doe-${addDays(today, 1)}`, from: 0, to: 4, likely: 1 },
    ]);
    expect(line.span).toBe(11);
    expect(line.weeks.map(({ at }) => at)).toEqual([0, 7]);
    expect(timelineOf(season({}))).toBeUndefined();
  });

  test("[UI-63] weekdays and litters as they are ticked and said", () => {
    expect(weekdaysTicked([0, 1, 2, 3, 4, 5, 6])).toEqual([]);
    expect(weekdaysTicked([1, 4])).toEqual(["tue", "fri"]);
    expect(likeliestLitter([0.2, 0.7, 0.1])).toBe("two");
    expect(likeliestLitter([0, 0, 0, 1])).toBe("more");
    expect(likeliestLitter([])).toBeUndefined();
  });

  describe("laws", () => {
    const chances = fc
      .array(fc.integer({ min: 0, max: 9 }), { minLength: 1, maxLength: 12 })
      .filter((weights) => weights.some((w) => w > 0))
      .map((weights) => {
        const sum = weights.reduce((a, b) => a + b, 0);
        return weights.map((w) => w / sum);
      });

    test("[UI-60] twenty dots, rising, and no place is more than one dot off its share", () => {
      fc.assert(
        fc.property(chances, (all) => {
          const cases = twentyOf(all.map((chance, value) => ({ value, chance })));
          expect(cases).toHaveLength(20);
          expect(cases).toEqual([...cases].sort((a, b) => a - b));
          all.forEach((chance, value) => {
            expect(Math.abs(cases.filter((c) => c === value).length - 20 * chance)).toBeLessThanOrEqual(1 + 1e-9);
          });
          expect(stacked(cases).filter(({ above }) => above === 1)).toHaveLength(new Set(cases).size);
        }),
      );
    });

    test("[UI-63] blocked days come back from their setting as they were", () => {
      fc.assert(
        fc.property(fc.array(fc.integer({ min: 0, max: 60 }), { maxLength: 25 }), (offsets) => {
          const days = [...new Set(offsets)].sort((a, b) => a - b).map((n) => addDays(today, n));
          const entry = anEntry(
            "setting",
            { key: VISIT_SETTINGS.blocked, value: blockedText(days) },
            { on: "2026-01-01" },
          );
          expect(visitWishes(fold([entry], today).herd).blocked).toEqual(days);
        }),
      );
    });
  });
});

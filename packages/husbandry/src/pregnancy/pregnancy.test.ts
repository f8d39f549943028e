import { addDays, type Day, day, daysFrom, present } from "@pollard/base";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { gestationLengths } from "./gestation.ts";
import { litterSizes } from "./litter.ts";
import {
  CYCLE_LENGTHS,
  type Exposure,
  HEAT_IN_KID,
  HEAT_TAKES,
  LOST_BEFORE_TERM,
  type Pregnancy,
  type PregnancyFacts,
  pregnancyOf,
} from "./pregnancy.ts";

const START = day("2025-10-01");
const on = (days: number): Day => addDays(START, days);
const hand = (days: number): Exposure => ({ from: on(days), to: on(days), how: "heat" });
const pen = (from: number, to: number): Exposure => ({ from: on(from), to: on(to), how: "pen" });

/** A doe served by hand on day 0, asked about on day 20, unless said otherwise. */
const facts = (part: Partial<PregnancyFacts> = {}): PregnancyFacts => ({
  exposures: [hand(0)],
  heats: [],
  checks: [],
  today: on(20),
  ...part,
});
const answer = (part: Partial<PregnancyFacts> = {}): Pregnancy => present(pregnancyOf(facts(part)), "a pregnancy");
const check = (
  days: number,
  method: "ultrasound" | "progesterone",
  result: "pregnant" | "empty" | "unsure",
  kids?: number,
) => ({
  on: on(days),
  method,
  result,
  ...(kids === undefined ? {} : { kids }),
});
const meanDay = ({ births }: Pregnancy): number => births.reduce((s, b) => s + daysFrom(START, b.day) * b.chance, 0);
const meanKids = ({ litter }: Pregnancy): number => litter.reduce((s, p, i) => s + p * (i + 1), 0);

/** The slow way: every sequence of heats, followed heat by heat, for hand services and pens without checks. */
function bySequences({ exposures, today }: PregnancyFacts): {
  readonly inKid: number;
  readonly on: ReadonlyMap<Day, number>;
} {
  const weights = new Map<Day, number>();
  let empty = 0;
  const opening = present(exposures[0], "an exposure");
  const spread = Math.min(21, daysFrom(opening.from, opening.to) + 1);
  const lastDay = exposures.reduce((latest, e) => (e.to > latest ? e.to : latest), opening.to);
  const open = (heat: Day) => exposures.some((e) => heat >= e.from && heat <= e.to);
  const follow = (heat: Day, chance: number): void => {
    if (heat > lastDay || heat > today) {
      empty += chance;
      return;
    }
    const takes = open(heat) ? HEAT_TAKES.value : 0;
    if (takes > 0) weights.set(heat, (weights.get(heat) ?? 0) + chance * takes);
    for (const cycle of CYCLE_LENGTHS) follow(addDays(heat, cycle.days), chance * (1 - takes) * cycle.chance);
  };
  for (let d = 0; d < spread; d++) follow(addDays(opening.from, d), 1 / spread);
  const taken = [...weights.values()].reduce((a, b) => a + b, 0);
  return { inKid: taken / (taken + empty), on: weights };
}

describe("pregnancyOf", () => {
  test("[HD-31] a doe never served is in no pregnancy", () => {
    expect(pregnancyOf(facts({ exposures: [] }))).toBeUndefined();
  });

  test("[HD-31] one hand mating: four in five, and she kids five months on", () => {
    const p = answer();
    expect(p.inKid).toBeCloseTo(HEAT_TAKES.value, 6);
    expect(p.willKid).toBeCloseTo(HEAT_TAKES.value * (1 - LOST_BEFORE_TERM.value), 6);
    expect(meanDay(p)).toBeGreaterThan(149.5);
    expect(meanDay(p)).toBeLessThan(151.5);
  });

  test("[HD-31] two matings on following days are one heat", () => {
    const p = answer({ exposures: [hand(0), hand(1)] });
    expect(p.inKid).toBeCloseTo(HEAT_TAKES.value, 6);
    expect(p.conceptions.map((c) => [c.on, c.exposure, Math.round(c.chance * 100)])).toEqual([
      [on(0), 0, 50],
      [on(1), 1, 50],
    ]);
  });

  test("[HD-32] a second heat three weeks later moves the due date to it", () => {
    const p = answer({ exposures: [hand(0), hand(21)], today: on(30) });
    const later = p.conceptions.find((c) => c.on === on(21));
    expect(later?.chance).toBeGreaterThan(0.75);
    expect(p.inKid).toBeGreaterThan(HEAT_TAKES.value);
  });

  test("[HD-32] a heat nobody answered makes an empty doe likely", () => {
    expect(answer({ heats: [on(20)] }).inKid).toBeCloseTo(
      (0.8 * HEAT_IN_KID.value) / (0.8 * HEAT_IN_KID.value + 0.2),
      6,
    );
  });

  test("[HD-33] a scan settles it; one too early says nothing; high progesterone is no proof", () => {
    const today = on(60);
    const before = answer({ today }).inKid;
    expect(answer({ today, checks: [check(50, "ultrasound", "pregnant")] }).inKid).toBeGreaterThan(0.99);
    expect(answer({ today, checks: [check(50, "ultrasound", "empty")] }).inKid).toBeLessThan(0.05);
    expect(answer({ today, checks: [check(10, "ultrasound", "empty")] }).inKid).toBeCloseTo(before, 9);
    expect(answer({ today, checks: [check(50, "ultrasound", "unsure")] }).inKid).toBeCloseTo(before, 9);
    const high = answer({ today, checks: [check(21, "progesterone", "pregnant")] }).inKid;
    expect(high).toBeGreaterThan(before);
    expect(high).toBeLessThan(0.95);
    expect(answer({ today, checks: [check(21, "progesterone", "empty")] }).inKid).toBeLessThan(0.2);
  });

  test("[HD-33] an empty scan at day 30 of a long stay moves conception later, not away", () => {
    const stay = { exposures: [pen(0, 60)], today: on(70) };
    const p = answer({ ...stay, checks: [check(35, "ultrasound", "empty")] });
    expect(meanDay(p)).toBeGreaterThan(meanDay(answer(stay)) + 5);
    expect(p.inKid).toBeGreaterThan(0.4);
  });

  test("[HD-34] three kids counted, and she is expected to have three", () => {
    const p = answer({ today: on(60), checks: [check(55, "ultrasound", "pregnant", 3)] });
    expect(present(p.litter[2], "three")).toBeGreaterThan(0.4);
    expect(meanKids(p)).toBeGreaterThan(meanKids(answer({ today: on(60) })) + 0.5);
    expect(meanDay(p)).toBeLessThan(meanDay(answer({ today: on(60) })));
  });

  test("[HD-35] each day past her time without kids makes it less likely that there are any", () => {
    const chances = [140, 150, 153, 156, 160, 175].map((d) => answer({ today: on(d) }).inKid);
    expect(chances).toEqual(chances.toSorted((a, b) => b - a));
    expect(chances[0]).toBeCloseTo(0.8, 2);
    expect(present(chances[4], "ten days late")).toBeLessThan(0.02);
    expect(chances[5]).toBe(0);
  });

  test("[HD-31] the order in which exposures are given makes no difference but to their numbers", () => {
    const a = answer({ exposures: [pen(0, 30), hand(40)], today: on(60) });
    const b = answer({ exposures: [hand(40), pen(0, 30)], today: on(60) });
    expect(b.births).toEqual(a.births);
    expect(b.conceptions.map((c) => 1 - c.exposure)).toEqual(a.conceptions.map((c) => c.exposure));
  });

  describe("laws", () => {
    const anExposure = fc.oneof(
      fc.integer({ min: 0, max: 60 }).map(hand),
      fc.tuple(fc.integer({ min: 0, max: 60 }), fc.integer({ min: 0, max: 50 })).map(([a, n]) => pen(a, a + n)),
    );
    const someFacts = fc.record({
      exposures: fc.array(anExposure, { minLength: 1, maxLength: 3 }),
      heats: fc.array(fc.integer({ min: 0, max: 120 }).map(on), { maxLength: 2 }),
      checks: fc.array(
        fc.record({
          on: fc.integer({ min: 0, max: 120 }).map(on),
          method: fc.constantFrom("ultrasound", "blood", "progesterone", "radiograph", "belly"),
          result: fc.constantFrom("pregnant", "empty", "unsure"),
        }),
        { maxLength: 2 },
      ),
      today: fc.integer({ min: 60, max: 200 }).map(on),
    });

    test("[HD-31] chances are chances and add up", () => {
      fc.assert(
        fc.property(someFacts, (given) => {
          const p = present(pregnancyOf(given), "a pregnancy");
          if (p.inKid === 0) return;
          const sum = (list: readonly number[]) => list.reduce((a, b) => a + b, 0);
          expect(sum(p.conceptions.map((c) => c.chance))).toBeCloseTo(1, 9);
          expect(sum(p.births.map((b) => b.chance))).toBeCloseTo(1, 9);
          expect(sum(p.litter)).toBeCloseTo(1, 9);
          expect(p.births.every((b) => b.day >= given.today)).toBe(true);
          expect(p.births).toEqual(
            p.births.toSorted((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : a.kids - b.kids)),
          );
        }),
        { numRuns: 40 },
      );
    });

    test("[HD-31] it equals following every sequence of heats, one by one", () => {
      const stays = fc.record({
        a: fc.tuple(fc.integer({ min: 0, max: 3 }), fc.integer({ min: 0, max: 22 })),
        gap: fc.integer({ min: 1, max: 6 }),
        b: fc.integer({ min: 0, max: 5 }),
      });
      fc.assert(
        fc.property(stays, ({ a: [start, length], gap, b }) => {
          const first = pen(start, start + length);
          const second = pen(start + length + gap, start + length + gap + b);
          const given = facts({ exposures: [first, second], today: on(100) });
          const fast = present(pregnancyOf(given), "a pregnancy");
          const slow = bySequences(given);
          expect(fast.inKid).toBeCloseTo(slow.inKid, 9);
          // Nobody kids within a hundred days, so the days weigh as the heats alone say.
          const total = [...slow.on.values()].reduce((x, y) => x + y, 0);
          for (const c of fast.conceptions) expect(c.chance).toBeCloseTo((slow.on.get(c.on) ?? 0) / total, 9);
        }),
        { numRuns: 10 },
      );
    });

    test("[HD-31] day and litter are the lengths of pregnancy over the litters, one by one", () => {
      const sizes = litterSizes({});
      for (const { day: born, kids, chance } of answer().births) {
        const length = gestationLengths({ litterSize: kids }).find((l) => l.days === daysFrom(START, born));
        expect(chance).toBeCloseTo(present(length, "a length").chance * present(sizes[kids - 1], "a size"), 9);
      }
    });
  });
});

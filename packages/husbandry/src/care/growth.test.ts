import { present } from "@pollard/base";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import published from "../../published/ninety-days.json" with { type: "json" };
import { BIRTH_KG, expectedBirthKg, GAIN_KG_A_DAY, type GrowthKid, kidGrowth, type Weighing } from "./growth.ts";
import { ninetyDayKg } from "./growth-ninety-days.ts";

const kid: GrowthKid = { sex: "doe", litterSize: 2 };
const weighed = (ageDays: number, kg: number): Weighing => ({ ageDays, kg, how: "weighed" });
const guessed = (ageDays: number, kg: number): Weighing => ({ ageDays, kg, how: "guessed" });

/** The slow way: all weights, the gain and a weight to come as one normal distribution, conditioned at once. */
function byConditioning(
  start: { kg: number; kgVar: number; gain: number; gainVar: number },
  weighings: readonly Weighing[],
  at: number,
) {
  const cov = (s: number, t: number) => start.kgVar + s * t * start.gainVar + Math.min(s, t) * 0.08 ** 2;
  const n = weighings.length;
  const error = (w: Weighing) => (w.how === "guessed" ? (0.15 * w.kg) ** 2 : 0.1 ** 2 + (0.02 * w.kg) ** 2);
  const rows = weighings.map((a, i) => weighings.map((b, j) => cov(a.ageDays, b.ageDays) + (i === j ? error(a) : 0)));
  const off = weighings.map((w) => w.kg - start.kg - w.ageDays * start.gain);
  const weights = solved(rows, off);
  const gain = start.gain + weighings.reduce((s, w, i) => s + w.ageDays * start.gainVar * present(weights[i], "w"), 0);
  const kg =
    start.kg + at * start.gain + weighings.reduce((s, w, i) => s + cov(w.ageDays, at) * present(weights[i], "w"), 0);
  const column = weighings.map((w) => cov(w.ageDays, at));
  const back = solved(rows, column);
  const kgVar = cov(at, at) - column.reduce((s, c, i) => s + c * present(back[i], "b"), 0);
  return { gain, kg, sd: Math.sqrt(kgVar), n };
}

/** Gaussian elimination with pivots. */
function solved(matrix: readonly (readonly number[])[], right: readonly number[]): readonly number[] {
  const m = matrix.map((row, i) => [...row, present(right[i], "right side")]);
  const n = m.length;
  const at = (i: number, j: number) => present(m[i]?.[j], "cell");
  for (let c = 0; c < n; c++) {
    let p = c;
    for (let i = c + 1; i < n; i++) if (Math.abs(at(i, c)) > Math.abs(at(p, c))) p = i;
    [m[c], m[p]] = [present(m[p], "row"), present(m[c], "row")];
    for (let i = 0; i < n; i++) {
      if (i === c) continue;
      const f = at(i, c) / at(c, c);
      m[i] = present(m[i], "row").map((x, j) => x - f * at(c, j));
    }
  }
  return m.map((row, i) => present(row[n], "right") / present(row[i], "pivot"));
}

describe("how a kid grows", () => {
  test("[HD-40] never weighed: what kids like it do", () => {
    const { gainKgADay, state, weightAt } = kidGrowth(kid, []);
    expect(gainKgADay.mean).toBeCloseTo(GAIN_KG_A_DAY.value.mean, 9);
    expect(state).toBe("unknown");
    expect(weightAt(30).mean).toBeGreaterThan(8);
  });

  test("[HD-40] weighed at birth and each week: the gain it had, with a narrow range", () => {
    const weights = [0, 7, 14, 21, 28].map((d) => weighed(d, 3 + 0.21 * d));
    const { gainKgADay, state } = kidGrowth(kid, weights);
    expect(gainKgADay.mean).toBeCloseTo(0.21, 1);
    expect(gainKgADay.high - gainKgADay.low).toBeLessThan(0.08);
    expect(state).toBe("thriving");
  });

  test("[HD-41] the further off the day, the wider the weight; a guess is worth less than a scale", () => {
    const { weightAt } = kidGrowth(kid, [weighed(0, 3), weighed(3, 3.5)]);
    const width = (d: number) => weightAt(d).high - weightAt(d).low;
    expect(width(4)).toBeLessThan(width(10));
    const byScale = kidGrowth(kid, [weighed(5, 4)]).weightAt(6);
    const byEye = kidGrowth(kid, [guessed(5, 4)]).weightAt(6);
    expect(byEye.high - byEye.low).toBeGreaterThan(byScale.high - byScale.low);
  });

  test("[HD-42] lighter than last week is losing; a tenth of a kilo is the scale's own error", () => {
    expect(kidGrowth(kid, [weighed(7, 4.6), weighed(14, 4.2)]).state).toBe("losing");
    expect(kidGrowth(kid, [weighed(7, 4.6), weighed(8, 4.55)]).state).toBe("thriving");
  });

  test("[HD-42] three weeks with hardly any gain is slow", () => {
    const weights = [0, 7, 14, 21, 28].map((d) => weighed(d, 3 + 0.04 * d));
    const { state, slowChance } = kidGrowth(kid, weights);
    expect(state).toBe("slow");
    expect(slowChance).toBeGreaterThan(0.9);
  });

  test("[HD-40] triplets are born lighter than twins, bucklings heavier than doelings, dwarfs lightest", () => {
    expect(expectedBirthKg({ sex: "doe", litterSize: 3 })).toBeLessThan(expectedBirthKg({ sex: "doe", litterSize: 2 }));
    expect(expectedBirthKg({ sex: "buck" })).toBeGreaterThan(expectedBirthKg({ sex: "doe" }));
    expect(expectedBirthKg({ sex: "doe", breed: "Pygmy" })).toBeLessThan(1.8);
  });

  test("[HD-43] the weight at 90 days needs one near that age and a sex", () => {
    const other = { sex: "doe", bornTogether: 1, raisedTogether: 1, damYears: 5, birthKg: 3 } as const;
    expect(ninetyDayKg(other, 50, 12)).toBeUndefined();
    expect(ninetyDayKg({ ...other, sex: "unsure" }, 90, 12)).toBeUndefined();
    expect(ninetyDayKg(other, 60, 12)).toBeCloseTo((3 + 9 * 1.5) * 1.11, 9);
  });

  describe("laws", () => {
    const someWeighings = fc.array(
      fc.record({
        ageDays: fc.integer({ min: 0, max: 60 }),
        kg: fc.double({ min: 1, max: 20, noNaN: true }),
        how: fc.constantFrom("weighed" as const, "guessed" as const),
      }),
      { maxLength: 6 },
    );

    test("[HD-40] it equals conditioning on all weights at once, in any order", () => {
      const kg = expectedBirthKg(kid);
      const start = {
        kg,
        kgVar: ((BIRTH_KG.value.sd * kg) / BIRTH_KG.value.mean) ** 2,
        gain: GAIN_KG_A_DAY.value.mean,
        gainVar: GAIN_KG_A_DAY.value.sd ** 2,
      };
      fc.assert(
        fc.property(someWeighings, fc.integer({ min: 60, max: 90 }), (weighings, at) => {
          const fast = kidGrowth(kid, weighings);
          const slow = byConditioning(start, weighings, at);
          expect(fast.gainKgADay.mean).toBeCloseTo(slow.gain, 7);
          expect(fast.weightAt(at).mean).toBeCloseTo(slow.kg, 6);
          expect(fast.weightAt(at).high - fast.weightAt(at).mean).toBeCloseTo(1.645 * slow.sd, 6);
          expect(kidGrowth(kid, weighings.toReversed()).gainKgADay.mean).toBeCloseTo(fast.gainKgADay.mean, 9);
        }),
        { numRuns: 60 },
      );
    });
  });

  describe("published", () => {
    test.each(published.factors)("[HD-43] $source: born $born, raised $raised, dam $damYears, $sex", (f) => {
      const same = {
        sex: f.sex as "doe",
        bornTogether: f.born,
        raisedTogether: f.raised,
        damYears: f.damYears,
        birthKg: 3,
      };
      expect(ninetyDayKg(same, 90, 10)).toBeCloseTo(10 * f.factor, 9);
    });
  });
});

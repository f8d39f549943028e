import { probability } from "@pollard/base";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { HAIRS, headForecast, type LookDay, TOUCHES } from "./head-forecast.ts";
import { type HeadKid, type HeadReading, headNetwork, logLikelihoods } from "./head-network.ts";
import { BUD_FEELS, CROWNS, SKIN_HOLDS, WHORLS } from "./head-signs.ts";
import { DEFAULT_HEAD_TABLES, meanChances } from "./head-tables.ts";
import { someReadings } from "../testing.ts";

const TABLES = DEFAULT_HEAD_TABLES;
const BELIEF = { PP: probability(0.1), Pp: probability(0.4), pp: probability(0.5) };

const look = (day: LookDay, touch: number, hair: number): HeadReading => ({
  reading: "coming",
  reader: "Oda",
  ...day,
  signs: {
    feel: { both: BUD_FEELS[Math.floor(touch / SKIN_HOLDS.length)] ?? "nothing" },
    skin: { both: SKIN_HOLDS[touch % SKIN_HOLDS.length] ?? "slides" },
    whorls: { both: WHORLS[Math.floor(hair / CROWNS.length)] ?? "none" },
    crown: CROWNS[hair % CROWNS.length] ?? "unclear",
  },
});

/** The slow way: read the head again with the coming look added, and divide. */
function byReading(readings: readonly HeadReading[], kid: HeadKid, coming: readonly HeadReading[]) {
  const network = headNetwork(kid, meanChances(TABLES));
  const before = logLikelihoods(network.after(readings));
  const after = logLikelihoods(network.after([...readings, ...coming]));
  const ratio = (g: "PP" | "Pp" | "pp") => Math.exp(after[g] - before[g]);
  return { horned: ratio("pp"), polled: 0.2 * ratio("PP") + 0.8 * ratio("Pp") };
}

describe("headForecast", () => {
  test("[HD-22] a doeling of two days: nothing felt today and on day 9 is likelier if she is polled", () => {
    const forecast = headForecast({
      kid: { sex: "doe" },
      readings: [],
      belief: BELIEF,
      tables: TABLES,
      days: [{ ageDays: 2 }, { ageDays: 9 }],
    });
    const nothingSliding = 0;
    const twice = forecast.touchPair(0, 1);
    expect(twice.polled[nothingSliding]).toBeGreaterThan(10 * (twice.horned[nothingSliding] ?? 1));
    const once = forecast.touch(0);
    expect(once.polled[nothingSliding]).toBeLessThan(4 * (once.horned[nothingSliding] ?? 1));
  });

  describe("laws", () => {
    const days: LookDay[] = [
      { ageDays: 4, fromDueDays: -2 },
      { ageDays: 8, fromDueDays: 2 },
    ];

    test("[HD-22] every list sums to 1, and a pair's first look is the look itself", () => {
      fc.assert(
        fc.property(someReadings(), fc.constantFrom("doe", "buck", "unsure"), (readings, sex) => {
          const f = headForecast({ kid: { sex }, readings, belief: BELIEF, tables: TABLES, days });
          for (const head of ["horned", "polled"] as const) {
            const [once, pair] = [f.touch(0)[head], f.touchPair(0, 1)[head]];
            for (let o = 0; o < TOUCHES; o++)
              expect(pair.subarray(o * TOUCHES, (o + 1) * TOUCHES).reduce((a, b) => a + b, 0)).toBeCloseTo(
                once[o] ?? 0,
                12,
              );
            for (const list of [once, f.hair[head], f.hairPair[head]])
              expect(list.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
          }
        }),
        { numRuns: 30 },
      );
    });

    test("[HD-22] the chance of an answer equals reading the head again with that answer", () => {
      const answer = fc.tuple(fc.nat(TOUCHES - 1), fc.nat(HAIRS - 1));
      fc.assert(
        fc.property(someReadings(), answer, answer, (readings, [t1, h1], [t2, h2]) => {
          const kid = { sex: "unsure" } as const;
          const f = headForecast({ kid, readings, belief: BELIEF, tables: TABLES, days });
          const [d1, d2] = days as [LookDay, LookDay];
          const slow = byReading(readings, kid, [look(d1, t1, h1), look(d2, t2, h2)]);
          const fast = (head: "horned" | "polled") =>
            (f.touchPair(0, 1)[head][t1 * TOUCHES + t2] ?? 0) * (f.hairPair[head][h1 * HAIRS + h2] ?? 0);
          expect(Math.log(fast("horned"))).toBeCloseTo(Math.log(slow.horned), 9);
          expect(Math.log(fast("polled"))).toBeCloseTo(Math.log(slow.polled), 9);
        }),
        { numRuns: 50 },
      );
    });
  });
});

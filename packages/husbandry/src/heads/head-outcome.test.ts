import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { isTruth, outcomeLikelihood, vetFindingLikelihood } from "./head-outcome.ts";
import { GROWTHS } from "./head-signs.ts";

const BOTH = { left: true, right: true };
const NEVER = { left: false, right: false };
const odds = (e: { horned: number; polled: number }) => e.horned / e.polled;

describe("outcomeLikelihood", () => {
  test("[HD-18] horns at three months on a head never disbudded prove horns, a bare head polled", () => {
    expect(odds(outcomeLikelihood({ left: "horn", right: "horn", ageDays: 90, disbudded: NEVER }))).toBeGreaterThan(
      300,
    );
    expect(odds(outcomeLikelihood({ left: "knob", right: "knob", ageDays: 90, disbudded: NEVER }))).toBeLessThan(
      1 / 300,
    );
  });

  test("[HD-18] a bare head at five weeks says less than at three months, at two weeks nothing", () => {
    const bare = (ageDays: number) =>
      odds(outcomeLikelihood({ left: "nothing", right: "unsure", ageDays, disbudded: NEVER }));
    expect(bare(14)).toBe(1);
    expect(bare(35)).toBeLessThan(0.5);
    expect(bare(90)).toBeLessThan(bare(35));
  });

  test("[HD-18] one side horned and one smooth where only the smooth one was disbudded: horned", () => {
    const e = outcomeLikelihood({
      left: "horn",
      right: "nothing",
      ageDays: 90,
      disbudded: { left: false, right: true },
    });
    expect(odds(e)).toBeGreaterThan(100);
  });

  test("[HD-19] only what shows by itself teaches: horns, or an undisbudded bare head at three months", () => {
    const teaches = (left: (typeof GROWTHS)[number], ageDays: number, disbudded: typeof BOTH) =>
      isTruth({ left, right: left, ageDays, disbudded });
    expect(teaches("horn", 40, NEVER)).toBe(true);
    expect(teaches("nothing", 90, NEVER)).toBe(true);
    expect(teaches("nothing", 40, NEVER)).toBe(false);
    expect(teaches("scur", 90, BOTH)).toBe(false);
    expect(teaches("unsure", 90, NEVER)).toBe(false);
  });

  describe("laws", () => {
    test("[HD-19] a disbudded head without a full horn says nothing, and never teaches", () => {
      const grown = fc.constantFrom(...GROWTHS.filter((g) => g !== "horn"));
      fc.assert(
        fc.property(grown, grown, fc.nat(400), (left, right, ageDays) => {
          const outcome = { left, right, ageDays, disbudded: BOTH };
          expect(odds(outcomeLikelihood(outcome))).toBeCloseTo(1, 12);
          expect(isTruth(outcome)).toBe(false);
        }),
      );
    });

    test("[HD-18] left and right are alike, and no outcome proves more than a mix-up of animals allows", () => {
      const grown = fc.constantFrom(...GROWTHS);
      fc.assert(
        fc.property(grown, grown, fc.nat(400), fc.boolean(), (left, right, ageDays, done) => {
          const disbudded = { left: done, right: done };
          const there = odds(outcomeLikelihood({ left, right, ageDays, disbudded }));
          expect(odds(outcomeLikelihood({ left: right, right: left, ageDays, disbudded }))).toBeCloseTo(there, 9);
          expect(Math.abs(Math.log(there))).toBeLessThan(Math.log(1000));
        }),
      );
    });
  });
});

describe("vetFindingLikelihood", () => {
  test("[HD-18] a bud found on both sides is strong evidence, but the two sides are one witness", () => {
    const one = odds(vetFindingLikelihood({ left: "bud", right: "unsure" }));
    const both = odds(vetFindingLikelihood({ left: "bud", right: "bud" }));
    expect(both).toBeGreaterThan(one);
    expect(both).toBeLessThan(one * one);
    expect(odds(vetFindingLikelihood({ left: "unsure", right: "unsure" }))).toBe(1);
  });

  test("[HD-18] a bud on one side and none on the other settles nothing", () => {
    expect(odds(vetFindingLikelihood({ left: "bud", right: "no-bud" }))).toBeCloseTo(1, 12);
  });

  describe("laws", () => {
    test("[HD-18] for each head the chances of all findings without an unsure one sum to 1", () => {
      const all = (["bud", "no-bud"] as const).flatMap((left) =>
        (["bud", "no-bud"] as const).map((right) => vetFindingLikelihood({ left, right })),
      );
      expect(all.reduce((a, e) => a + e.horned, 0)).toBeCloseTo(1, 12);
      expect(all.reduce((a, e) => a + e.polled, 0)).toBeCloseTo(1, 12);
    });
  });
});

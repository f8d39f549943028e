import { HAIRS, type HeadForecast, TOUCHES } from "@pollard/husbandry";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import published from "../../published/testing-thresholds.json" with { type: "json" };
import type { Ending } from "./endings.ts";
import { lookAhead } from "./look-ahead.ts";
import { turningPoints } from "./turning-points.ts";

/** A look that says yes or no, and nothing else: half of the answers of feel and skin mean yes, the hair tells nothing. */
function yesOrNo(truePositive: number, falsePositive: number): HeadForecast {
  const touches = (yes: number) => Float64Array.from({ length: TOUCHES }, (_, t) => (t < 6 ? yes : 1 - yes) / 6);
  const even = new Float64Array(HAIRS).fill(1 / HAIRS);
  const twice = (list: Float64Array) => Float64Array.from([...list].flatMap((p) => [...list].map((q) => p * q)));
  const [horned, polled] = [touches(truePositive), touches(falsePositive)];
  return {
    touch: () => ({ horned, polled }),
    touchPair: () => ({ horned: twice(horned), polled: twice(polled) }),
    hair: { horned: even, polled: even },
    hairPair: { horned: twice(even), polled: twice(even) },
  };
}

const endings = (needless: number, missed: number): readonly Ending[] => [
  { kind: "leave", horned: missed, polled: 0 },
  { kind: "vet-list", horned: 0, polled: needless },
];

const oneLook = (tp: number, fp: number, needless: number, missed: number, look: number) => {
  const open = endings(needless, missed);
  const ahead = lookAhead({ forecast: yesOrNo(tp, fp), endings: [open], lookLoss: look, maxLooks: 1 });
  return turningPoints(open, ahead);
};

describe("turningPoints", () => {
  test("[KD-8] without a look the one turning point is where a needless operation and a miss weigh alike", () => {
    expect(turningPoints(endings(1, 3), undefined)).toEqual({ leaveUpTo: 0.25, listFrom: 0.25 });
  });

  test("[KD-8] a look that is too dear changes nothing, a free one that tells the truth leaves no doubt", () => {
    expect(oneLook(0.9, 0.1, 1, 3, 5)).toEqual({ leaveUpTo: 0.25, listFrom: 0.25 });
    const { leaveUpTo, listFrom } = oneLook(1 - 1e-12, 1e-12, 1, 3, 0);
    expect(leaveUpTo).toBeLessThan(1e-6);
    expect(listFrom).toBeGreaterThan(1 - 1e-6);
  });

  test("[KD-8] where no vet can come there is nothing to turn to", () => {
    expect(turningPoints(endings(1, 3).slice(0, 1), undefined)).toEqual({ leaveUpTo: undefined, listFrom: undefined });
  });

  describe("laws", () => {
    test("[KD-8] a dearer look is asked for in fewer cases", () => {
      const chance = fc.double({ min: 0.55, max: 0.99, noNaN: true });
      fc.assert(
        fc.property(chance, chance, fc.double({ min: 0, max: 0.3, noNaN: true }), (tp, tn, look) => {
          const [cheap, dear] = [oneLook(tp, 1 - tn, 1, 3, look), oneLook(tp, 1 - tn, 1, 3, look + 0.05)];
          expect(dear.leaveUpTo ?? 0).toBeGreaterThanOrEqual((cheap.leaveUpTo ?? 1) - 1e-7);
          expect(dear.listFrom ?? 1).toBeLessThanOrEqual((cheap.listFrom ?? 0) + 1e-7);
        }),
      );
    });
  });

  describe("published", () => {
    test.each(published.cases)(
      "[KD-8] pauker-kassirer1980: a look right in $truePositive of the horned, wrong in $falsePositive of the polled",
      ({ truePositive, falsePositive, needless, missed, look, leaveUpTo, listFrom }) => {
        const got = oneLook(truePositive, falsePositive, needless, missed, look);
        expect(got.leaveUpTo).toBeCloseTo(leaveUpTo, 7);
        expect(got.listFrom).toBeCloseTo(listFrom, 7);
      },
    );
  });
});

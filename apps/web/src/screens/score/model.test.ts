import type { CallLine, HeadRecordModel } from "@pollard/advice";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { recordPage } from "./model.ts";

const score = (brier: number) => ({ kids: 10, brier, logScore: brier * 2 });
const line = (over: Partial<CallLine>): CallLine => ({
  kids: 1,
  horned: 1,
  said: { of: 10, count: 9, sense: "about" },
  meanCall: 0.9,
  low: 0.3,
  high: 1,
  came: "as-called",
  ...over,
});
const record = (over: Partial<HeadRecordModel> = {}): HeadRecordModel => ({
  kids: 10,
  horned: 5,
  truths: [
    { from: "dna-test", kids: 0 },
    { from: "growth", kids: 4 },
    { from: "grown-head", kids: 0 },
    { from: "vet-finding", kids: 6 },
  ],
  readNotKnown: 2,
  seasons: 1,
  scores: {
    together: score(0.05),
    pedigreeAlone: score(0.2),
    signsAlone: score(0.03),
    ruleOfThumb: score(0.1),
  },
  calls: [line({}), line({ kids: 10, horned: 9, meanCall: 0.95 })],
  readers: [],
  learnt: { kids: 10, truths: [], lessons: [], readers: [], breeds: [] },
  ...over,
});

describe("the page of the calls", () => {
  test("[UI-80] the nearest way stands first, also where it is not ours, and bars are as long as their misses", () => {
    const { ways } = recordPage(record());
    expect(ways.map(({ way }) => way)).toEqual(["signsAlone", "together", "ruleOfThumb", "pedigreeAlone"]);
    expect(ways.map(({ share }) => Number(share.toFixed(3)))).toEqual([0.15, 0.25, 0.5, 1]);
  });

  test("[UI-80] a ring's area grows with its heads, and it stands where its kids ended", () => {
    const [one, ten] = recordPage(record()).rings;
    expect(one?.radius).toBe(5);
    expect((ten?.radius ?? 0) - 5).toBeCloseTo(2.2 * 3, 10);
    expect([ten?.called, ten?.came]).toEqual([0.95, 0.9]);
  });

  test("[UI-80] no head, no scores: nothing is pretended", () => {
    expect(recordPage(record({ kids: 0, scores: undefined, calls: [] }))).toMatchObject({ rings: [], ways: [] });
  });

  test("[UI-80] ways of knowing that nobody used are not listed", () => {
    expect(recordPage(record()).truths).toEqual([
      { from: "growth", kids: 4 },
      { from: "vet-finding", kids: 6 },
    ]);
  });

  describe("laws", () => {
    test("[UI-80] every ring lies on the field, whatever came", () => {
      const share = fc.double({ min: 0, max: 1, noNaN: true });
      fc.assert(
        fc.property(fc.integer({ min: 1, max: 300 }), share, share, (kids, part, meanCall) => {
          const [ring] = recordPage(
            record({ calls: [line({ kids, horned: Math.round(part * kids), meanCall })] }),
          ).rings;
          expect(ring?.came).toBeGreaterThanOrEqual(0);
          expect(ring?.came).toBeLessThanOrEqual(1);
          expect(ring?.radius).toBeLessThan(50);
        }),
      );
    });
  });
});

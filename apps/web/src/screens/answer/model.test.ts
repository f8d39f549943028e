import type { HornsBelief, KidModel, WeighedAction } from "@pollard/advice";
import { counted } from "@pollard/advice";
import { day, probability } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { answerPage, bestOfEach, findingDrawn } from "./model.ts";

const kid = {
  id: animalId("k1"),
  name: "Pip",
  tag: undefined,
  mark: undefined,
  sex: "doe",
  damName: undefined,
} as const;
const beliefOf = (horns: number, low = horns, high = horns): HornsBelief => ({
  horns: probability(horns),
  low: probability(low),
  high: probability(high),
  forecast: probability(0.5),
  counted: counted(horns, horns === 0 || horns === 1 ? "proven" : "open"),
  weighed: [],
  readings: 1,
  readers: ["Ines"],
  unlearnt: probability(horns),
  learntFrom: 0,
});
const model = (belief: HornsBelief | undefined): KidModel => ({
  kid,
  dam: undefined,
  sires: [],
  ages: { born: day("2026-03-11"), ageDays: 7, daysFromDue: undefined, early: undefined },
  belief,
  advice: { kind: "read-head", from: day("2026-03-13"), by: day("2026-03-16"), end: day("2026-03-25"), rule: "KD-1" },
  chosen: undefined,
  apart: [],
  fourBuds: false,
  intersexWatch: false,
});

describe("the answer of one head", () => {
  test("[UI-7] there is no page before a reading is stored", () => {
    expect(answerPage(model(undefined))).toBe(undefined);
  });

  test("[UI-11] a belief in quarters is counted in twentieths, so that a range fits beside it", () => {
    const page = answerPage(model(beliefOf(0.75, 0.6, 0.85)));
    expect([page?.of, page?.horns.count, page?.low.count, page?.high.count]).toEqual([20, 15, 12, 17]);
  });

  test("[UI-11] what is proven is said as proven", () => {
    expect(answerPage(model(beliefOf(1)))?.horns.sense).toBe("proven");
  });

  test("[UI-26] of each thing that could be done the best day is shown, the advised one first", () => {
    const action = (kind: WeighedAction["kind"], expectedLoss: number, on?: string): WeighedAction => ({
      kind,
      day: on === undefined ? undefined : day(on),
      visit: undefined,
      expectedLoss,
    });
    const best = bestOfEach([
      action("vet-list", 0.2, "2026-03-20"),
      action("look-again", 0.3, "2026-03-19"),
      action("look-again", 0.25, "2026-03-20"),
      action("vet-list", 0.4, "2026-03-22"),
      action("leave", 1.5),
    ]);
    expect(best.map(({ kind, day: on }) => `${kind} ${on}`)).toEqual([
      "vet-list 2026-03-20",
      "look-again 2026-03-20",
      "leave undefined",
    ]);
  });

  test("[UI-26] a sign is drawn by the side that was answered", () => {
    expect([findingDrawn({ both: "pointed" }), findingDrawn({ right: "nothing" })]).toEqual(["pointed", "nothing"]);
  });

  describe("laws", () => {
    test("[UI-11] whatever the belief, the page has one denominator", () => {
      const chance = fc.double({ min: 0.0001, max: 0.9999, noNaN: true });
      fc.assert(
        fc.property(chance, chance, chance, (a, b, c) => {
          const [low = 0, horns = 0, high = 0] = [a, b, c].sort((x, y) => x - y);
          const page = answerPage(model(beliefOf(horns, low, high)));
          const all = [page?.horns, page?.low, page?.high, page?.forecast];
          expect(new Set(all.map((each) => each?.of)).size).toBe(1);
        }),
      );
    });
  });
});

import { day } from "@pollard/base";
import { describe, expect, test } from "vitest";
import { anEntry } from "@pollard/records/testing";
import { MIXED_LITTERS } from "../belief/sires.ts";
import { dnaTest, goat, id, kidding, outcome, service, situation } from "../testing.ts";
import { reviewModel } from "./review.ts";
import { seasonForecast } from "./season-forecast.ts";

const TODAY = "2026-08-20";
const does = ["Ash", "Beech", "Cedar", "Elm"];
const stock = [
  goat("Rook", "buck", { head: "polled" }),
  goat("Flint", "buck", { head: "horned" }),
  ...does.map((d) => goat(d, "doe", { head: "horned" })),
];
/** Eight kids of Rook; those named horned have grown horns, the others nothing. */
const season = (horned: readonly string[], sire = "Rook") => [
  ...does.map((d, i) => kidding(d, `2026-03-0${i + 1}`, { [`${d}1`]: "doe", [`${d}2`]: "buck" }, [sire])),
  ...does.flatMap((d) =>
    [`${d}1`, `${d}2`].map((k) => outcome(k, "2026-07-01", horned.includes(k) ? "horn" : "nothing")),
  ),
];
const review = (entries: Parameters<typeof situation>[0], year?: number) => {
  const model = reviewModel(situation(entries, TODAY), year);
  if (model.kind !== "season") throw new Error(model.kind);
  return model;
};

describe("reviewModel", () => {
  test("[PA-15] half of a likely carrier's kids horned: as expected, and it has taught what he is", () => {
    const { horned, learnt, sires, kids, bucks } = review([...stock, ...season(["Ash1", "Beech2", "Cedar1", "Elm1"])]);
    expect(horned).toMatchObject({ seen: 4, of: 8, verdict: "as-expected" });
    expect(kids).toBe(8);
    expect(bucks).toMatchObject({ seen: 4, of: 8 });
    expect(sires[0]?.buck.name).toBe("Rook");
    expect(learnt[0]?.animal.name).toBe("Rook");
    expect(learnt[0]?.now.Pp).toBeGreaterThan(0.99);
  });

  test("[PA-15] doubt about the sire spreads what was to be expected: none horned is no wonder where he may be PP", () => {
    const { horned } = review([...stock, ...season([])]);
    expect(horned.seen).toBe(0);
    // Coins alone would say once in 256; but about one polled buck in nine is PP.
    expect(horned.p).toBeGreaterThan(0.05);
    const tested = review([...stock, dnaTest("Rook", ["P", "p"]), dnaTest("Rook", ["P", "p"]), ...season([])]);
    expect(tested.horned.p).toBeLessThan(0.05);
    expect(tested.horned.verdict).not.toBe("as-expected");
  });

  test("[PA-16] a polled kid of two horned parents comes first, and another sire is the likeliest reason", () => {
    const { surprises } = review([
      ...stock,
      ...season(
        does.flatMap((d) => [`${d}1`, `${d}2`]).filter((k) => k !== "Cedar2"),
        "Flint",
      ),
      anEntry("dna-test", { animal: id("Cedar2"), locus: "polled", alleles: ["P", "p"] }, { on: "2026-07-20" }),
    ]);
    expect(surprises[0]).toMatchObject({ head: "polled", kid: { name: "Cedar2" } });
    expect(surprises[0]?.expected).toBeLessThan(0.02);
    expect(surprises[0]?.explanations[0]?.kind).toBe("other-sire");
    expect(surprises[0]?.explanations[0]?.chance).toBeGreaterThan(0.5);
  });

  test("[PA-16] a horned kid of a buck thought to be PP: he is not, or the sire is another", () => {
    const { surprises, learnt } = review([
      ...stock,
      kidding("Ash", "2025-03-01", { x1: "doe", x2: "doe" }, ["Rook"]),
      kidding("Beech", "2025-03-01", { x3: "doe", x4: "doe" }, ["Rook"]),
      kidding("Cedar", "2025-03-01", { x5: "doe", x6: "doe" }, ["Rook"]),
      ...["x1", "x2", "x3", "x4", "x5", "x6"].map((k) => outcome(k, "2025-07-01", "nothing")),
      ...season(["Ash1", "Ash2", "Beech1", "Elm2"]),
    ]);
    expect(surprises[0]?.head).toBe("horned");
    expect(surprises[0]?.explanations[0]?.kind).toBe("parent-not-as-thought");
    expect(learnt[0]?.animal.name).toBe("Rook");
    expect(learnt[0]?.moved).toBeGreaterThan(0.5);
  });

  test("[PA-15] visits, heads and money are of the season; money only where the keeper said prices", () => {
    const disbudding = anEntry("disbudding", { kid: id("Ash1"), done: "both-sides" }, { on: "2026-03-06" });
    const visit = anEntry("vet-day", {}, { on: "2026-03-06" });
    const plain = review([...stock, ...season([]), disbudding, visit]);
    expect(plain.vet).toMatchObject({ visits: 1, heads: 1, cost: undefined });
    const prices = [
      anEntry("setting", { key: "money-visit", value: 60 }, { on: "2026-01-01" }),
      anEntry("setting", { key: "money-head", value: 15 }, { on: "2026-01-01" }),
    ];
    expect(review([...stock, ...season([]), disbudding, visit, ...prices]).vet.cost).toBe(75);
  });

  test("[PA-15] no kiddings, or none in the year asked for, is an answer", () => {
    expect(reviewModel(situation(stock, TODAY))).toEqual({ kind: "no-season" });
    expect(reviewModel(situation([...stock, ...season([])], TODAY), 2019)).toEqual({ kind: "no-season" });
    expect(review([...stock, ...season([])], 2026).kiddings).toBe(4);
  });

  // By hand: both twins have one sire in 1 - m of the litters and in half of the others, and one is the pp buck half of the time.
  test("[AD-105] twins of a PP and a pp buck in one pen: both horned or neither, more often than two coins", () => {
    const entries = [
      ...stock,
      dnaTest("Rook", ["P", "P"]),
      dnaTest("Flint", ["p", "p"]),
      dnaTest("Ash", ["p", "p"]),
      service("Ash", ["Rook", "Flint"], "2025-10-01", "2025-10-03"),
      kidding("Ash", "2026-03-01", { a1: "doe", a2: "doe" }),
    ];
    const { herd } = situation(entries, TODAY);
    const kids = ["a1", "a2"].flatMap((k) => herd.animals.get(id(k)) ?? []);
    const chances = seasonForecast(herd, day("2026-03-01"), kids).horned(kids);
    const one = MIXED_LITTERS.value / 2;
    // 600 draws stray by less than four times the root of p (1 - p) / 600; tests err, and a buck may be a stranger.
    chances.forEach((p, k) => {
      const want = [(1 - one) / 2, one, (1 - one) / 2][k] ?? Number.NaN;
      expect(Math.abs(p - want)).toBeLessThan(4 * Math.sqrt((want * (1 - want)) / 600) + 0.02);
    });
  });

  describe("laws", () => {
    test("[PA-15] the forecast of a season is that of its pairs, and knows nothing of its kids", () => {
      const penned = service("Ash", ["Rook", "Flint"], "2025-10-01", "2025-10-10");
      const entries = [...stock, penned, kidding("Ash", "2026-03-01", { a: "doe", b: "buck", c: "doe" })];
      const kidsOf = (all: Parameters<typeof situation>[0]) => {
        const { herd } = situation(all, TODAY);
        const kids = ["a", "b", "c"].flatMap((k) => herd.animals.get(id(k)) ?? []);
        const first = kids[0]?.born;
        if (first === undefined) throw new Error("no kid");
        return { herd, kids, forecast: seasonForecast(herd, first, kids) };
      };
      const { kids, forecast } = kidsOf(entries);
      const chances = forecast.horned(kids);
      expect(chances.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9);
      const mean = chances.reduce((sum, p, k) => sum + p * k, 0);
      const each = kids.reduce((sum, k) => sum + forecast.beliefs.polled(k.id).pp, 0);
      // 600 draws of the parents, then exact: three kids stray by less than 3 times 0.5 over the root of 600, four times over.
      expect(Math.abs(mean - each)).toBeLessThan((4 * 3 * 0.5) / Math.sqrt(600));
      const grown = kidsOf([...entries, ...["a", "b", "c"].map((k) => outcome(k, "2026-07-01", "horn"))]);
      expect(grown.forecast.horned(grown.kids)).toEqual(chances);
    });
  });
});

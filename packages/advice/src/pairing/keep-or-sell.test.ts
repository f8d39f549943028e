import { day } from "@pollard/base";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { KIDDED_TRAIT } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import { goat, id, kidding, outcome, POLLED_SIGNS, reading, situation } from "../testing.ts";
import { keepOrSell } from "./keep-or-sell.ts";

const TODAY = "2026-08-20";
const parents = [
  goat("Rook", "buck", { head: "polled" }),
  goat("Flint", "buck", { head: "horned" }),
  goat("Ash", "doe", { head: "horned" }),
  goat("Fern", "doe", { head: "polled" }),
];
const kid = (entries: Parameters<typeof situation>[0], name: string) =>
  keepOrSell(situation([...parents, ...entries], TODAY)).find((k) => k.kid.name === name);

describe("keepOrSell", () => {
  const ember = [
    kidding("Fern", "2026-03-01", { Ember: "doe", Burr: "buck" }, ["Rook"]),
    outcome("Ember", "2026-06-20", "nothing"),
  ];

  test("[PA-18] a polled kid of two polled parents that looks like a doe is open to neither breeding nor sale for it", () => {
    const found = kid(ember, "Ember");
    expect(found?.open).toEqual(["keep-or-sell-as-pet"]);
    expect(found?.closed.filter((c) => c.why === "intersex-not-ruled-out").map((c) => c.use)).toEqual([
      "keep-to-breed",
      "sell-to-breed",
    ]);
  });

  const tested = (alleles: [string, string]) =>
    anEntry("dna-test", { animal: id("Ember"), locus: "polled", alleles }, { on: "2026-07-01" });

  test("[PA-18] a test that finds one polled gene opens it again", () => {
    expect(kid([...ember, tested(["P", "p"])], "Ember")?.open).toContain("keep-to-breed");
    expect(kid([...ember, tested(["P", "P"])], "Ember")?.open).not.toContain("keep-to-breed");
  });

  test("[PA-18] kids of a father and his daughter are not proposed for breeding", () => {
    const found = kid(
      [
        goat("Sedge", "doe", { head: "horned", dam: id("Ash"), sire: id("Flint") }),
        kidding("Sedge", "2026-03-01", { Inky: "doe" }, ["Flint"]),
      ],
      "Inky",
    );
    expect(found?.inbreeding).toBeCloseTo(0.25, 12);
    expect(found?.closed.map((c) => c.why)).toContain("inbred");
  });

  test("[PA-62] a young doe that kidded before she came is no kid to be kept or sold", () => {
    const yearling = goat("Inky", "doe", { head: "horned", born: day("2025-03-10") });
    expect(kid([yearling], "Inky")?.ageDays).toBe(528);
    const kidded = anEntry("trait", { animal: id("Inky"), ...KIDDED_TRAIT });
    expect(kid([yearling, kidded], "Inky")).toBeUndefined();
  });

  test("[PA-18] weights, litter and dam stand beside it; only bucklings can be wethers; the gone are not listed", () => {
    const weight = (kg: number, on: string) => anEntry("weight", { animal: id("Burr"), kg, how: "weighed" }, { on });
    const found = kid([...ember, weight(3, "2026-03-01"), weight(18, "2026-06-09")], "Burr");
    expect(found).toMatchObject({ litter: 2, damKids: 2, growth: { state: "thriving" }, weight: { kg: 18 } });
    expect(found?.growth?.gainKgADay.mean).toBeCloseTo(0.15, 1);
    expect(kid(ember, "Burr")?.growth).toBeUndefined();
    expect(found?.open).toContain("wether");
    const sold = [...ember, anEntry("departure", { animal: id("Burr"), why: "sold" }, { on: "2026-07-01" })];
    expect(kid(sold, "Burr")).toBeUndefined();
  });

  test("[AD-7] of a newborn whose head nobody has read nothing is said", () => {
    const newborn = [kidding("Fern", "2026-08-15", { Pip: "doe" }, ["Flint"])];
    expect(kid(newborn, "Pip")?.genotype).toBeUndefined();
    expect(kid(newborn, "Pip")?.closed).toContainEqual({ use: "sell-to-breed", why: "head-not-known" });
    expect(kid([...newborn, reading("Pip", "2026-08-19", POLLED_SIGNS)], "Pip")?.genotype).toBeDefined();
  });

  describe("laws", () => {
    test("[PA-18] whatever its readings and outcomes, an uncleared kid of two polled parents is never proposed", () => {
      fc.assert(
        fc.property(
          fc.constantFrom("doe" as const, "unsure" as const, "intersex" as const),
          fc.subarray(["read", "grown"] as const),
          (sex, seen) => {
            const entries = [
              kidding("Fern", "2026-03-01", { k: sex }, ["Rook"]),
              ...(seen.includes("read") ? [reading("k", "2026-03-05", POLLED_SIGNS)] : []),
              ...(seen.includes("grown") ? [outcome("k", "2026-06-20", "nothing")] : []),
            ];
            const open = kid(entries, "k")?.open ?? [];
            expect(open).not.toContain("keep-to-breed");
            expect(open).not.toContain("sell-to-breed");
          },
        ),
        { numRuns: 12 },
      );
    });
  });
});

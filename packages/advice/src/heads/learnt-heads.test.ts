import { day, logOdds, probability } from "@pollard/base";
import { DEFAULT_HEAD_TABLES, type HeadSigns } from "@pollard/husbandry";
import { type Entry, fold } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { kidModel } from "./kid-model.ts";
import { headLearner, learntHeads } from "./learnt-heads.ts";
import { learntModel } from "./learnt-model.ts";
import { dnaTest, goat, HORNED_SIGNS, id, kidding, outcome, POLLED_SIGNS, reading, situation } from "../testing.ts";
import { truthOf } from "./truths.ts";

const TODAY = "2026-03-20";
const herdOf = (entries: readonly Entry[]) => fold(entries, day(TODAY)).herd;
const parents = [
  ...["Rook", "Gale"].map((buck) => goat(buck, "buck", { head: "polled" })),
  goat("Ash", "doe", { head: "horned" }),
];
const disbudding = (kid: string, on: string, found: "bud" | "no-bud" | "unsure", right = found): Entry =>
  anEntry("disbudding", { kid: id(kid), done: "both-sides", found: { left: found, right } }, { on });
/** A season of kids of Ash and Gale, all read alike, that all turned out alike. */
const season = (kids: readonly string[], signs: HeadSigns, grew: "horn" | "nothing"): readonly Entry[] =>
  kids.flatMap((kid) => [
    kidding("Ash", "2025-03-01", { [kid]: "doe" }, ["Gale"]),
    reading(kid, "2025-03-04", signs),
    outcome(kid, "2025-07-01", grew),
  ]);
const names = (letter: string, n: number) => Array.from({ length: n }, (_, i) => `${letter}${i}`);
const truth = (entries: readonly Entry[], of = "kid") => {
  const animal = herdOf([...parents, kidding("Ash", "2025-03-01", { kid: "doe" }), ...entries]).animals.get(id(of));
  return animal === undefined ? undefined : truthOf(animal);
};

describe("what counts as truth", () => {
  test("[AD-22] horns, a bare head at three months, a laboratory, the vet's finding", () => {
    expect(truth([outcome("kid", "2025-07-01", "horn")])).toMatchObject({ head: "horned", from: "growth" });
    expect(truth([outcome("kid", "2025-07-01", "nothing")])).toMatchObject({ head: "polled", from: "growth" });
    expect(truth([dnaTest("kid", ["P", "p"])])).toMatchObject({ head: "polled", from: "dna-test" });
    expect(truth([disbudding("kid", "2025-03-08", "bud")])).toMatchObject({ head: "horned", from: "vet-finding" });
    expect(truth([], "Rook")).toMatchObject({ head: "polled", from: "grown-head" });
  });

  test("[AD-22] not a smooth disbudded head, a bare head too young, two sides that differ, nor any reading", () => {
    expect(truth([disbudding("kid", "2025-03-08", "unsure"), outcome("kid", "2025-07-01", "nothing")])).toBeUndefined();
    expect(truth([outcome("kid", "2025-03-30", "nothing")])).toBeUndefined();
    expect(truth([disbudding("kid", "2025-03-08", "bud", "no-bud")])).toBeUndefined();
    expect(truth([reading("kid", "2025-03-04", HORNED_SIGNS)])).toBeUndefined();
  });

  test("[AD-22] the laboratory outweighs what was seen, what grew outweighs the vet", () => {
    expect(truth([dnaTest("kid", ["p", "p"]), outcome("kid", "2025-07-01", "nothing")])?.head).toBe("horned");
    expect(truth([disbudding("kid", "2025-03-08", "no-bud"), outcome("kid", "2025-07-01", "horn")])?.head).toBe(
      "horned",
    );
  });
});

describe("what the herd's heads teach", () => {
  test("[AD-23] without a kid whose truth is known, the tables are the keepers'", () => {
    const heads = learntHeads(herdOf([...parents, kidding("Ash", TODAY, { kid: "doe" })]));
    expect(heads.tables).toBe(DEFAULT_HEAD_TABLES);
    expect(heads.sure()).toBe(DEFAULT_HEAD_TABLES);
    expect(learntModel(heads).kids).toBe(0);
  });

  test("[AD-23] hornless kids with clear whorls make whorls count for less, everywhere, and the old belief stays in sight", () => {
    const whorled: HeadSigns = { whorls: { both: "clear" } };
    const taught = [...parents, ...season(names("p", 12), whorled, "nothing")];
    const kid = [kidding("Ash", "2026-03-16", { kid: "doe" }, ["Rook"]), reading("kid", "2026-03-18", whorled)];
    const belief = kidModel(situation([...taught, ...kid], TODAY), id("kid"))?.belief;
    expect(belief?.learntFrom).toBe(12);
    expect(belief?.horns).toBeLessThan((belief?.unlearnt ?? 0) - 0.15);
    expect(belief?.low).toBeLessThanOrEqual(belief?.horns ?? 0);
    expect(belief?.high).toBeGreaterThanOrEqual(belief?.horns ?? 1);
    const weights = belief?.weighed.reduce((sum, w) => sum + w.logOdds, 0) ?? 0;
    expect(logOdds(belief?.forecast ?? probability(0.5)) + weights).toBeCloseTo(
      logOdds(belief?.horns ?? probability(0.5)),
      1,
    );
    const untaught = kidModel(situation([...parents, ...kid], TODAY), id("kid"))?.belief;
    expect(untaught?.unlearnt).toBeCloseTo(untaught?.horns ?? 0, 12);
    const lesson = learntModel(learntHeads(herdOf(taught))).lessons.find((l) => l.code === "whorls-on-polled");
    expect(lesson?.before.count).toBe(1);
    expect(lesson?.after.count).toBeGreaterThan(1);
    expect(lesson?.seen).toBeCloseTo(12, 1);
  });

  test("[AD-23] of very many kids the newest teach", () => {
    const whorled: HeadSigns = { whorls: { both: "clear" } };
    const old = season(names("o", 6), whorled, "nothing");
    const later = names("n", 120).flatMap((kid) => [
      kidding("Ash", "2025-03-01", { [kid]: "doe" }, ["Gale"]),
      reading(kid, "2025-03-04", whorled),
      outcome(kid, "2025-08-01", "horn"),
    ]);
    const { truths } = learntHeads(herdOf([...parents, ...old, ...later]));
    expect(truths.size).toBe(120);
    expect([...truths.values()].every((t) => t.head === "horned")).toBe(true);
  });

  test("[AD-22] a smooth disbudded head teaches nothing", () => {
    const taught = names("s", 12).flatMap((kid) => [
      kidding("Ash", "2025-03-01", { [kid]: "doe" }, ["Rook"]),
      reading(kid, "2025-03-04", HORNED_SIGNS),
      disbudding(kid, "2025-03-06", "unsure"),
      outcome(kid, "2025-07-01", "nothing"),
    ]);
    expect(learntHeads(herdOf([...parents, ...taught])).learnt.kids).toBe(0);
  });

  test("[AD-22] what is felt on a head after disbudding is no reading of it", () => {
    const entries = [
      ...parents,
      kidding("Ash", "2025-03-01", { kid: "doe" }, ["Rook"]),
      disbudding("kid", "2025-03-06", "bud"),
      reading("kid", "2025-03-12", POLLED_SIGNS),
    ];
    expect(learntHeads(herdOf(entries)).learnt.kids).toBe(0);
    expect(
      situation(entries, TODAY)
        .beliefs.facts(id("kid"))
        .map((f) => f.about),
    ).not.toContain("readings");
  });

  describe("laws", () => {
    const signs = fc.record<HeadSigns>(
      {
        feel: fc.record({ both: fc.constantFrom("nothing", "rounded", "pointed", "unsure") }),
        skin: fc.record({ both: fc.constantFrom("slides", "held-fast") }),
        whorls: fc.record({ both: fc.constantFrom("none", "clear", "not-looked") }),
        crown: fc.constantFrom("rounded-cap", "flat"),
      },
      { requiredKeys: [] },
    );
    const taught = [...parents, ...season(names("h", 3), HORNED_SIGNS, "horn")];

    test("[AD-23] no belief flows back: readings of kids whose truth is open move nothing", () => {
      fc.assert(
        fc.property(signs, (read) => {
          const open = [kidding("Ash", "2026-03-16", { kid: "doe" }, ["Rook"]), reading("kid", "2026-03-18", read)];
          expect(learntHeads(herdOf([...taught, ...open])).learnt).toEqual(learntHeads(herdOf(taught)).learnt);
        }),
        { numRuns: 12 },
      );
    });

    test("[AD-23] the learner that remembers says what learning anew says", () => {
      const remembering = headLearner();
      fc.assert(
        fc.property(signs, fc.constantFrom("horn" as const, "nothing" as const), (read, grew) => {
          const entries = [...taught, ...season(["more"], read, grew)];
          const heads = remembering(herdOf(entries));
          expect(heads.learnt).toEqual(learntHeads(herdOf(entries)).learnt);
          const weighed = anEntry("weight", { animal: id("more"), kg: 3, how: "weighed" });
          expect(remembering(herdOf([...entries, weighed]))).toBe(heads);
        }),
        { numRuns: 12 },
      );
    });
  });
});

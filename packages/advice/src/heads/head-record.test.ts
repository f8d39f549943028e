import { addDays, day } from "@pollard/base";
import { type Entry, fold } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { believe } from "../belief/beliefs.ts";
import { headRecord } from "./head-record.ts";
import { herdBefore } from "./herd-before.ts";
import { dnaTest, goat, HORNED_SIGNS, id, kidding, outcome, POLLED_SIGNS, reading, situation } from "../testing.ts";

const TODAY = "2026-10-01";
const parents = [
  goat("Rook", "buck", { head: "polled" }),
  goat("Ash", "doe", { head: "horned" }),
  goat("Beech", "doe", { head: "horned" }),
];
const recordOf = (entries: readonly Entry[]) => headRecord(situation([...parents, ...entries], TODAY));
/** A doe kid of Ash and Rook, read at three days. */
const readKid = (kid: string, born: string, signs = HORNED_SIGNS, by = "Ines"): readonly Entry[] => [
  kidding("Ash", born, { [kid]: "doe" }, ["Rook"]),
  reading(kid, addDays(day(born), 3), signs, by),
];

describe("the readings' record", () => {
  test("[AD-24] no head whose truth is known: no scores, and no pretence of any", () => {
    expect(recordOf(readKid("a1", "2026-03-01"))).toMatchObject({ kids: 0, scores: undefined, calls: [], readers: [] });
    expect(recordOf(readKid("a1", "2026-03-01")).readNotKnown).toBe(1);
  });

  test("[AD-24] horns called and horns grown: counted, with where the truth is known from", () => {
    const record = recordOf([...readKid("a1", "2026-03-01"), outcome("a1", "2026-07-01", "horn")]);
    expect(record).toMatchObject({ kids: 1, horned: 1, seasons: 1, readNotKnown: 0 });
    expect(record.truths.find((t) => t.from === "growth")?.kids).toBe(1);
    expect(record.calls).toMatchObject([{ kids: 1, horned: 1, came: "as-called" }]);
    expect(record.scores?.together.brier).toBeLessThan(record.scores?.pedigreeAlone.brier ?? 0);
  });

  test("[AD-24] a buck whose kids are known by now is still unknown to the kids of his first season", () => {
    const first = [...readKid("a1", "2026-03-01"), outcome("a1", "2026-07-01", "horn")];
    const alone = recordOf(first).scores?.pedigreeAlone.brier;
    const tested = recordOf([...first, dnaTest("Rook", ["P", "P"])]).scores?.pedigreeAlone.brier;
    // Known in October before the season it misleads; known in May, within it, it came too late to.
    expect(tested).toBeGreaterThan(alone ?? 1);
    const late = anEntry(
      "dna-test",
      { animal: id("Rook"), locus: "polled", alleles: ["P", "P"] },
      { on: "2026-05-01" },
    );
    expect(recordOf([...first, late]).scores?.pedigreeAlone.brier).toBeCloseTo(alone ?? 0, 12);
  });

  test("[AD-24] each reader by their own readings: right, wrong and left open", () => {
    const record = recordOf([
      ...readKid("a1", "2026-03-01"),
      reading("a1", "2026-03-04", POLLED_SIGNS, "Tobias"),
      outcome("a1", "2026-07-01", "horn"),
    ]);
    expect(record.readers.map(({ reader, right, wrong, open }) => [reader, right, wrong, open])).toEqual([
      ["Ines", 1, 0, 0],
      ["Tobias", 0, 1, 0],
    ]);
  });

  describe("laws", () => {
    const grew = fc.constantFrom("horn" as const, "nothing" as const);

    test("[AD-24] neither a kid's outcome, nor its litter mate's, nor its later kids' change its own call", () => {
      fc.assert(
        fc.property(grew, grew, grew, (own, mates, kids) => {
          const call = (entries: readonly Entry[]) => recordOf(entries).calls.map((c) => c.meanCall);
          const kid = readKid("a1", "2025-03-01");
          const plain = call([...kid, outcome("a1", "2025-07-01", "horn")]);
          const later = [
            kidding("Beech", "2025-03-10", { b1: "buck" }, ["Rook"]),
            outcome("b1", "2025-07-01", mates),
            kidding("a1", "2026-04-01", { c1: "doe" }, ["Rook"]),
            outcome("c1", "2026-08-01", kids),
          ];
          const full = call([...kid, outcome("a1", "2025-07-01", own), ...later]);
          expect(full).toHaveLength(1);
          expect(full[0]).toBeCloseTo(plain[0] ?? 0, 12);
        }),
        { numRuns: 8 },
      );
    });

    test("[AD-24] the herd as it was equals the herd that the earlier entries fold to", () => {
      const anyDay = fc.integer({ min: 0, max: 250 }).map((n) => addDays(day("2026-01-01"), n));
      const facts = fc.array(fc.tuple(fc.constantFrom("a1", "a2", "b1"), anyDay, grew), { maxLength: 6 });
      fc.assert(
        fc.property(facts, anyDay, (outcomes, cut) => {
          const entries = [
            ...parents,
            kidding("Ash", "2026-01-10", { a1: "doe", a2: "buck" }, ["Rook"]),
            kidding("Beech", "2026-05-10", { b1: "buck" }, ["Rook"]),
            ...outcomes.map(([kid, on, what]) => outcome(kid, on, what)),
          ];
          const then = fold(
            entries.filter((entry) => entry.on < cut),
            day(TODAY),
          ).herd;
          const known = fold(entries, day(TODAY)).herd;
          const past = herdBefore(known, cut, new Set());
          expect([...past.animals.keys()].sort()).toEqual(
            [...then.animals.keys()].filter((key) => then.animals.get(key)?.born !== undefined).sort(),
          );
          const [was, is] = [believe(past), believe(then)];
          for (const key of past.animals.keys()) expect(was.polled(key).pp).toBeCloseTo(is.polled(key).pp, 10);
        }),
        { numRuns: 25 },
      );
    });
  });
});

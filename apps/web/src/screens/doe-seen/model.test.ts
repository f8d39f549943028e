import { day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { type Entry, parseEntry } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { KID_COUNTS, SEEN_KINDS, type SeenAnswers, seenFact, seenMissing } from "./model.ts";

const doe = animalId("ash");
const on = day("2026-01-12");

describe("what was seen of a doe", () => {
  test("[UI-64] heat and a loss need the day and nothing else", () => {
    expect(seenFact({ kind: "heat", on, kids: "0" }, doe)).toEqual({ kind: "heat", on, body: { doe } });
    expect(seenFact({ kind: "abortion", on, kids: "2" }, doe)).toEqual({ kind: "abortion", on, body: { doe } });
    expect(seenMissing({ kind: "heat", kids: "0" })).toBe("day");
    expect(seenMissing({ on, kids: "0" })).toBe("kind");
  });

  test("[UI-64] a check needs how and what; kids count only where she is in kid", () => {
    const scan = { kind: "pregnancy-check", on, way: "ultrasound", kids: "2" } as const;
    expect(seenMissing(scan)).toBe("check");
    expect(seenFact(scan, doe)).toBeUndefined();
    expect(seenFact({ ...scan, found: "pregnant" }, doe)?.body).toEqual({
      doe,
      way: "ultrasound",
      found: "pregnant",
      kids: 2,
    });
    expect(seenFact({ ...scan, found: "empty" }, doe)?.body).toEqual({ doe, way: "ultrasound", found: "empty" });
    expect(seenFact({ ...scan, found: "pregnant", kids: "0" }, doe)?.body).not.toHaveProperty("kids");
  });

  describe("laws", () => {
    test("[UI-64] whatever is complete is an entry that the herd takes; whatever is not is none", () => {
      const answers: fc.Arbitrary<SeenAnswers> = fc.record(
        {
          kind: fc.constantFrom(...SEEN_KINDS),
          on: fc.constant(on),
          way: fc.constantFrom("ultrasound", "blood", "progesterone", "radiograph", "belly"),
          found: fc.constantFrom("pregnant", "empty", "unsure"),
          kids: fc.constantFrom(...KID_COUNTS),
        },
        { requiredKeys: ["kids"] },
      );
      fc.assert(
        fc.property(answers, (given) => {
          const fact = seenFact(given, doe);
          expect(fact === undefined).toBe(seenMissing(given) !== undefined);
          if (fact === undefined) return;
          const entry: Entry = anEntry(fact.kind, fact.body, { on: fact.on });
          expect(parseEntry(entry).ok).toBe(true);
        }),
      );
    });
  });
});

import { addDays, day, daysFrom } from "@pollard/base";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import published from "../../published/gestation.json" with { type: "json" };
import {
  dueDays,
  expectedDueDay,
  gestationLengths,
  lengthPlausibility,
  meanGestation,
  normalBelow,
  serviceLikelihood,
} from "./gestation.ts";

const SERVICE = day("2025-10-01");
const anyCarrying = fc.record(
  { breed: fc.constantFrom("Toggenburg", "alpine", "Pygmy", "Poitou"), litterSize: fc.integer({ min: 1, max: 5 }) },
  { requiredKeys: [] },
);

describe("gestationLengths", () => {
  test("[HD-15] a doe served on 1 October is due on the last day of February", () => {
    expect(expectedDueDay(SERVICE, {})).toBe("2026-03-01");
    expect(expectedDueDay(SERVICE, { breed: "pygmy" })).toBe("2026-02-27");
  });

  test("[HD-17] 150 days are usual, 144 unusual, 120 cannot be right", () => {
    expect([150, 145, 143, 120, 170].map((d) => lengthPlausibility(d, {}))).toEqual([
      "usual",
      "usual",
      "unusual",
      "implausible",
      "implausible",
    ]);
  });

  describe("laws", () => {
    test("[HD-15] chances sum to 1 and lie around the mean", () => {
      fc.assert(
        fc.property(anyCarrying, (carrying) => {
          const lengths = gestationLengths(carrying);
          expect(lengths.reduce((a, l) => a + l.chance, 0)).toBeCloseTo(1, 12);
          expect(lengths.reduce((a, l) => a + l.chance * l.days, 0)).toBeCloseTo(meanGestation(carrying), 4);
        }),
      );
    });

    test("[HD-15] due days are the same lengths, counted from the service", () => {
      fc.assert(
        fc.property(anyCarrying, (carrying) => {
          expect(dueDays(SERVICE, carrying).map((d) => daysFrom(SERVICE, d.day))).toEqual(
            gestationLengths(carrying).map((l) => l.days),
          );
        }),
      );
    });
  });

  describe("published", () => {
    test.each(published.lengths)("[HD-15] $source: mean length of $breed", ({ breed, mean, tolerance }) => {
      const lengths = gestationLengths(breed === null ? {} : { breed });
      const got = lengths.reduce((a, l) => a + l.chance * l.days, 0);
      expect(Math.abs(got - mean)).toBeLessThanOrEqual(tolerance);
    });

    test("[HD-15] amoah1996: spread of 2.64 days, 0.92 days less per extra kid", () => {
      const lengths = gestationLengths({});
      const mean = lengths.reduce((a, l) => a + l.chance * l.days, 0);
      const sd = Math.sqrt(lengths.reduce((a, l) => a + l.chance * (l.days - mean) ** 2, 0));
      expect(Math.abs(sd - published.spread.sd)).toBeLessThan(published.spread.tolerance);
      expect(meanGestation({ litterSize: 3 }) - meanGestation({ litterSize: 2 })).toBeCloseTo(
        published.perExtraKid.days,
        12,
      );
    });

    test.each(published.normal)("[HD-15] the normal table at $z", ({ z, below }) => {
      expect(normalBelow(z)).toBeCloseTo(below, 4);
    });
  });
});

describe("serviceLikelihood", () => {
  test("[HD-16] of two bucks used three weeks apart, the one 150 days before the kidding is the sire", () => {
    const kidding = addDays(SERVICE, 150);
    const first = serviceLikelihood(SERVICE, SERVICE, kidding, {});
    const second = serviceLikelihood(addDays(SERVICE, 21), addDays(SERVICE, 21), kidding, {});
    expect(first).toBeGreaterThan(1000 * second);
  });

  test("[HD-16] a service that was seen outweighs a pen the doe was in all season, without ruling it out", () => {
    const kidding = addDays(SERVICE, 151);
    const seen = serviceLikelihood(SERVICE, SERVICE, kidding, {});
    const pen = serviceLikelihood(addDays(SERVICE, -60), addDays(SERVICE, 60), kidding, {});
    expect(seen / pen).toBeGreaterThan(2);
    expect(seen / pen).toBeLessThan(10);
  });

  describe("laws", () => {
    test("[HD-16] equals going through the days of the stay one by one", () => {
      fc.assert(
        fc.property(
          fc.integer({ min: 0, max: 60 }),
          fc.integer({ min: 100, max: 230 }),
          anyCarrying,
          (stay, after, carrying) => {
            const kidding = addDays(SERVICE, after);
            let slow = 0;
            for (let d = 0; d <= stay; d++)
              for (const { days, chance } of gestationLengths(carrying))
                if (d + days === after) slow += chance / Math.min(stay + 1, 21);
            expect(serviceLikelihood(SERVICE, addDays(SERVICE, stay), kidding, carrying)).toBeCloseTo(slow, 12);
          },
        ),
      );
    });
  });
});

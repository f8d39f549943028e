import { day } from "@pollard/base";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { bornTogether, kiddingOf, kiddingsOf, servicesOf } from "./births-and-services.ts";
import { anyEntries } from "./fold/any-entries.ts";
import { fold } from "./fold/ledger.ts";

describe("births and services", () => {
  test("[RE-68] they are those that looking through the whole herd finds, in its order", () => {
    fc.assert(
      fc.property(anyEntries, (entries) => {
        const { herd } = fold(entries, day("2026-06-01"));
        for (const animal of herd.animals.values()) {
          const { id, kidding } = animal;
          const born = herd.kiddings.find((k) => k.entry === kidding);
          // Asked twice: the second time from what was looked up the first.
          for (let asked = 0; asked < 2; asked++) {
            expect(kiddingOf(herd, animal)).toBe(born);
            expect(bornTogether(herd, animal).map((kid) => kid.id)).toEqual(born?.kids ?? []);
            expect(kiddingsOf(herd, id)).toEqual(herd.kiddings.filter((k) => k.dam === id));
            expect(servicesOf(herd, id)).toEqual(herd.services.filter((s) => s.doe === id));
          }
        }
      }),
      { numRuns: 300 },
    );
  });
});

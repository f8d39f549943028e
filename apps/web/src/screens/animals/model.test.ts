import type { AnimalLine } from "@pollard/advice";
import { day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { FILTERS, shownGoats } from "./model.ts";

const today = day("2026-03-18");
const goat = (name: string, sex: AnimalLine["ref"]["sex"], born: string | undefined, gone = false): AnimalLine => ({
  ref: { id: animalId(name), name, tag: undefined, mark: undefined, sex, damName: undefined },
  born: born === undefined ? undefined : day(born),
  chip: undefined,
  gone,
  urgency: undefined,
  surety: "open",
  head: "unknown",
});
const herd = [
  goat("Rook", "buck", "2021-04-01"),
  goat("Hazel", "doe", undefined),
  goat("Pip", "doe", "2026-03-11"),
  goat("Barley", "buck", "2026-03-18"),
  goat("Nettle", "doe", "2020-04-01", true),
];
const names = (filter: (typeof FILTERS)[number]) => shownGoats(herd, filter, today).map(({ ref }) => ref.name);

describe("the list of animals", () => {
  test("[UI-31] kids youngest first, grown ones by name, those that left only where asked for", () => {
    expect(names("all")).toEqual(["Barley", "Hazel", "Pip", "Rook"]);
    expect(names("kids")).toEqual(["Barley", "Pip"]);
    expect(names("does")).toEqual(["Hazel"]);
    expect(names("bucks")).toEqual(["Rook"]);
    expect(names("gone")).toEqual(["Nettle"]);
    expect(shownGoats([], "all", today)).toEqual([]);
  });

  describe("laws", () => {
    test("[UI-31] every goat stands in All or in Gone, and once", () => {
      const sexes = fc.constantFrom("doe", "buck", "wether", "intersex", "unsure");
      const goats = fc.uniqueArray(
        fc
          .tuple(fc.string({ minLength: 1, maxLength: 5 }), sexes, fc.boolean())
          .map(([name, sex, gone]) => goat(name, sex, undefined, gone)),
        { selector: ({ ref }) => ref.id, maxLength: 15 },
      );
      fc.assert(
        fc.property(goats, (all) => {
          const shown = [...shownGoats(all, "all", today), ...shownGoats(all, "gone", today)];
          expect(shown.map(({ ref }) => ref.id).sort()).toEqual(all.map(({ ref }) => ref.id).sort());
        }),
      );
    });
  });
});

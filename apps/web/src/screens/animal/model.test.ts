import { day, probability } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import type { EntryId, HistoryLine, Stamp } from "@pollard/records";
import { englishCatalogue, screens } from "@pollard/words";
import { describe, expect, test } from "vitest";
import { ageSaid, canEnter, siresShown, undoOf, watchOf, whySaid } from "./model.ts";

const today = day("2026-03-18");
const buck = (name: string) =>
  ({ id: animalId(name), name, tag: undefined, mark: undefined, sex: "buck", damName: undefined }) as const;

describe("one goat", () => {
  test("[UI-351] signs of both sexes are said where they were seen, not derived from the parents", () => {
    expect(watchOf({ ...buck("a"), sex: "intersex" })).toBe("seen");
    expect(watchOf({ ...buck("a"), sex: "doe" })).toBe("may");
  });

  test("[UI-152] why: the belief, what it would be without each fact, and with other founders, in five lines at most", () => {
    const fact = (about: "growth" | "dna-test" | "grown-head", name: string, chance: number) => ({
      fact: { of: animalId(name), about },
      of: buck(name),
      chance,
    });
    const why = {
      locus: { id: "polled", name: "Polled" },
      genotype: "Pp",
      chance: 0.97,
      without: [fact("growth", "Wren", 0.4), fact("dna-test", "Rook", 0.6), fact("grown-head", "Ash", 0.9)],
      founders: { times: 0.5, chance: 0.95 },
    };
    const catalogue = { words: englishCatalogue.words(() => buck("Rook")), loci: englishCatalogue.loci };
    expect(whySaid(screens, catalogue, why)).toEqual([
      "Pp: about 19 in 20.",
      "Without what grew on Wren: about 8 in 20.",
      "Without the DNA test of Rook: about 12 in 20.",
      "Without the grown head of Ash: about 18 in 20.",
      "Were rarer alleles half as common in strangers: about 19 in 20.",
    ]);
    expect(whySaid(screens, catalogue, { ...why, without: [], founders: undefined })).toEqual([
      "Pp: about 19 in 20.",
      "No single record moves it.",
    ]);
  });

  test.each([
    ["2026-03-18", "0 days old"],
    ["2026-03-17", "1 day old"],
    ["2026-02-25", "21 days old"],
    ["2026-02-24", "3 weeks old"],
    ["2025-12-01", "3 months old"],
    ["2023-03-01", "3 years old"],
  ])("[UI-24] born %s: %s", (born, said) => {
    expect(ageSaid(screens, day(born), today)).toBe(said);
  });

  test("[UI-24] only what a goat of that sex and age can have is asked for", () => {
    expect(canEnter("doe", "here", 7)).toEqual([]);
    expect(canEnter("doe", "here", 100)).toEqual(["mating", "growth"]);
    expect(canEnter("doe", "here", undefined)).toEqual(["kidding", "mating", "growth"]);
    expect(canEnter("buck", "here", 400)).toEqual(["mating", "growth"]);
    expect(canEnter("doe", "gone", 400)).toEqual([]);
  });

  test("[UI-24] a sire is named alone only where it is clear; else each that it could be, with its chance", () => {
    expect(siresShown([{ sire: buck("Rook"), chance: probability(0.97) }])).toEqual([
      { sire: buck("Rook"), counted: undefined },
    ]);
    const shown = siresShown([
      { sire: buck("Rook"), chance: probability(0.6) },
      { sire: buck("Gale"), chance: probability(0.38) },
      { sire: undefined, chance: probability(0.02) },
    ]);
    expect(shown.map(({ sire, counted }) => `${sire?.name} ${counted?.count} of ${counted?.of}`)).toEqual([
      "Rook 12 of 20",
      "Gale 8 of 20",
    ]);
    expect(siresShown([])).toEqual([]);
  });

  test("[UI-25] what stands can be struck, and what was struck can be brought back", () => {
    const line = (state: HistoryLine["state"], undoneBy: string | undefined): HistoryLine => ({
      entry: "e1" as EntryId,
      on: today,
      time: undefined,
      by: "Ines",
      at: "" as Stamp,
      kind: "weight",
      animals: [],
      state,
      undoneBy: undoneBy as EntryId | undefined,
    });
    expect(undoOf(line("stands", undefined))).toBe("strike");
    expect(undoOf(line("struck", "e2"))).toBe("bring-back");
    expect(undoOf(line("replaced", "e2"))).toBe("none");
  });
});

import { animalId } from "@pollard/genetics";
import type { EntryId } from "@pollard/records";
import { englishCatalogue, screens } from "@pollard/words";
import { describe, expect, test } from "vitest";
import { animalsOf, entriesOf, factSaid, reasonsSaid } from "./model.ts";

describe("what does not fit", () => {
  test("[UI-42] every problem leads to its entries and its goats, each once", () => {
    const tag = {
      code: "two-with-one-tag",
      entry: "e1" as EntryId,
      tag: "26 07",
      animals: [animalId("tern"), animalId("robin")],
    } as const;
    expect([entriesOf(tag), animalsOf(tag, [])]).toEqual([["e1"], ["tern", "robin"]]);
    const rook = {
      id: animalId("rook"),
      name: "Rook",
      tag: undefined,
      mark: undefined,
      sex: "buck",
      damName: undefined,
    } as const;
    const cannot = {
      code: "cannot-be",
      locus: { id: "polled", name: "Polled", suspects: { facts: [], links: [] } },
      entries: ["e1", "e2"] as unknown as EntryId[],
      animals: [rook, rook],
      what: "other",
    } as const;
    expect([entriesOf(cannot), animalsOf(cannot, [])]).toEqual([["e1", "e2"], ["rook"]]);
  });

  test("[UI-154] what may lie behind a problem is named, the likeliest first, four lines at most", () => {
    const wrong = (fact: string, chance: number) => ({ kind: "wrong-fact", fact, chance }) as const;
    const reasons = {
      explanations: [
        { kind: "wrong-parent", link: { kid: animalId("tern"), parent: "sire" }, chance: 0.6 },
        wrong("t1", 0.2),
        { kind: "as-written", chance: 0.1 },
        wrong("t1", 0.05),
        wrong("t1", 0.04),
        wrong("t1", 0.009),
      ],
      facts: [{ fact: "t1", of: animalId("rook"), about: "dna-test" }],
    } as const;
    expect(reasonsSaid(englishCatalogue.loci, reasons, (id) => id)).toEqual([
      "The sire of tern is another animal: about 60 in 100.",
      "This belongs to another animal: the DNA test of rook: about 20 in 100.",
      "The names are right; a test or a look misled: about 10 in 100.",
      "This belongs to another animal: the DNA test of rook: about 5 in 100.",
    ]);
    expect(reasonsSaid(englishCatalogue.loci, undefined, (id) => id)).toEqual([]);
  });

  test("[UI-42] two corrections can be told apart by what they say", () => {
    const weight = (kg: number) =>
      ({ kind: "weight", on: "2026-03-14", body: { animal: animalId("fescue"), kg, how: "weighed" } }) as const;
    expect(factSaid(screens, weight(4.5))).toBe("Weight: 4.5 kg, weighed");
    expect(factSaid(screens, weight(4.8))).not.toBe(factSaid(screens, weight(4.5)));
  });
});

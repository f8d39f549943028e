import { animalId } from "@pollard/genetics";
import type { EntryId } from "@pollard/records";
import { screens } from "@pollard/words";
import { describe, expect, test } from "vitest";
import { animalsOf, entriesOf, factSaid } from "./model.ts";

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
      entries: ["e1", "e2"] as unknown as EntryId[],
      animals: [rook, rook],
      what: "other",
    } as const;
    expect([entriesOf(cannot), animalsOf(cannot, [])]).toEqual([["e1", "e2"], ["rook"]]);
  });

  test("[UI-42] two corrections can be told apart by what they say", () => {
    const weight = (kg: number) =>
      ({ kind: "weight", on: "2026-03-14", body: { animal: animalId("fescue"), kg, how: "weighed" } }) as const;
    expect(factSaid(screens, weight(4.5))).toBe("Weight: 4.5 kg, weighed");
    expect(factSaid(screens, weight(4.8))).not.toBe(factSaid(screens, weight(4.5)));
  });
});

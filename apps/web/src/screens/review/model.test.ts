import type { AnimalRef, Diversity } from "@pollard/advice";
import { animalId } from "@pollard/genetics";
import { englishCatalogue, screens } from "@pollard/words";
import { describe, expect, test } from "vitest";
import { kinSaid } from "./model.ts";

const rook: AnimalRef = {
  id: animalId("rook"),
  name: "Rook",
  tag: undefined,
  mark: undefined,
  sex: "buck",
  damName: undefined,
};
const words = englishCatalogue.words(() => rook);
const FOUND: Diversity<AnimalRef> = {
  animals: 12,
  founders: [{ who: rook, share: 0.5 }],
  effectiveFounders: 4.84,
  ancestors: [{ who: rook, share: 0.456 }],
  effectiveAncestors: 3,
  founderGenomes: 2,
  meanKinship: 0.1249,
  meanInbreeding: 0.0312,
  completeGenerations: 2.14,
  effectiveSize: 17.6,
};

describe("the season looked back on", () => {
  test("[UI-151] how kin the young are: whose genes they have, how inbred they are, and how fast that rises", () => {
    expect(kinSaid(screens, words, FOUND)).toEqual([
      "Of the 12 goats here without kids.",
      "Their genes come from 1 founder, as from 4.8 alike.",
      "The largest share came through Rook: 46 in 100.",
      "Mean inbreeding 3.1 in 100; mean kinship 12.5 in 100.",
      "Their pedigree is known for 2.1 generations.",
      "They grow inbred as fast as a herd of 18.",
    ]);
  });

  test("[UI-151] where nothing can be told of the future, that is said", () => {
    const said = kinSaid(screens, words, { ...FOUND, ancestors: [], effectiveSize: undefined });
    expect(said.at(-1)).toBe("How fast inbreeding rises cannot be told yet.");
    expect(said).toHaveLength(5);
  });
});

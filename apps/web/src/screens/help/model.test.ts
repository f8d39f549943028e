import { describe, expect, test } from "vitest";
import { termsFor } from "./model.ts";

const TERMS = [
  { word: "Bud", means: "What a horn grows from." },
  { word: "Disbudding", means: "The vet removes it." },
  { word: "Dam, sire", means: "Mother, father." },
  { word: "Élevage", means: "Keeping goats." },
];
const found = (typed: string) => termsFor(TERMS, typed).map(({ word }) => word);

describe("finding a word", () => {
  test("[UI-98] a word that begins so comes first, then one that holds it, then one explained by it", () => {
    expect(found("bud")).toEqual(["Bud", "Disbudding"]);
    expect(found("horn")).toEqual(["Bud"]);
    expect(found(" SIRE ")).toEqual(["Dam, sire"]);
    expect(found("ele")).toEqual(["Élevage"]);
    expect(found("xyz")).toEqual([]);
    expect(found("")).toHaveLength(TERMS.length);
  });
});

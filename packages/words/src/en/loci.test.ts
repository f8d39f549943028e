import type { LocusSettingProblem } from "@pollard/advice";
import { animalId, type Explanation, type GenotypeProblemIssue } from "@pollard/genetics";
import { describe, expect, test } from "vitest";
import type { Catalogue } from "../catalogue.ts";
import { CATALOGUES, expectPlain } from "../testing.ts";
import { sayExplanation, sayMisfitReason, sayNamedFact } from "./loci.ts";

const [animal, parent] = [animalId("Hazel"), animalId("Rook")];
const ALLOWED = ["A", "B", "E", "F", "O"];
const LOCUS: readonly LocusSettingProblem[] = [
  { code: "not-json", path: "$" },
  { code: "comes-with-pollard", path: "id", got: "wattles" },
  { code: "not-an-object", path: "$" },
  { code: "not-an-object", path: "trait.shown" },
  { code: "not-text", path: "name" },
  { code: "not-a-list", path: "alleles" },
  { code: "too-few-alleles", path: "alleles", got: 1 },
  { code: "too-many-alleles", path: "alleles", got: 13, most: 12 },
  { code: "allele-twice", path: "alleles", got: "A" },
  { code: "not-one-of", path: "inheritance", got: "other", allowed: ["autosomal", "x-linked"] },
  { code: "not-shares", path: "frequencies", names: ALLOWED },
];
const ISSUES: readonly GenotypeProblemIssue[] = [
  { code: "locus-without-alleles", locus: "coat" },
  { code: "allele-twice", locus: "coat", allele: "L" },
  { code: "bad-frequencies", breed: undefined, got: [1, 1] },
  { code: "bad-frequencies", breed: "Boer", got: [1, 1] },
  { code: "duplicate-id", animal },
  { code: "missing-dam", animal, parent },
  { code: "missing-sire", animal, parent },
  { code: "own-ancestor", animal, parent },
  { code: "dam-used-as-sire", animal, parent },
  { code: "sex-against-role", animal, role: "dam" },
  { code: "bad-weight", animal, parent, got: -1 },
  { code: "bad-litter", animal, got: 2 },
  { code: "no-sire-left", animal },
  { code: "bad-sex-chance", animal, got: 2 },
  { code: "bad-likelihood", animal, fact: "A test", sex: "XX" },
  { code: "bad-founder-prior", animal },
  { code: "founder-prior-unused", animal },
];
const EXPLANATIONS: readonly Explanation[] = [
  { kind: "as-written", chance: 0.001 },
  { kind: "wrong-parent", link: { kid: animal, parent: "sire" }, chance: 0.83 },
  { kind: "wrong-fact", fact: "a test", chance: 0.169 },
  {
    kind: "several-wrong",
    records: [
      { kind: "wrong-parent", link: { kid: animal, parent: "dam" } },
      { kind: "wrong-fact", fact: "a test" },
    ],
    chance: 0.2,
  },
];
const explained = EXPLANATIONS.map((e) =>
  sayExplanation(
    e,
    (id) => id,
    (fact) => fact,
  ),
);
const textsOf = ({ loci }: Catalogue): readonly string[] => [
  ...LOCUS.map(loci.locusProblem),
  ...ISSUES.map(loci.genotypeIssue),
  ...EXPLANATIONS.map((e) =>
    loci.explanation(
      e,
      (id) => id,
      (fact) => fact,
    ),
  ),
  loci.findingProblem({ code: "no-such-locus", got: "wattle", allowed: ["polled", "wattles"] }),
  loci.findingProblem({ code: "unknown-trait", got: "eyes", allowed: [] }),
  loci.findingProblem({ code: "unknown-trait", got: "eyes", allowed: ["ears"] }),
  loci.findingProblem({ code: "unknown-phenotype", got: "green", allowed: ["blue", "brown"] }),
  loci.findingProblem({ code: "unknown-allele", got: "C", allowed: ALLOWED }),
  loci.findingProblem({ code: "not-one-or-two-alleles", got: 3 }),
  loci.standing("disputed") ?? "",
  loci.standing("belief") ?? "",
];

describe("words of loci", () => {
  test.each(CATALOGUES)("[WO-1] no sentence has more than 15 words: %s", (_, catalogue) => {
    expectPlain(textsOf(catalogue));
  });

  test.each(CATALOGUES)("[WO-11] each of them is a sentence of its own, with what it is about: %s", (_, catalogue) => {
    const said = textsOf(catalogue);
    expect(new Set(said).size).toBe(said.length - 1); // a missing dam and a missing sire are said alike
    for (const s of said) expect(s).toMatch(/^["\p{Lu}].*\.$/u);
  });

  test("[WO-11] a fact that a belief rests on is named, with whose it is", () => {
    const kinds = [
      "look",
      "fertility",
      "readings",
      "vet-finding",
      "growth",
      "grown-head",
      "dna-test",
      "trait",
    ] as const;
    const names = kinds.map((about) => sayNamedFact({ of: animal, about }, (id) => id));
    expect(new Set(names).size).toBe(kinds.length);
    for (const name of names) expect(name).toMatch(/^(the|that|what) .*Hazel/);
  });

  test("[WO-2] where the names may all be right, a test or a look misled; everything else is said as ever", () => {
    const said = EXPLANATIONS.map((e) =>
      sayMisfitReason(
        e,
        (id) => id,
        () => "a test",
      ),
    );
    expect(said[0]).toBe("The names are right; a test or a look misled: fewer than 1 in 100.");
    expect(said.slice(1)).toEqual(explained.slice(1));
  });

  test("[WO-2] explanations are counted on one denominator", () => {
    expect(explained).toEqual([
      "Everything is as written: fewer than 1 in 100.",
      "The sire of Hazel is another animal: about 83 in 100.",
      "This belongs to another animal: a test: about 17 in 100.",
      "Several records are wrong at once: about 20 in 100. The dam of Hazel is another animal. This belongs to another animal: a test.",
    ]);
  });
});

import { day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { parseEntry } from "@pollard/records";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type FactAnswers, factMissing, firstFact, OTHER_FACTS, otherFact } from "./model.ts";

const start = firstFact(day("2026-03-18"), "kg");
const made = (answers: Partial<FactAnswers>) => otherFact({ ...start, ...answers }, animalId("k1"));

describe("the rarer facts", () => {
  test("[UI-30] nothing is made of half an answer", () => {
    expect([
      made({}),
      made({ kind: "weight", weight: { text: "3,4", unit: "kg" } }),
      made({ kind: "note", note: "  " }),
      made({ kind: "dna-test" }),
      made({ kind: "departure" }),
      made({ kind: "move" }),
      made({ kind: "move", moved: "into", pen: "  " }),
    ]).toEqual([undefined, undefined, undefined, undefined, undefined, undefined, undefined]);
  });

  test("[UI-95] a test of any gene, and a look that a gene makes", () => {
    const tested = made({ kind: "dna-test", locus: "alpha-s1-casein", alleles: ["A", "F"] });
    expect(tested?.body).toEqual({ animal: "k1", locus: "alpha-s1-casein", alleles: ["A", "F"] });
    expect(made({ kind: "dna-test", locus: "alpha-s1-casein", alleles: ["A", ""] })).toBeUndefined();
    expect(made({ kind: "trait", trait: "wattles" })).toBeUndefined();
    expect(made({ kind: "trait", trait: "wattles", phenotype: "present" })?.body).toEqual({
      animal: "k1",
      trait: "wattles",
      value: "present",
    });
  });

  test("[UI-30] each kind makes an entry that can be stored", () => {
    const facts = [
      made({ kind: "weight", weight: { text: "3,4", unit: "kg" }, how: "weighed" }),
      made({ kind: "note", note: "limps" }),
      made({ kind: "dna-test", genotype: "Pp", lab: "The lab" }),
      made({ kind: "departure", why: "sold", to: "a neighbour" }),
      made({ kind: "move", moved: "into", pen: " long pen " }),
      made({ kind: "move", moved: "out" }),
    ];
    const envelope = {
      v: 1,
      id: "e",
      herd: "h",
      by: "Ines",
      at: "2026-03-18T14:32:00.000Z-0000-phone",
      device: "phone",
    };
    for (const fact of facts) expect(parseEntry({ ...envelope, ...fact })).toMatchObject({ ok: true });
    expect(made({ kind: "move", moved: "into", pen: " long pen " })?.body).toEqual({ animal: "k1", pen: "long pen" });
    expect(made({ kind: "dna-test", genotype: "Pp" })?.body).toEqual({
      animal: "k1",
      locus: "polled",
      alleles: ["P", "p"],
    });
  });

  test("[UI-220] it can be stored exactly when nothing is said to be missing", () => {
    const text = fc.constantFrom("", " ", "3,4", "x");
    const maybe = <T>(...all: readonly T[]) => fc.constantFrom<T | undefined>(undefined, ...all);
    const answers = fc.record(
      {
        kind: fc.constantFrom(...OTHER_FACTS),
        weight: text.map((typed) => ({ text: typed, unit: "kg" as const })),
        how: fc.constant("weighed" as const),
        note: text,
        locus: fc.constantFrom("polled", "alpha-s1-casein"),
        genotype: fc.constant("Pp" as const),
        alleles: fc.constantFrom([], ["A", ""], ["", "F"], ["A", "F"]),
        trait: fc.constant("wattles"),
        phenotype: maybe("present"),
        moved: fc.constantFrom("into" as const, "out" as const),
        pen: text,
        why: fc.constant("sold" as const),
      },
      { requiredKeys: [] },
    );
    fc.assert(
      fc.property(answers, (given) => {
        expect(factMissing({ ...start, ...given }).length === 0).toBe(made(given) !== undefined);
      }),
    );
    expect(factMissing({ ...start, kind: "weight" })).toEqual(["weight", "how"]);
  });
});

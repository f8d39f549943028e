import { locusFromText } from "@pollard/advice";
import { present } from "@pollard/base";
import { describe, expect, test } from "vitest";
import { EMPTY, idOf, ownLocus, type OwnLocusAnswers, previewOf } from "./model.ts";

const FROST: OwnLocusAnswers = {
  ...EMPTY,
  name: "Frosted ears",
  alleles: "F, f",
  shares: ["30"],
  shows: "one",
  look: "frosted",
  otherwise: "plain",
};
const none = new Set<string>();
const locusOf = (answers: OwnLocusAnswers) => {
  const made = ownLocus(answers, none);
  if (!made.ok) throw new Error(made.error.code);
  const read = locusFromText(made.value.key.slice("locus:".length), made.value.value);
  if (!read.ok) throw new Error(read.error.code);
  return read.value;
};

describe("a trait of the keeper's own", () => {
  test("[UI-95] becomes a locus: alleles, founders, and what each genotype shows", () => {
    const locus = locusOf(FROST);
    expect([locus.id, locus.alleles, locus.founders.default.value]).toEqual(["frosted-ears", ["F", "f"], [0.3, 0.7]]);
    const [trait] = present(locus.traits, "its trait");
    expect(trait?.expression.value.XX).toEqual([
      [1, 0],
      [1, 0],
      [0, 1],
    ]);
    expect(locusOf({ ...FROST, shows: "two" }).traits?.[0]?.expression.value.XX).toEqual([
      [1, 0],
      [0, 1],
      [0, 1],
    ]);
  });

  test("[UI-95] on the X a buck shows the one allele that he has", () => {
    const [trait] = present(locusOf({ ...FROST, inheritance: "x-linked", shows: "two" }).traits, "its trait");
    expect(trait?.expression.value.XY).toEqual([
      [1, 0],
      [0, 1],
    ]);
  });

  test("[UI-95] only tested, with alleles of longer names: shares not said are shared out evenly", () => {
    const locus = locusOf({ ...EMPTY, name: "Coat", alleles: "Dark Light Pale" });
    expect(locus.traits).toBeUndefined();
    expect(locus.founders.default.value.map((share) => share.toFixed(3))).toEqual(["0.333", "0.333", "0.333"]);
  });

  test.each([
    [{ ...FROST, name: "  " }, "needs"],
    [{ ...FROST, alleles: "F F" }, "needs"],
    [{ ...FROST, shares: ["130"] }, "not-shares"],
    [{ ...FROST, shares: ["many"] }, "not-shares"],
    [{ ...FROST, look: "" }, "not-text"],
    [{ ...FROST, name: "Wattles" }, "taken"],
  ] as const)("[UI-95] what cannot be used is said: %j", (answers, code) => {
    const made = ownLocus(answers, new Set(["wattles"]));
    expect(!made.ok && made.error.code).toBe(code);
  });

  // Hardy and Weinberg by hand: with 3 in 10 alleles F, 1 - 0.7 squared is 51 in 100; on the X a buck shows as often as F is.
  test("[UI-201] a share may have a decimal comma; what may be thousands is no share", () => {
    const made = (share: string) => ownLocus({ ...FROST, shares: [share] }, new Set());
    expect(made("12,5")).toEqual(made("12.5"));
    expect(made("12,5").ok).toBe(true);
    expect(made("1,200")).toMatchObject({ ok: false, error: { code: "not-shares" } });
  });

  test("[UI-153] a preview says what each genotype shows, and how many goats of unknown parents do", () => {
    expect(previewOf(FROST, none)).toEqual({
      shows: [
        { genotype: "FF", look: "frosted" },
        { genotype: "Ff", look: "frosted" },
        { genotype: "ff", look: "plain" },
      ],
      inHundred: [{ who: "all", count: 51, look: "frosted" }],
    });
    const onX = previewOf({ ...FROST, inheritance: "x-linked", shows: "two" }, none);
    expect(onX?.inHundred).toEqual([
      { who: "does", count: 9, look: "frosted" },
      { who: "bucks", count: 30, look: "frosted" },
    ]);
    expect(onX?.shows).toHaveLength(5);
  });

  test("[UI-153] what is only tested shows nothing, and half a description has no preview", () => {
    expect(previewOf({ ...FROST, shows: "never" }, none)).toEqual({ shows: [], inHundred: [] });
    expect(previewOf({ ...FROST, alleles: "F" }, none)).toBeUndefined();
  });

  test("[UI-95] its id is its name in plain letters", () => {
    expect(idOf("  Oreilles Étoilées! ")).toBe("oreilles-etoilees");
  });
});

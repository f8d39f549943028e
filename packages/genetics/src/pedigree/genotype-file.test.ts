import fc from "fast-check";
import { describe, expect, test } from "vitest";
import classes from "../../published/genotypes/geno_05_liability_classes.json";
import { parseGenotypeFile } from "./genotype-file.ts";

const good = {
  model: { founderFreq_p: "0.7" },
  penetranceClasses: { seen: { PP: 0, Pp: "0", pp: 1 } },
  animals: [
    { id: "a", sire: null, dam: null, sex: "M", observations: [{ class: "seen", phenotype: "hornless" }] },
    { id: "k", sire: "a", dam: null, founderPrior: null },
  ],
};
const problemWith = (change: object) => {
  const read = parseGenotypeFile({ ...good, ...change });
  return read.ok ? undefined : read.error;
};

describe("parseGenotypeFile", () => {
  test("[GE-15] a file becomes members, facts named by animal and number", () => {
    const read = parseGenotypeFile(good);
    expect(read.ok && read.value.members).toEqual([
      {
        id: "a",
        dam: undefined,
        sires: [],
        xx: 0,
        breed: undefined,
        evidence: [{ fact: "a#1", likelihood: { XX: [1, 1, 0], XY: [1, 1, 0] } }],
      },
      { id: "k", dam: undefined, sires: [{ sire: "a", weight: 1 }], xx: 0.5, breed: undefined, evidence: [] },
    ]);
    expect(read.ok && read.value.frequencies?.default?.[1]).toBe(0.7);
  });

  test("[GE-15] what is wrong is named with its place", () => {
    expect(problemWith({ model: {} })).toEqual({ code: "not-a-chance", path: "model.founderFreq_p", got: undefined });
    for (const got of [1.5, -0.1, "1.5", "-0.1", "", "NaN", true])
      expect(problemWith({ model: { founderFreq_p: got } })).toEqual({
        code: "not-a-chance",
        path: "model.founderFreq_p",
        got,
      });
    expect(problemWith({ animals: {} })).toEqual({ code: "not-a-list", path: "animals" });
    expect(problemWith({ animals: [{ id: "" }] })).toEqual({ code: "not-text", path: "animals[0].id" });
    expect(problemWith({ animals: [{ id: "a", sex: "doe" }] })).toEqual({
      code: "not-one-of",
      path: "animals[0].sex",
      got: "doe",
      allowed: ["F", "M"],
    });
    expect(problemWith({ animals: [{ id: "a", observations: [{ class: "guess", phenotype: "horned" }] }] })).toEqual({
      code: "not-one-of",
      path: "animals[0].observations[0].class",
      got: "guess",
      allowed: ["seen"],
    });
    expect(problemWith({ animals: [{ id: "a", founderPrior: ["1"] }] })).toEqual({
      code: "wrong-length",
      path: "animals[0].founderPrior",
      got: 1,
      wanted: 3,
    });
    expect(problemWith({ penetranceClasses: { seen: { PP: "a lot" } } })).toEqual({
      code: "not-a-chance",
      path: "penetranceClasses.seen.PP",
      got: "a lot",
    });
    expect(parseGenotypeFile([good])).toEqual({ ok: false, error: { code: "not-an-object", path: "$" } });
  });

  describe("laws", () => {
    test("[GE-15] no JSON crashes the reader", () => {
      fc.assert(
        fc.property(fc.jsonValue(), fc.jsonValue(), (a, b) => {
          expect(typeof parseGenotypeFile(a).ok).toBe("boolean");
          expect(parseGenotypeFile({ ...good, animals: [a, b] }).ok).toBe(false);
        }),
      );
    });
  });

  describe("published", () => {
    test("[GE-15] one known parent: the other stays unknown, a founder's prior is kept (file 05)", () => {
      const read = parseGenotypeFile(classes);
      const of = (id: string) => (read.ok ? read.value.members.find((m) => m.id === id) : undefined);
      expect(of("u1")?.dam).toBeUndefined();
      expect(of("u1")?.sires).toEqual([{ sire: "sire", weight: 1 }]);
      expect(of("bought")?.founderPrior).toEqual([0.9, 0.09, 0.01]);
      expect(of("w1")?.evidence).toHaveLength(3);
    });
  });
});

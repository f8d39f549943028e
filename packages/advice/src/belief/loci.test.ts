import { ALPHA_S1_CASEIN, animalId, type Locus, POLLED, PRNP_146, SHIPPED_LOCI, WATTLES } from "@pollard/genetics";
import fc from "fast-check";
import type { Entry } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import { describe, expect, test } from "vitest";
import { frequencyValue, lociModel } from "./loci-model.ts";
import { frequencyKey, herdLoci, ownFrequencies } from "./herd-loci.ts";
import { locusAnswer } from "./locus-answer.ts";
import { recordedLoci } from "./findings.ts";
import { herdProblems } from "../problems.ts";
import { id, kidding, ROOK_AND_ASH, situation } from "../testing.ts";

const TODAY = "2026-03-20";
const own = (locus: string, description: unknown): Entry =>
  anEntry("setting", {
    key: `locus:${locus}`,
    value: typeof description === "string" ? description : JSON.stringify(description),
  });
const FROST = {
  name: "Frosted ears",
  alleles: ["F", "f"],
  inheritance: "autosomal",
  frequencies: { F: 0.3, f: 0.7 },
  trait: {
    id: "frosted",
    phenotypes: ["frosted", "plain"],
    shown: { FF: { frosted: 1 }, Ff: { frosted: 1 }, ff: { plain: 1 } },
  },
};
const seen = (animal: string, value: string): Entry =>
  anEntry("trait", { animal: animalId(animal), trait: "frosted", value });
const herd = [...ROOK_AND_ASH, kidding("Ash", "2025-03-01", { a1: "doe" }, ["Rook"])];

describe("loci besides horns", () => {
  test("[AD-51] a keeper's own locus is inferred on the same pedigree: a plain kid shows what its frosted sire carries", () => {
    const s = situation(
      [...herd, own("frost", FROST), seen("Rook", "frosted"), seen("Ash", "plain"), seen("a1", "plain")],
      TODAY,
    );
    const locus = herdLoci(s.herd).loci.find((l) => l.id === "frost");
    expect(recordedLoci(s.herd).map((l) => l.id)).toEqual(["frost"]);
    const carrier = locus && locusAnswer(s, locus).belief(id("Rook")).genotypes[1];
    // Not quite 1: a written sire is not always the sire, and what is seen may be a slip.
    expect(carrier).toBeGreaterThan(0.95);
    expect(herdProblems(s)).toEqual([]);
  });

  test("[AD-51] a test of a locus that nobody knows is one problem that names those there are", () => {
    const test = anEntry("dna-test", { animal: animalId("Rook"), locus: "wattle", alleles: ["W", "w"] });
    const found = herdProblems(situation([...herd, test], TODAY));
    expect(found).toMatchObject([
      { code: "unreadable-finding", locus: { id: "wattle" }, problem: { code: "no-such-locus" } },
    ]);
    const [first] = found;
    expect(first?.code === "unreadable-finding" && "allowed" in first.problem && first.problem.allowed).toContain(
      "wattles",
    );
  });

  test.each([
    ["{", "not-json"],
    [{ ...FROST, alleles: [] }, "too-few-alleles"],
    [{ ...FROST, frequencies: { F: 0.3, f: 0.3 } }, "not-shares"],
    [{ ...FROST, id: "polled" }, "not-one-of"],
  ])(
    "[AD-51] a wrong description is one problem, and everything else still has its answer: %j",
    (description, code) => {
      const s = situation([...herd, own("frost", description)], TODAY);
      expect(herdProblems(s)).toMatchObject([{ code: "bad-locus", locus: "frost", problem: { code } }]);
      expect(herdLoci(s.herd).loci.length).toBeGreaterThan(5);
      expect(s.beliefs.polled(id("Ash")).pp).toBeGreaterThan(0.9);
    },
  );

  test("[AD-51] a locus that comes with the program cannot be described over", () => {
    const s = situation([...herd, own("polled", FROST)], TODAY);
    expect(herdProblems(s)).toMatchObject([{ problem: { code: "comes-with-pollard" } }]);
  });

  test("[AD-51] a finding that says nothing at its locus is asked about", () => {
    const s = situation([...herd, own("frost", FROST), seen("Ash", "speckled")], TODAY);
    expect(herdProblems(s)).toMatchObject([{ code: "unreadable-finding", problem: { code: "unknown-phenotype" } }]);
  });

  test("[AD-51] an empty description is a locus no longer wanted", () => {
    const { loci, problems } = herdLoci(situation([own("frost", "")], TODAY).herd);
    expect([loci.some((l) => l.id === "frost"), problems]).toEqual([false, []]);
  });

  test("[AD-51] asked of the polled locus, it is the herd's one belief", () => {
    const s = situation(herd, TODAY);
    expect(locusAnswer(s, POLLED)).toBe(s.beliefs.answer);
  });

  const frequency = (locus: Locus, value: number | string, breed?: string): Entry =>
    anEntry("setting", { key: frequencyKey(locus, breed), value });

  test("[AD-96] figures for five alleles are what an unknown goat is believed to carry", () => {
    const s = situation([...herd, frequency(ALPHA_S1_CASEIN, "60 10 15 10 5")], TODAY);
    const { genotypes } = locusAnswer(s, ALPHA_S1_CASEIN).belief(id("Rook"));
    expect(genotypes[0]).toBeCloseTo(0.36, 12);
    expect(genotypes[1]).toBeCloseTo(2 * 0.6 * 0.1, 12);
    const line = lociModel(s.herd).lines.find(({ locus }) => locus.id === ALPHA_S1_CASEIN.id);
    expect([line?.isOwnFrequency, line?.inHundred]).toEqual([true, [60, 10, 15, 10, 5]]);
  });

  test("[AD-96] of two alleles one number does, as before", () => {
    const s = situation([...herd, frequency(WATTLES, 40)], TODAY);
    expect(ownFrequencies(s.herd, WATTLES)).toEqual([0.4, 0.6]);
    expect(frequencyValue([0.4, 0.6], 0, 45)).toBe(45);
  });

  test("[AD-110] figures set for one breed are what its unknown goats carry, and no other's", () => {
    const stranger = (name: string, breed?: string) =>
      anEntry("animal", { animal: id(name), sex: "doe", ...(breed === undefined ? {} : { breed }) });
    const strangers = [
      stranger("Kea", "Boer"),
      stranger("Ling", " bóer "),
      stranger("Moss", "Saanen"),
      stranger("Nell"),
    ];
    const of = (name: string, ...settings: readonly Entry[]) =>
      locusAnswer(situation([...strangers, ...settings], TODAY), WATTLES).belief(id(name)).genotypes[0];
    const boer = frequency(WATTLES, 40, "Boer");
    const every = frequency(WATTLES, 10);
    expect(of("Kea", boer, every)).toBeCloseTo(0.16, 12);
    expect(of("Ling", boer, every)).toBeCloseTo(0.16, 12);
    expect(of("Moss", boer, every)).toBeCloseTo(0.01, 12);
    expect(of("Moss", boer)).toBe(of("Moss"));
    expect(of("Nell", boer)).toBe(of("Nell"));
    const { herd: told } = situation([...strangers, boer, every], TODAY);
    const line = (breed?: string) => lociModel(told, breed).lines.find(({ locus }) => locus.id === WATTLES.id);
    expect(lociModel(told).breeds).toEqual(["Boer", "Saanen"]);
    expect([line("Boer")?.inHundred, line("Boer")?.isOwnFrequency]).toEqual([[40, 60], true]);
    expect([line("Saanen")?.inHundred, line("Saanen")?.isOwnFrequency]).toEqual([[10, 90], false]);
    expect([line()?.inHundred, line()?.isOwnFrequency]).toEqual([[10, 90], true]);
  });

  test("[AD-110] a breed's figures that cannot be used are one problem that names it, and those of every breed count", () => {
    const s = situation([...herd, frequency(WATTLES, 10), frequency(WATTLES, 900, "Boer")], TODAY);
    expect(herdProblems(s)).toEqual([{ code: "bad-frequencies", entries: [], locus: WATTLES.name, breed: "boer" }]);
    expect(lociModel(s.herd, "Boer").lines.find(({ locus }) => locus.id === WATTLES.id)?.inHundred).toEqual([10, 90]);
  });

  test.each([
    [POLLED, 900],
    [POLLED, -3],
    [ALPHA_S1_CASEIN, 40],
    [ALPHA_S1_CASEIN, "60 10 15 10"],
    [ALPHA_S1_CASEIN, "60 10 15 10 50"],
    [ALPHA_S1_CASEIN, "often never 0 0 0"],
    [PRNP_146, "120 -30 10"],
  ] as const)("[AD-96] figures that cannot be used are one problem, and the usual ones count: %#", (locus, value) => {
    const s = situation([...herd, frequency(locus, value)], TODAY);
    expect(herdProblems(s)).toEqual([{ code: "bad-frequencies", entries: [], locus: locus.name, breed: undefined }]);
    const usual = situation(herd, TODAY);
    expect(locusAnswer(s, locus).belief(id("Rook")).genotypes).toEqual(
      locusAnswer(usual, locus).belief(id("Rook")).genotypes,
    );
  });

  test.each([0, ""])("[AD-96] %j is the usual figure again, and no problem", (value) => {
    const s = situation([...herd, frequency(POLLED, value)], TODAY);
    expect(herdProblems(s)).toEqual([]);
    expect(ownFrequencies(s.herd, POLLED)).toBeUndefined();
  });

  describe("laws", () => {
    test("[AD-96] one allele set, the others keep their proportions, none is lost, and it reads back", () => {
      fc.assert(
        fc.property(
          fc.constantFrom(...SHIPPED_LOCI),
          fc.nat(4),
          fc.integer({ min: -5, max: 120 }),
          (locus, place, inHundred) => {
            const before = locus.founders.default.value;
            const at = place % before.length;
            const value = frequencyValue(before, at, inHundred);
            const after = ownFrequencies(situation([frequency(locus, value)], TODAY).herd, locus) ?? [];
            expect(after.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
            expect(after[at]).toBeCloseTo(Math.min(99, Math.max(1, inHundred)) / 100, 5);
            const others = before.flatMap((share, i) => (i === at ? [] : [(after[i] ?? Number.NaN) / share]));
            for (const ratio of others) expect(ratio / (others[0] ?? Number.NaN)).toBeCloseTo(1, 4);
            expect(Math.min(...after)).toBeGreaterThan(0);
          },
        ),
        { numRuns: 60 },
      );
    });
  });
});

import { animalId, type Explanation, inferGenotypes, RECORD_ERRORS } from "@pollard/genetics";
import type { Entry } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import { describe, expect, test } from "vitest";
import { herdProblems } from "../problems.ts";
import { goat, id, kidding, outcome, service, situation } from "../testing.ts";
import { type Misfit, type MisfitReasons, misfitReasons } from "./misfits.ts";

const TODAY = "2026-03-20";
/** A trait of the keeper's own that shows without fail. */
const frost = anEntry("setting", {
  key: "locus:frost",
  value: JSON.stringify({
    name: "Frosted ears",
    alleles: ["F", "f"],
    inheritance: "autosomal",
    frequencies: { F: 0.3, f: 0.7 },
    trait: {
      id: "frosted",
      phenotypes: ["frosted", "plain"],
      shown: { FF: { frosted: 1 }, Ff: { frosted: 1 }, ff: { plain: 1 } },
    },
  }),
});
const seen = (animal: string, value: string): Entry =>
  anEntry("trait", { animal: animalId(animal), trait: "frosted", value });
const tested = (animal: string, alleles: readonly [string, string]): Entry =>
  anEntry("dna-test", { animal: animalId(animal), locus: "frost", alleles: [...alleles] });
const family = [
  goat("Rook", "buck"),
  goat("Ash", "doe"),
  kidding("Ash", "2025-03-01", { a1: "doe" }, ["Rook"]),
  frost,
  tested("Rook", ["f", "f"]),
  seen("Ash", "plain"),
  tested("Ash", ["f", "f"]),
  tested("a1", ["F", "f"]),
];
const misfitsOf = (s: ReturnType<typeof situation>): readonly Misfit[] =>
  herdProblems(s).filter((p) => p.code === "cannot-be" || p.code === "hard-to-believe");
const said = ({ explanations, facts }: MisfitReasons): readonly (readonly [string, number])[] => {
  const factOf = (fact: string): string => {
    const named = facts.find((f) => f.fact === fact);
    return named === undefined ? "?" : `${named.about} of ${named.of}`;
  };
  const nameOf = (e: Explanation): string =>
    e.kind === "wrong-parent" ? `${e.link.parent} of ${e.link.kid}` : e.kind === "wrong-fact" ? factOf(e.fact) : e.kind;
  return explanations.map((e) => [nameOf(e), e.chance]);
};

describe("what does not fit at any locus", () => {
  test("[AD-54] a kid with an allele that neither parent has is asked about at that locus, the records behind it by name and ranked", () => {
    const s = situation(family, TODAY);
    const [misfit, ...more] = misfitsOf(s);
    expect(more).toEqual([]);
    expect(misfit).toMatchObject({ locus: { id: "frost", name: "Frosted ears" }, what: "other" });
    const reasons = misfit === undefined ? [] : said(misfitReasons(s, misfit));
    const chances = reasons.map(([, chance]) => chance);
    expect(chances).toEqual(chances.toSorted((a, b) => b - a));
    expect(reasons.map(([name]) => name).sort()).toEqual(
      expect.arrayContaining(["dam of a1", "sire of a1", "dna-test of a1"]),
    );
    expect(reasons.reduce((sum, [, chance]) => sum + chance, 0)).toBeCloseTo(1, 9);
  });

  test("[AD-54] a dam made odd by her kid: the kid's looks and its parentage are among the reasons", () => {
    // No sire is written; a frosted dam that is sure FF cannot have a plain kid.
    const s = situation(
      [
        goat("Ash", "doe"),
        kidding("Ash", "2025-03-01", { a1: "doe" }),
        frost,
        tested("Ash", ["F", "F"]),
        tested("Ash", ["F", "F"]),
        seen("a1", "plain"),
        seen("a1", "plain"),
      ],
      TODAY,
    );
    const [misfit] = misfitsOf(s);
    expect(misfit?.locus.id).toBe("frost");
    const reasons = misfit === undefined ? [] : said(misfitReasons(s, misfit)).map(([name]) => name);
    expect(reasons).toEqual(expect.arrayContaining(["dam of a1", "trait of a1"]));
  });

  test("[AD-54] horns have their reasons too: a polled kid of a horned pair", () => {
    const entries = [
      goat("Flint", "buck", { head: "horned" }),
      goat("Ash", "doe", { head: "horned" }),
      kidding("Ash", "2025-03-01", { a1: "buck" }, ["Flint"]),
      outcome("a1", "2025-07-01", "knob"),
    ];
    const s = situation(entries, TODAY);
    const [misfit] = misfitsOf(s);
    expect(misfit).toMatchObject({ code: "hard-to-believe", locus: { id: "polled" } });
    const reasons = misfit === undefined ? [] : said(misfitReasons(s, misfit));
    expect(reasons.map(([name]) => name)).toEqual(
      expect.arrayContaining(["sire of a1", "growth of a1", "grown-head of Ash"]),
    );
  });

  test("[AD-54] a wrong sire that shows at two loci is asked about once", () => {
    const heads = ["Rook", "Ash"].map((animal) => goat(animal, animal === "Rook" ? "buck" : "doe", { head: "horned" }));
    const s = situation([...heads, ...family.slice(2), outcome("a1", "2025-07-01", "knob")], TODAY);
    expect(misfitsOf(s)).toHaveLength(1);
  });

  test("[AD-54] a sire that horns put in doubt is asked about there, though he stands in a service alone", () => {
    const wattles = (animal: string, value: string): Entry =>
      anEntry("trait", { animal: animalId(animal), trait: "wattles", value });
    const entries = [
      goat("Flint", "buck", { head: "horned" }),
      goat("Ash", "doe", { head: "horned" }),
      service("Ash", ["Flint"], "2024-10-02"),
      kidding("Ash", "2025-03-01", { a1: "buck" }),
      anEntry("dna-test", { animal: animalId("Flint"), locus: "polled", alleles: ["p", "p"] }),
      anEntry("dna-test", { animal: animalId("Ash"), locus: "polled", alleles: ["p", "p"] }),
      anEntry("dna-test", { animal: animalId("a1"), locus: "polled", alleles: ["P", "p"] }),
      wattles("a1", "present"),
      wattles("Flint", "absent"),
      wattles("Ash", "absent"),
    ];
    const s = situation(entries, TODAY);
    const [misfit] = misfitsOf(s);
    expect(misfit).toMatchObject({ code: "hard-to-believe", animal: { name: "a1" } });
    const reasons = misfit === undefined ? [] : said(misfitReasons(s, misfit)).map(([name]) => name);
    expect(reasons).toContain("sire of a1");
    const horns = s.beliefs.loci.get("polled");
    const told = (at: typeof horns): number =>
      (at?.answer.belief(id("a1")).sires.get(undefined) ?? 0) /
      (at?.problem.members.find((m) => m.id === id("a1"))?.sires.at(-1)?.weight ?? 1);
    const speaks = [...s.beliefs.loci.values()].toSorted((a, b) => told(b) - told(a))[0]?.problem.locus.id;
    expect(misfit?.locus.id).toBe(speaks);
  });

  // Against Bayes' rule by hand: each record wrong in turn, and the whole herd weighed anew by the likelihoods alone.
  test("[AD-54] another dam against another sire: as the likelihoods of the herd without each", () => {
    const s = situation(family, TODAY);
    const [misfit] = misfitsOf(s);
    const reasons = new Map(misfit === undefined ? [] : said(misfitReasons(s, misfit)));
    const problem = s.beliefs.loci.get("frost")?.problem;
    if (problem === undefined) throw new Error("the herd follows the locus");
    const log = (members: typeof problem.members): number => inferGenotypes({ ...problem, members }).logLikelihood;
    const known = problem.members.map((m) => (m.id === id("a1") ? { ...m, sires: m.sires.slice(0, 1) } : m));
    const noDam = log(known.map((m) => ({ ...m, dam: undefined })));
    const noSire = log(known.map((m) => ({ ...m, sires: [] })));
    const odds = (error: number): number => error / (1 - error);
    const unknown =
      problem.members.find((m) => m.id === id("a1"))?.sires.find((c) => c.sire === undefined)?.weight ?? 0;
    const ratio = (odds(RECORD_ERRORS.dam.value) / odds(unknown)) * Math.exp(noDam - noSire);
    expect((reasons.get("dam of a1") ?? 0) / (reasons.get("sire of a1") ?? 1)).toBeCloseTo(ratio, 6);
  });
});

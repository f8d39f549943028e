import { animalId, POLLED } from "@pollard/genetics";
import type { Entry } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import { describe, expect, test } from "vitest";
import { herdLoci } from "./herd-loci.ts";
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
    expect(found).toMatchObject([{ code: "unreadable-finding", locus: "wattle", problem: { code: "no-such-locus" } }]);
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
});

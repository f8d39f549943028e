import { day, present } from "@pollard/base";
import type { BodyOf, Entry } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import { describe, expect, test } from "vitest";
import { goat, HORNED_SIGNS, id, kidding, outcome, reading, service, situation } from "../testing.ts";
import { barnCard } from "./barn-card.ts";
import { kidPaper, type KidPaperModel, type PaperTicks } from "./kid-paper.ts";

const herd = [
  goat("Ash", "doe", { head: "horned" }),
  goat("Sedge", "doe", { head: "polled" }),
  goat("Rook", "buck", { head: "polled" }),
];
const note = (text: string): Entry => anEntry("note", { animal: id("Moss"), text }, { on: "2026-03-10" });
const care = (task: string, on: string, more: Partial<BodyOf<"care">> = {}): Entry =>
  anEntry("care", { animals: [id("Moss")], task, answer: "done", ...more }, { on });
const tested = (on: string): Entry =>
  anEntry("dna-test", { animal: id("Moss"), locus: "polled", alleles: ["P", "p"] }, { on });
const born = (dam: string) => kidding(dam, "2026-03-04", { Moss: "doe" }, ["Rook"]);

const paper = (today: string, entries: readonly Entry[], ticks: PaperTicks = {}): KidPaperModel =>
  present(kidPaper(situation([...herd, ...entries], today), id("Moss"), ticks), "Moss");

describe("the paper for a buyer", () => {
  test("[AD-47] a goat that nobody knows has none", () => {
    expect(kidPaper(situation(herd, "2026-05-01"), id("Nobody"))).toBeUndefined();
  });

  test("[AD-47] a polled kid of two polled parents: never two polled, and not for breeding yet", () => {
    const found = paper("2026-07-01", [born("Sedge"), outcome("Moss", "2026-06-10", "nothing")]);
    expect(found.head).toBe("polled");
    expect(found.warnings).toEqual(["never-two-polled", "not-for-breeding-yet"]);
    expect(found.gaps).toContain("intersex-not-ruled-out");
    expect(found.grounds).toContain("what-grew");
  });

  test("[AD-47] a horned kid needs no such warning; a DNA test is the surest ground", () => {
    const horned = paper("2026-07-01", [born("Ash"), outcome("Moss", "2026-06-10", "horn")]);
    expect(horned).toMatchObject({ head: "horned", warnings: [] });
    const found = paper("2026-07-01", [born("Ash"), tested("2026-06-01")]);
    expect(found.grounds[0]).toBe("dna-test");
    expect(found.gaps).not.toContain("genotype-not-tested");
  });

  test("[AD-47] disbudded says nothing of the genes; a scur there grew back", () => {
    const done = anEntry("disbudding", { kid: id("Moss"), done: "both-sides" }, { on: "2026-03-11" });
    const found = paper("2026-07-01", [born("Ash"), done]);
    expect(found).toMatchObject({ head: "disbudded", disbudded: "2026-03-11" });
    expect(found.warnings).toContain("watch-for-regrowth");
    expect(paper("2026-07-01", [born("Ash"), done, outcome("Moss", "2026-06-10", "scur")]).head).toBe("regrown");
  });

  test("[AD-47] what is not on record is said to be not known", () => {
    const { gaps } = paper("2026-05-01", [kidding("Ash", "2026-03-04", { Moss: "doe" })]);
    for (const gap of [
      "sire-not-recorded",
      "head-not-confirmed",
      "dam-booster-not-recorded",
      "herd-tests-not-recorded",
    ])
      expect(gaps).toContain(gap);
  });

  test("[AD-7] while a head that matters is unread, the family's forecast stays off the paper", () => {
    expect(paper("2026-03-06", [born("Ash")]).genotype).toBeUndefined();
    expect(paper("2026-03-09", [born("Ash"), reading("Moss", "2026-03-09", HORNED_SIGNS)]).genotype).toBeDefined();
  });

  test("[AD-48] notes stay private unless ticked; care and withdrawal are told", () => {
    const entries = [
      born("Ash"),
      note("sold cheap, bites"),
      care("kid-vaccine", "2026-04-12", { means: "as told", noMeatUntil: day("2026-05-20") }),
      care("castration", "2026-04-12", { answer: "not-needed" }),
    ];
    const found = paper("2026-05-01", entries);
    expect(JSON.stringify(found)).not.toContain("bites");
    expect(found.care.map((c) => c.code)).toEqual(["kid-vaccine"]);
    expect(found).toMatchObject({ meatUntil: "2026-05-20" });
    expect(found.warnings).toContain("meat-held-back");
    expect(paper("2026-05-01", entries, { notes: "show" }).notes).toMatchObject([{ text: "sold cheap, bites" }]);
  });
});

describe("the barn card", () => {
  test("[AD-46] does due next, and heads to read, stand on it already", () => {
    const now = situation([...herd, service("Sedge", ["Rook"], "2025-10-10"), born("Ash")], "2026-03-05");
    const card = barnCard(now);
    expect(card.due.map((d) => d.doe.name)).toEqual(["Sedge"]);
    expect(card.heads.map((k) => k.name)).toEqual(["Moss"]);
  });
});

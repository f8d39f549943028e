import { goat, kidding, service, situation } from "@pollard/advice/testing";
import { animalId } from "@pollard/genetics";
import { anEntry, aStrike } from "@pollard/records/testing";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { enteredIn, historyOf } from "./entered.ts";

const weight = (id: string, on: string) => anEntry("weight", { animal: animalId(id), kg: 30, how: "weighed" }, { on });
const mistaken = weight("Hazel", "2025-11-02");
const entries = [
  goat("Hazel", "doe", { tag: "SB 04" }),
  goat("Rook", "buck"),
  kidding("Hazel", "2026-03-01", { Pip: "doe" }),
  weight("Hazel", "2025-11-01"),
  mistaken,
  aStrike(mistaken.id),
];
const { herd } = situation(entries, "2026-03-05");
const stored = entries.map((entry) => ({ entry }));
const ALL = { kind: undefined, person: undefined, goat: "", most: 100 } as const;

describe("looking for a goat among everything entered", () => {
  const { herd } = situation(
    [
      goat("Núria", "doe", { chip: "276000123456789" }),
      anEntry("animal", { animal: animalId("a"), sex: "doe", mark: "White sock" }),
      anEntry("animal", { animal: animalId("b"), sex: "doe", name: "Fern", mark: "white star" }),
    ],
    "2026-03-05",
  );
  const about = (typed: string) =>
    enteredIn(herd, [], { ...ALL, goat: typed }).lines.flatMap(({ line }) => line.animals);

  test("[UI-344] by its name with or without accents, and by its chip", () => {
    expect(about("nuria")).toEqual(["Núria"]);
    expect(about("345678")).toEqual(["Núria"]);
  });

  test("[UI-344] by its mark where it has no name", () => {
    expect(about("white")).toEqual(["a"]);
    expect(about("sock")).toEqual(["a"]);
    expect(about("fern")).toEqual(["b"]);
  });
});

describe("one goat's history", () => {
  const mated = situation(
    [
      goat("Hazel", "doe"),
      goat("Rook", "buck"),
      goat("Gale", "buck"),
      service("Hazel", ["Rook", "Gale"], "2025-10-01"),
      weight("Hazel", "2025-11-01"),
    ],
    "2025-12-01",
  ).herd;
  const matesOf = (id: string) =>
    historyOf(mated, animalId(id)).map(({ line, mates }) => [
      line.kind,
      mates.map(({ name }) => `${name}`).sort((a, b) => (a < b ? -1 : 1)),
    ]);

  test("[UI-298] a mating says with whom: a doe's with every buck named, a buck's with the doe and no rival", () => {
    expect(matesOf("Hazel")).toContainEqual(["service", ["Gale", "Rook"]]);
    expect(matesOf("Rook")).toContainEqual(["service", ["Hazel"]]);
  });

  test("[UI-298] what is no mating names nobody beside the goat", () => {
    expect(matesOf("Hazel").filter(([kind]) => kind !== "service")).toEqual([
      ["weight", []],
      ["animal", []],
    ]);
  });
});

describe("a spell in a pen", () => {
  const spell = service("Hazel", ["Rook"], "2025-10-01", "2025-10-22");
  const seen = service("Hazel", ["Rook"], "2025-09-01");
  const wrong = service("Hazel", ["Rook"], "2025-08-01", "2025-08-22");
  const { herd } = situation(
    [goat("Hazel", "doe"), goat("Rook", "buck"), spell, seen, wrong, aStrike(wrong.id)],
    "2025-12-01",
  );

  test("[UI-376] has its last day beside it, with the goat and among everything; what has one day has none", () => {
    for (const lines of [
      historyOf(herd, animalId("Hazel")),
      historyOf(herd, animalId("Rook")),
      enteredIn(herd, [], ALL).lines,
    ]) {
      const until = (id: string) => lines.find(({ line }) => line.entry === id)?.until;
      expect([until(spell.id), until(seen.id), until(wrong.id)]).toEqual(["2025-10-22", undefined, undefined]);
      expect(lines.filter((line) => line.until !== undefined)).toHaveLength(1);
    }
  });
});

describe("everything entered", () => {
  test("[UI-126] newest first; what was struck out is there too", () => {
    const { lines, fitting, all, kinds } = enteredIn(herd, stored, ALL);
    expect(lines).toHaveLength(5);
    expect([fitting, all]).toEqual([5, 5]);
    expect([...kinds].sort()).toEqual(["animal", "kidding", "weight"]);
    expect(lines.filter(({ line }) => line.state === "struck")).toHaveLength(1);
  });

  test("[UI-381] its lines and what only undoes them are together as many as the entries that Safe counts", () => {
    const { all, undoings } = enteredIn(herd, stored, ALL);
    expect([all, undoings, stored.length]).toEqual([5, 1, 6]);
  });

  test("[UI-126] narrowed by kind, by person, by name or tag", () => {
    expect(enteredIn(herd, stored, { ...ALL, kind: "weight" }).fitting).toBe(2);
    expect(enteredIn(herd, stored, { ...ALL, goat: "04" }).fitting).toBe(4);
    expect(enteredIn(herd, stored, { ...ALL, goat: "PIP" }).lines.map(({ line }) => line.kind)).toEqual(["kidding"]);
    expect(enteredIn(herd, stored, { ...ALL, person: "nobody of that name" }).fitting).toBe(0);
    expect(enteredIn(herd, stored, { ...ALL, most: 2 }).lines).toHaveLength(2);
  });

  describe("laws", () => {
    test("[UI-126] narrowing never adds a line or changes the order", () => {
      const { lines, kinds } = enteredIn(herd, stored, ALL);
      fc.assert(
        fc.property(fc.constantFrom(undefined, ...kinds), fc.constantFrom("", "haz", "rook", "x"), (kind, name) => {
          const found = enteredIn(herd, stored, { ...ALL, kind, goat: name }).lines.map(({ line }) => line.entry);
          expect(lines.map(({ line }) => line.entry).filter((entry) => found.includes(entry))).toEqual(found);
        }),
      );
    });
  });
});

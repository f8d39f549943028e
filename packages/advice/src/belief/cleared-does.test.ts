import { day, present } from "@pollard/base";
import { INTERSEX_LOOKS } from "@pollard/genetics";
import { byEnumeration } from "@pollard/genetics/testing";
import { type Entry, KIDDED_TRAIT } from "@pollard/records";
import { anEntry, aStrike } from "@pollard/records/testing";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { animalModel } from "../animal-model.ts";
import { mayBeIntersex } from "../heads/kid-model.ts";
import { herdProblems } from "../problems.ts";
import { pregnancyOn } from "../season/pregnancies.ts";
import { dnaTest, goat, id, kidding, outcome, service, situation } from "../testing.ts";
import { INTERSEX_TRAIT } from "./intersex-look.ts";

const TODAY = "2026-03-20";
const trait = (animal: string, name: string, value: string, on: string): Entry =>
  anEntry("trait", { animal: id(animal), trait: name, value }, { on });
const kidded = (animal: string, on = "2025-09-02") => trait(animal, KIDDED_TRAIT.trait, KIDDED_TRAIT.value, on);
const signs = (animal: string, on: string) => trait(animal, INTERSEX_TRAIT.trait, INTERSEX_TRAIT.seen, on);
const ruledOut = (animal: string, on: string) => trait(animal, INTERSEX_TRAIT.trait, INTERSEX_TRAIT.ruledOut, on);

/** A grown polled doe of whose parents nobody knows anything; nor, where `born` is left out, of her age. */
const bought: readonly Entry[] = [
  anEntry("animal", { animal: id("Sedge"), sex: "doe", name: "Sedge", head: "polled" }, { on: "2025-09-01" }),
];
const sedge = (...more: readonly Entry[]) => {
  const s = situation([...bought, ...more], TODAY);
  return { belief: s.beliefs.polled(id("Sedge")), watched: animalModel(s, id("Sedge"))?.intersexWatch, s };
};

describe("a grown polled doe of unknown parents", () => {
  test("[AD-100] she is watched for intersex, until the keeper says that she kidded before she came", () => {
    expect(sedge().watched).toBe(true);
    const after = sedge(kidded("Sedge"));
    expect([after.watched, after.belief.PP]).toEqual([false, 0]);
    // Struck, it says nothing any more.
    const said = kidded("Sedge");
    expect(sedge(said, aStrike(said.id)).belief).toEqual(sedge().belief);
  });

  test("[AD-100] what else is written under that name, or by a later version, is kept and says nothing", () => {
    expect(sedge(trait("Sedge", KIDDED_TRAIT.trait, "no", TODAY)).belief).toEqual(sedge().belief);
    expect(sedge(trait("Sedge", INTERSEX_TRAIT.trait, "none-seen", TODAY)).belief).toEqual(sedge().belief);
  });

  test("[AD-100] with a kidding on record as well it is one fact, and moves nothing", () => {
    const here = [
      goat("Flint", "buck", { head: "horned" }),
      kidding("Sedge", "2026-03-01", { Moss: "doe" }, ["Flint"]),
    ];
    const both = sedge(...here, kidded("Sedge"));
    expect(both.belief).toEqual(sedge(...here).belief);
    const facts = both.s.beliefs.facts(id("Sedge")).filter(({ about }) => about === "fertility");
    expect(facts.map(({ entries }) => entries.length)).toEqual([1]);
  });

  test("[AD-100] a laboratory that found two polled genes and a kidding told of: hard to believe, and so asked about", () => {
    const tested = dnaTest("Sedge", ["P", "P"]);
    const asked = (...more: readonly Entry[]) => herdProblems(sedge(tested, ...more).s).length;
    expect([asked(), asked(kidded("Sedge"))]).toEqual([0, 1]);
  });

  test("[AD-102] her next litter is that of a doe that has kidded, whoever saw her first", () => {
    const served = [goat("Flint", "buck"), service("Sedge", ["Flint"], "2026-01-05")];
    const young = goat("Sedge", "doe", { head: "polled", born: day("2024-10-01") });
    const meanKids = (...more: readonly Entry[]): number => {
      const { herd, today } = situation([young, ...served, ...more], TODAY);
      const { litter } = present(pregnancyOn(herd, id("Sedge"), today), "a pregnancy");
      return litter.reduce((sum, chance, at) => sum + chance * (at + 1), 0);
    };
    expect(meanKids(kidded("Sedge"))).toBeGreaterThan(meanKids());
  });
});

describe("a vet's look", () => {
  const polledPair = [
    goat("Rook", "buck", { head: "polled" }),
    goat("Fern", "doe", { head: "polled" }),
    kidding("Fern", "2025-03-08", { Wren: "doe" }, ["Rook"]),
    outcome("Wren", "2025-07-01", "nothing"),
  ];
  const wren = (...more: readonly Entry[]) => {
    const s = situation([...polledPair, ...more], TODAY);
    return {
      PP: s.beliefs.polled(id("Wren")).PP,
      watched: mayBeIntersex(s, present(s.herd.animals.get(id("Wren")), "Wren")),
    };
  };

  test("[AD-101] clears the kid of two polled parents and the bought doe alike", () => {
    expect([wren().watched, wren(ruledOut("Wren", "2025-08-01")).watched]).toEqual([true, false]);
    expect(sedge(ruledOut("Sedge", TODAY)).watched).toBe(false);
  });

  test("[AD-101] weighs twenty to one against two polled genes, and proves nothing", () => {
    expect(wren(ruledOut("Wren", "2025-08-01")).PP).toBeGreaterThan(0);
    const odds = ({ PP, Pp }: { readonly PP: number; readonly Pp: number }) => PP / Pp;
    const [before, after] = [odds(sedge().belief), odds(sedge(ruledOut("Sedge", TODAY)).belief)];
    // Among XX it is one twentieth to the digit; what may be a buck written down as a doe moves it by so much at most.
    expect(Math.abs(after / before - 1 / 20)).toBeLessThan(INTERSEX_LOOKS.slip.value);
  });

  test("[AD-101] of several looks the last counts, in whatever order they were entered", () => {
    const [first, last] = ["2025-08-01", "2025-09-01"] as const;
    const cleared = wren(ruledOut("Wren", last));
    expect(wren(signs("Wren", first), ruledOut("Wren", last))).toEqual(cleared);
    expect(wren(ruledOut("Wren", last), signs("Wren", first))).toEqual(cleared);
    expect(wren(ruledOut("Wren", first), signs("Wren", last))).toEqual(wren(signs("Wren", last)));
    expect(wren(signs("Wren", last)).PP).toBeGreaterThan(0.9);
  });

  test("[AD-101] whoever is written down as intersex stays under watch; the sex is put right by the keeper", () => {
    const ivy = goat("Ivy", "intersex", { head: "polled" });
    const s = situation([ivy, ruledOut("Ivy", TODAY)], TODAY);
    expect(mayBeIntersex(s, present(s.herd.animals.get(id("Ivy")), "Ivy"))).toBe(true);
  });
});

describe("equals the slow way", () => {
  test("[AD-101] whatever is said of a bought doe and her kid, the belief is that of counting every combination", () => {
    const said = [
      kidded("Sedge"),
      ruledOut("Sedge", "2025-10-01"),
      signs("Sedge", "2025-11-01"),
      ruledOut("Moss", "2025-12-01"),
      dnaTest("Sedge", ["P", "p"]),
    ];
    const family = [
      goat("Rook", "buck", { head: "polled" }),
      kidding("Sedge", "2025-03-01", { Moss: "doe" }, ["Rook"]),
      outcome("Moss", "2025-07-01", "nothing"),
    ];
    fc.assert(
      fc.property(fc.subarray(said), fc.constantFrom([], family), (facts, kin) => {
        const { s } = sedge(...kin, ...facts.filter((fact) => kin.length > 0 || !about(fact, "Moss")));
        const { members } = s.beliefs.problem;
        const parentsFirst = [...members].sort((a, b) => Number(a.dam !== undefined) - Number(b.dam !== undefined));
        const slow = byEnumeration({ ...s.beliefs.problem, members: parentsFirst });
        for (const { id: animal } of members) {
          const { XX, XY } = present(slow.bySex.get(animal), animal);
          const { PP, Pp, pp } = s.beliefs.polled(animal);
          [PP, Pp, pp].forEach((chance, g) => {
            expect(chance).toBeCloseTo(((XX[g] ?? 0) + (XY[g] ?? 0)) / slow.total, 10);
          });
        }
      }),
      { numRuns: 40 },
    );
  });
});

const about = (entry: Entry, animal: string): boolean => "animal" in entry.body && entry.body.animal === id(animal);

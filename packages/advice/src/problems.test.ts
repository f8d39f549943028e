import { anEntry } from "@pollard/records/testing";
import { describe, expect, test } from "vitest";
import { animalModel } from "./animal-model.ts";
import { herdProblems } from "./problems.ts";
import { dnaTest, goat, id, kidding, outcome, service, situation } from "./testing.ts";

const TODAY = "2026-03-20";
type Entries = Parameters<typeof situation>[0];
const problems = (...entries: Entries) => herdProblems(situation(entries, TODAY));

describe("what does not fit", () => {
  const tested = (name: string, sex: "doe" | "buck") => [
    goat(name, sex, { head: "polled" }),
    dnaTest(name, ["P", "P"]),
    dnaTest(name, ["P", "P"]),
  ];

  test("[AD-18] a horned kid of two parents tested PP: named, with its own answer, and the rest of the herd keeps theirs", () => {
    const entries = [
      ...tested("Rook", "buck"),
      goat("Sedge", "doe", { head: "polled" }),
      dnaTest("Sedge", ["P", "P"]),
      goat("Ash", "doe", { head: "horned" }),
      kidding("Sedge", "2025-03-01", { s1: "doe" }, ["Rook"]),
      outcome("s1", "2025-07-01", "horn"),
    ];
    const found = problems(...entries);
    expect(found.some((p) => p.code === "hard-to-believe" || p.code === "cannot-be")).toBe(true);
    const s = situation(entries, TODAY);
    for (const animal of s.herd.animals.keys()) {
      const { PP, Pp, pp } = s.beliefs.polled(animal);
      expect(PP + Pp + pp).toBeCloseTo(1, 9);
    }
    expect(s.beliefs.polled(id("Ash")).pp).toBeGreaterThan(0.99);
  });

  test("[AD-19] a polled kid of a horned pair: a wrong sire is the likeliest reason, and only the kid is named", () => {
    const entries = [
      goat("Flint", "buck", { head: "horned" }),
      goat("Ash", "doe", { head: "horned" }),
      kidding("Ash", "2025-03-01", { a1: "buck" }, ["Flint"]),
      outcome("a1", "2025-07-01", "knob"),
    ];
    const found = problems(...entries);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ code: "hard-to-believe", animal: { name: "a1" }, what: "polled-kid-of-horned" });
    const { beliefs } = situation(entries, TODAY);
    const misread = ["Flint", "Ash"].map((parent) => 1 - beliefs.polled(id(parent)).pp);
    expect(found[0]?.code === "hard-to-believe" && found[0].wrongSire).toBeGreaterThan(Math.max(...misread));
  });

  test("[AD-57] one newborn entered on both phones is asked about, and answered, is one in every answer", () => {
    const entries = [
      goat("Ash", "doe", { head: "horned" }),
      ...(["a1", "a2"] as const).map((kid, later) =>
        anEntry(
          "kidding",
          { dam: id("Ash"), kids: [{ kid: id(kid), sex: "buck", born: "alive" }] },
          { on: `2026-03-${17 + later}` },
        ),
      ),
    ];
    const [found] = problems(...entries);
    const twice = found?.code === "same-kid" ? found : undefined;
    expect(twice?.animals.map(({ id }) => id)).toEqual([id("a1"), id("a2")]);
    const answered = situation(
      [...entries, anEntry("setting", { key: twice?.key ?? "", value: "one" }, { on: "2026-03-19" })],
      TODAY,
    );
    expect(herdProblems(answered)).toEqual([]);
    expect(answered.kidsOf(id("Ash")).map((kid) => kid.id)).toEqual([id("a1")]);
    expect(answered.openHeads()).toHaveLength(1);
  });

  test("[AD-19] an ordinary herd has nothing odd", () => {
    expect(
      problems(
        goat("Rook", "buck", { head: "polled" }),
        goat("Ash", "doe", { head: "horned" }),
        kidding("Ash", "2025-03-01", { a1: "buck", a2: "doe" }, ["Rook"]),
        outcome("a1", "2025-07-01", "horn"),
        outcome("a2", "2025-07-01", "nothing"),
      ),
    ).toEqual([]);
  });

  test("[AD-20] a birth that no service explains is asked about; one without any service is not", () => {
    const herd = [goat("Rook", "buck"), goat("Ash", "doe"), kidding("Ash", "2026-03-10", { a1: "doe" }, ["Rook"])];
    expect(problems(...herd)).toEqual([]);
    expect(problems(...herd, service("Ash", ["Rook"], "2025-10-10"))).toEqual([]);
    expect(problems(...herd, service("Ash", ["Rook"], "2025-11-20"))).toMatchObject([
      { code: "odd-gestation", days: 110 },
    ]);
  });

  test("[AD-18] one bad entry hides nothing", () => {
    const s = situation(
      [goat("Ash", "doe", { head: "horned", dam: id("Ash") }), goat("Elm", "doe", { head: "polled" })],
      TODAY,
    );
    expect(herdProblems(s).map((p) => p.code)).toContain("own-ancestor");
    expect(animalModel(s, id("Elm"))?.genotype.belief.pp).toBeLessThan(0.05);
  });
});

describe("what an animal's page leans on", () => {
  test("[AD-21] a buck's kids are those he most likely sired, also where only his days in the pen say so", () => {
    const entries = [
      goat("Rook", "buck", { head: "polled" }),
      goat("Ash", "doe", { head: "horned" }),
      service("Ash", ["Rook"], "2024-10-01", "2024-10-20"),
      kidding("Ash", "2025-03-08", { a1: "buck", a2: "doe" }),
      outcome("a1", "2025-07-01", "horn"),
      outcome("a2", "2025-07-01", "nothing"),
    ];
    const rook = animalModel(situation(entries, TODAY), id("Rook"));
    expect(rook?.kids.map((k) => k.name)).toEqual(["a1", "a2"]);
    expect(rook?.genotype).toMatchObject({ kidsKnown: 2, kidsHorned: 1, surety: "near-sure" });
    expect(animalModel(situation(entries, TODAY), id("Ash"))?.kids).toHaveLength(2);
  });
});

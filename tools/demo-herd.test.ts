import { addDays, daysFrom, present } from "@pollard/base";
import { herdProblems, kidModel, mayBeIntersex, sireCandidates, situationOf, todayModel } from "@pollard/advice";
import { type AnimalId, animalId } from "@pollard/genetics";
import { type Animal, fold, movedDays, readHerdFile } from "@pollard/records";
import { describe, expect, test } from "vitest";
import { demoText } from "../fixtures/herds/demo-maker/demo-herd.ts";
import { AS_OF } from "../fixtures/herds/demo-maker/farm.ts";
import { textOf } from "./repository.ts";

const committed = textOf("fixtures/herds/demo.jsonl");
const file = readHerdFile(committed);
const situation = situationOf(fold(file.entries, AS_OF), AS_OF);
const { herd } = situation;

const idOf = (name: string): AnimalId => animalId(`demo-${name.toLowerCase()}`);
const goat = (name: string): Animal => present(herd.animals.get(idOf(name)), name);
const ageOf = (name: string): number => daysFrom(present(goat(name).born, `birth of ${name}`), AS_OF);
const sire = (name: string): readonly (AnimalId | undefined)[] =>
  sireCandidates(herd, goat(name), "Alpine").flatMap((c) => c.sire ?? []);

describe("the demo herd", () => {
  test("[HO-12] the maker makes the committed file, byte for byte", () => {
    expect(demoText() === committed).toBe(true);
  });

  test("[HO-12] the file is whole, and stands still on its anchor day", () => {
    expect(file.problems).toEqual([]);
    expect(file.header?.asOf).toBe(AS_OF);
    expect(file.entries.length).toBeGreaterThanOrEqual(400);
    expect(file.entries.length).toBeLessThanOrEqual(900);
  });

  test("[HO-12] 40 to 60 animals, kids in each of four seasons", () => {
    expect(herd.animals.size).toBeGreaterThanOrEqual(40);
    expect(herd.animals.size).toBeLessThanOrEqual(60);
    expect(new Set(herd.kiddings.map((k) => addDays(k.on, 31).slice(0, 4))).size).toBe(4);
  });

  test("[HO-12] exactly the intended things are wrong in it, on its own day and on any other", () => {
    const intended = ["hard-to-believe", "rival-corrections", "two-with-one-tag"];
    expect(
      herdProblems(situation)
        .map((p) => p.code)
        .sort(),
    ).toEqual(intended);
    const later = addDays(AS_OF, 252);
    const moved = situationOf(fold(movedDays(file.entries, 252), later), later);
    expect(
      herdProblems(moved)
        .map((p) => p.code)
        .sort(),
    ).toEqual(intended);
    expect(todayModel(moved).tasks.map((t) => t.task.kind)).toEqual(
      todayModel(situation).tasks.map((t) => t.task.kind),
    );
  });

  test("[HO-12] every head was treated on a day on which the vet came", () => {
    const days = new Set(herd.vetDays.map((v) => v.on));
    for (const animal of herd.animals.values()) for (const { on } of animal.disbuddings) expect(days).toContain(on);
  });

  test("[HO-12] every animal that its page names is in it", () => {
    const page = textOf("fixtures/herds/README.md");
    const named = page
      .split("\n")
      .filter((line) => /^\| (?!piece|---)/.test(line))
      .flatMap((line) => line.split("|")[2]?.match(/[A-Z][a-z]+/g) ?? []);
    expect(named.length).toBeGreaterThan(20);
    for (const name of named) expect(herd.animals.has(idOf(name)), name).toBe(true);
  });
});

describe("the story", () => {
  test("[HO-12] a carrier buck: Rook's kids of horned does are of both kinds, and prove him", () => {
    expect(goat("Rook").head?.head).toBe("polled");
    expect(goat("Coltsfoot").outcomes.at(-1)).toMatchObject({ left: "horn", right: "horn" });
    expect(goat("Catkin").outcomes.at(-1)).toMatchObject({ left: "knob", right: "knob" });
    for (const kid of ["Coltsfoot", "Catkin"]) expect(sire(kid)).toEqual([idOf("Rook")]);
    expect(situation.beliefs.polled(idOf("Rook")).Pp).toBeGreaterThan(0.99);
  });

  test("[HO-12] a buck not yet known: Alder", () => {
    const { PP, Pp } = situation.beliefs.polled(idOf("Alder"));
    expect(PP).toBeGreaterThan(0.05);
    expect(Pp).toBeGreaterThan(0.05);
  });

  test("[HO-12] a misrecorded sire: Fen is polled by test, of two horned parents by the book", () => {
    expect(sire("Fen")).toEqual([idOf("Flint")]);
    for (const parent of ["Thistle", "Flint"]) expect(goat(parent).head?.head).toBe("horned");
    expect(goat("Fen").tests).toMatchObject([{ locus: "polled", alleles: ["P", "p"] }]);
    expect(herdProblems(situation)).toContainEqual(expect.objectContaining({ code: "hard-to-believe" }));
    const [first] = situation.beliefs.sires(idOf("Fen"));
    expect(first?.[0]).toBeUndefined();
  });

  test("[HO-12] twins that differ: Burr and Linnet", () => {
    expect(goat("Burr").kidding).toBe(goat("Linnet").kidding);
    expect(situation.beliefs.polled(idOf("Burr")).pp).toBeGreaterThan(0.9);
    expect(situation.beliefs.polled(idOf("Linnet")).pp).toBeLessThan(0.1);
  });

  test("[HO-12] one of two bucks: the kids from the shared pens", () => {
    for (const kid of ["Bryony", "Speedwell", "Nettle"])
      expect(new Set(sire(kid))).toEqual(new Set([idOf("Rook"), idOf("Gale")]));
  });

  test("[HO-12] two polled parents: Ember looks like a doe and is watched; in Lark signs of both sexes were seen", () => {
    for (const kid of ["Ember", "Lark"]) {
      expect([goat(kid).dam, ...sire(kid)]).toEqual([idOf("Sedge"), idOf("Rook")]);
      expect(mayBeIntersex(situation, goat(kid))).toBe(true);
    }
    expect(goat("Ember").sex).toBe("doe");
    expect(goat("Lark").traits).toContainEqual(expect.objectContaining({ trait: "intersex-signs", value: "seen" }));
  });

  test("[HO-12] listed in doubt, and the vet found no bud: Catkin", () => {
    expect(goat("Catkin").disbuddings).toMatchObject([
      { done: "not-done", found: { left: "no-bud", right: "no-bud" } },
    ]);
  });

  test("[HO-12] a scur on a disbudded head leaves the belief where it was: Tansy", () => {
    expect(goat("Tansy").disbuddings[0]?.done).toBe("both-sides");
    expect(goat("Tansy").outcomes.at(-1)?.left).toBe("scur");
    expect(situation.beliefs.polled(idOf("Tansy")).pp).toBeGreaterThan(0.9);
  });

  test("[HO-12] corrections: Quince's sex, Plover's weight, Skylark's reading, Meadowsweet's sale", () => {
    expect(goat("Quince").sex).toBe("doe");
    expect(goat("Plover").weights.every((w) => w.kg < 10)).toBe(true);
    expect(goat("Skylark").readings).toHaveLength(1);
    expect(goat("Meadowsweet").departure?.why).toBe("sold");
    for (const state of ["replaced", "struck"]) expect(herd.history.some((line) => line.state === state)).toBe(true);
  });

  test("[HO-12] an early kid: Wren counts from her due date too", () => {
    expect(kidModel(situation, idOf("Wren"))?.ages.early).toBeGreaterThanOrEqual(4);
  });

  test("[HO-12] a kid past its window: Moth", () => {
    expect(ageOf("Moth")).toBeGreaterThan(14);
    expect(situation.advice(idOf("Moth"))?.kind).toBe("ring-vet");
  });

  test("[HO-12] a doubtful reading: Pip is to be looked at again", () => {
    const horns = present(kidModel(situation, idOf("Pip"))?.belief, "belief of Pip").horns;
    expect(horns).toBeGreaterThan(0.2);
    expect(horns).toBeLessThan(0.8);
    expect(situation.advice(idOf("Pip"))?.kind).toBe("look-again");
  });

  test("[HO-12] a doeling whose bud came late: Fescue", () => {
    expect(goat("Fescue").readings.map((r) => r.signs.feel)).toEqual([{ both: "rounded" }, { both: "pointed" }]);
  });

  test("[HO-12] two readers who differ on one day: Juniper", () => {
    const readings = goat("Juniper").readings;
    expect(new Set(readings.map((r) => r.by)).size).toBe(2);
    expect(new Set(readings.map((r) => r.on)).size).toBe(1);
    expect(readings[0]?.signs.skin).not.toEqual(readings[1]?.signs.skin);
  });

  test("[HO-12] heads not read yet, of several ages", () => {
    for (const kid of ["Dunnock", "Siskin", "Barley"]) expect(situation.advice(idOf(kid))?.kind).toBe("read-head");
    expect(new Set(situation.openHeads().map(({ animal }) => animal.born)).size).toBeGreaterThanOrEqual(6);
  });

  test("[HO-12] today asks for the three-month checks, the coming visit and the does still to kid", () => {
    const today = todayModel(situation);
    const kinds = today.tasks.map((t) => t.task.kind);
    expect(kinds.filter((kind) => kind === "check-growth")).toHaveLength(3);
    expect(today.tasks.find((t) => t.task.kind === "vet-visit")?.daysLeft).toBe(2);
    expect(today.doesToKid).toBe(3);
    expect(kinds).toContain("kidding-due");
  });
});

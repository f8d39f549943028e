import { day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { describe, expect, test } from "vitest";
import type { Entry, TooNewEntry } from "../entry.ts";
import { anEntry, type Over } from "../entry-builders.ts";
import type { BodyOf } from "../entry-kinds.ts";
import type { Animal } from "../herd.ts";
import { fold } from "./ledger.ts";

const TODAY = day("2026-06-01");
const id = animalId;

const doe = (name: string, over: Over = {}, more: Partial<BodyOf<"animal">> = {}) =>
  anEntry("animal", { animal: id(name), sex: "doe", ...more }, over);
const buck = (name: string, over: Over = {}, more: Partial<BodyOf<"animal">> = {}) =>
  anEntry("animal", { animal: id(name), sex: "buck", ...more }, over);
const kidding = (dam: string, kids: readonly string[], over: Over = {}, bucks?: readonly string[]) =>
  anEntry(
    "kidding",
    {
      dam: id(dam),
      kids: kids.map((kid) => ({ kid: id(kid), sex: "doe", born: "alive" }) as const),
      ...(bucks ? { bucks: bucks.map(id) } : {}),
    },
    over,
  );
const weight = (animal: string, over: Over = {}) =>
  anEntry("weight", { animal: id(animal), kg: 4, how: "weighed" }, over);

type Entries = readonly (Entry | TooNewEntry)[];
const animalIn = (entries: Entries, name: string): Animal | undefined =>
  fold(entries, TODAY).herd.animals.get(id(name));

/** The problems that entries raise, and nothing else but these. */
function expectProblems(entries: Entries, problems: readonly object[]) {
  expect(fold(entries, TODAY).problems).toEqual(problems);
}

describe("fold", () => {
  test("[RE-5] no entries: no herd, no problems", () => {
    const { herd, problems } = fold([], TODAY);
    expect(herd.id).toBeUndefined();
    expect(herd.animals.size).toBe(0);
    expect(problems).toEqual([]);
  });

  test("[RE-5] a doe, her twins and what was found on them", () => {
    const entries = [
      doe("hazel", {}, { name: "Hazel", tag: "0012", born: day("2021-03-04"), breed: "landrace", head: "horned" }),
      buck("bruno"),
      anEntry("service", { doe: id("hazel"), bucks: [id("bruno")], way: "hand" }, { on: "2025-10-05T17:30" }),
      kidding("hazel", ["one", "two"], { on: "2026-03-04T05:10" }, ["bruno"]),
      anEntry("head-reading", { kid: id("one"), signs: { feel: { both: "pointed" } } }, { on: "2026-03-06" }),
      weight("one", { on: "2026-03-05" }),
    ];
    const { herd, problems } = fold(entries, TODAY);
    expect(problems).toEqual([]);
    expect(herd.id).toBe("herd");
    expect(herd.animals.get(id("hazel"))).toMatchObject({ name: "Hazel", tag: "0012", sires: [], dam: undefined });
    expect(herd.animals.get(id("one"))).toMatchObject({
      born: "2026-03-04",
      bornAs: "alive",
      dam: "hazel",
      sires: ["bruno"],
      kidding: entries[3]?.id,
      readings: [{ on: "2026-03-06", by: "Ines", signs: { feel: { both: "pointed" } } }],
      weights: [{ kg: 4, on: "2026-03-05" }],
    });
    expect(herd.kiddings).toMatchObject([{ dam: "hazel", kids: ["one", "two"], time: "05:10" }]);
    expect(herd.services).toMatchObject([{ doe: "hazel", bucks: ["bruno"], until: "2025-10-05", time: "17:30" }]);
    expect(herd.history.map(({ kind }) => kind)).toEqual([
      "weight",
      "head-reading",
      "kidding",
      "service",
      "animal",
      "animal",
    ]);
  });

  test("[RE-8] an animal that was never entered is a placeholder and a problem", () => {
    const born = kidding("hazel", ["one"], { on: "2026-03-04" }, ["bruno"]);
    expect(animalIn([born], "hazel")).toMatchObject({ sex: "doe", entry: born.id });
    expect(animalIn([born], "bruno")).toMatchObject({ sex: "buck" });
    expectProblems(
      [born],
      ["bruno", "hazel"].map((animal) => ({ code: "unknown-animal", entry: born.id, animal })),
    );
  });

  test("[RE-10] a sire that is a doe is no sire", () => {
    const born = kidding("hazel", ["one"], { on: "2026-03-04" }, ["holly"]);
    const entries = [doe("hazel"), doe("holly"), born];
    expectProblems(entries, [{ code: "sire-is-no-buck", entry: born.id, animal: "one", sire: "holly" }]);
    expect(animalIn(entries, "one")).toMatchObject({ dam: "hazel", sires: [] });
  });
});

import { day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { describe, expect, test } from "vitest";
import type { Entry, TooNewEntry } from "../entry/entry.ts";
import { anEntry, type Over } from "../entry/entry-builders.ts";
import type { BodyOf } from "../entry/entry-kinds.ts";
import type { Animal } from "../herd.ts";
import type { EntryId } from "../entry/ids.ts";
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

  test("[RE-5] what stands in one list is in order of day, then of writing", () => {
    const late = weight("hazel", { on: "2026-03-09" });
    const early = weight("hazel", { on: "2026-03-02" });
    const after = weight("hazel", { on: "2026-03-02" });
    const entries = animalIn([doe("hazel"), late, after, early], "hazel")?.weights.map(({ entry }) => entry);
    expect(entries).toEqual([early.id, after.id, late.id]);
  });

  test("[RE-5] vet days, notes, settings, tests, traits, choices and departures have their places", () => {
    const entries = [
      doe("hazel"),
      anEntry("vet-day", { vet: "Dr Linde" }, { on: "2026-07-01" }),
      anEntry("note", { text: "new fence" }),
      anEntry("note", { text: "limps", animal: id("hazel") }),
      anEntry("setting", { key: "losses", value: 1 }),
      anEntry("setting", { key: "losses", value: 3 }),
      anEntry("dna-test", { animal: id("hazel"), locus: "polled", alleles: ["P", "p"], lab: "north" }),
      anEntry("trait", { animal: id("hazel"), trait: "wattles", value: "two" }),
      anEntry("choice", { kid: id("hazel"), choice: "vet-list", day: day("2026-07-01") }),
      anEntry("disbudding", { kid: id("hazel"), done: "left", found: { left: "bud", right: "no-bud" } }),
      anEntry("outcome", { animal: id("hazel"), left: "scur", right: "nothing", knobs: "unsure" }),
      anEntry("departure", { animal: id("hazel"), why: "sold", to: "the Mill" }, { on: "2026-05-30" }),
    ];
    const { herd, problems } = fold(entries, TODAY);
    expect(problems).toEqual([]);
    expect(herd.vetDays).toMatchObject([{ vet: "Dr Linde", on: "2026-07-01" }]);
    expect(herd.notes).toMatchObject([{ text: "new fence" }]);
    expect([...herd.settings]).toEqual([["losses", 3]]);
    expect(herd.animals.get(id("hazel"))).toMatchObject({
      notes: [{ text: "limps" }],
      tests: [{ locus: "polled", alleles: ["P", "p"], lab: "north" }],
      traits: [{ trait: "wattles", value: "two" }],
      choices: [{ choice: "vet-list", day: "2026-07-01" }],
      disbuddings: [{ done: "left", found: { left: "bud", right: "no-bud" } }],
      outcomes: [{ left: "scur", right: "nothing", knobs: "unsure" }],
      departure: { why: "sold", to: "the Mill", on: "2026-05-30" },
    });
  });

  test("[RE-5] a kid's birth weight counts as weighed on the day of birth", () => {
    const kids = [{ kid: id("one"), sex: "buck", born: "alive", weightKg: 3.4 }] as const;
    const born = anEntry("kidding", { dam: id("hazel"), kids: [...kids] }, { on: "2026-03-04" });
    expect(animalIn([doe("hazel"), born], "one")?.weights).toMatchObject([
      { kg: 3.4, how: "weighed", on: "2026-03-04" },
    ]);
  });

  test("[RE-5] later entries of an animal add to earlier ones: name, tag, breed, a wether, the sire", () => {
    const entries = [
      doe("hazel"),
      buck("bruno"),
      buck("basil"),
      kidding("hazel", ["one"], { on: "2026-03-04" }, ["bruno", "basil"]),
      anEntry("animal", {
        animal: id("one"),
        sex: "buck",
        name: "Onno",
        tag: "17",
        mark: "white sock",
        sire: id("basil"),
      }),
      anEntry("animal", { animal: id("one"), sex: "wether", tag: "18" }),
    ];
    expectProblems(entries, []);
    expect(animalIn(entries, "one")).toMatchObject({
      name: "Onno",
      tag: "18",
      mark: "white sock",
      sex: "wether",
      born: "2026-03-04",
      dam: "hazel",
      sires: ["basil"],
      entry: entries[3]?.id,
    });
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

  test("[RE-8] what was seen of an animal before it is entered waits for it", () => {
    const seen = weight("stray", { on: "2026-05-01" });
    expectProblems([seen], [{ code: "unknown-animal", entry: seen.id, animal: "stray" }]);
    const entries = [seen, doe("stray")];
    expectProblems(entries, []);
    expect(animalIn(entries, "stray")?.weights).toHaveLength(1);
  });

  test("[RE-10] a sire that is a doe is no sire, a dam that is a buck or a wether no dam", () => {
    const born = kidding("hazel", ["one", "two"], { on: "2026-03-04" }, ["holly"]);
    const withDoe = [doe("hazel"), doe("holly"), born];
    expectProblems(withDoe, [{ code: "sire-is-no-buck", entry: born.id, animal: "one", sire: "holly" }]);
    expect(animalIn(withDoe, "two")).toMatchObject({ dam: "hazel", sires: [] });
    const wether = anEntry("animal", { animal: id("hazel"), sex: "wether" });
    const withWether = [wether, buck("holly"), born];
    expectProblems(withWether, [{ code: "dam-is-no-doe", entry: born.id, animal: "one", dam: "hazel" }]);
    expect(animalIn(withWether, "two")).toMatchObject({ dam: undefined, sires: ["holly"] });
    expect(fold(withWether, TODAY).herd.kiddings).toEqual([]);
  });

  test("[RE-10] a wether may have sired before he was one; signs of both sexes rule nothing out", () => {
    const born = kidding("hazel", ["one"], { on: "2026-03-04" }, ["bruno"]);
    const bruno = anEntry("animal", { animal: id("bruno"), sex: "wether" });
    const hazel = anEntry("animal", { animal: id("hazel"), sex: "intersex" });
    expectProblems([bruno, hazel, born], []);
    expect(animalIn([bruno, hazel, born], "one")).toMatchObject({ dam: "hazel", sires: ["bruno"] });
  });

  test("[RE-10] the same for a service and for a bought animal", () => {
    const service = anEntry("service", { doe: id("bruno"), bucks: [id("holly"), id("basil")], way: "pen" });
    const bought = doe("ivy", {}, { dam: id("basil"), sire: id("holly") });
    const entries = [doe("holly"), buck("bruno"), buck("basil"), service, bought];
    expectProblems(entries, [
      { code: "dam-is-no-doe", entry: service.id, animal: "bruno", dam: "bruno" },
      { code: "sire-is-no-buck", entry: service.id, animal: "bruno", sire: "holly" },
      { code: "dam-is-no-doe", entry: bought.id, animal: "ivy", dam: "basil" },
      { code: "sire-is-no-buck", entry: bought.id, animal: "ivy", sire: "holly" },
    ]);
    expect(fold(entries, TODAY).herd.services).toEqual([]);
    expect(animalIn(entries, "ivy")).toMatchObject({ dam: undefined, sires: [] });
  });

  test("[RE-11] an animal that would be its own ancestor: the link written last is left out", () => {
    const entries = [
      doe("ada", {}, { dam: id("bea") }),
      doe("bea", {}, { dam: id("cleo") }),
      doe("cleo", {}, { dam: id("ada") }),
      doe("dora", {}, { dam: id("dora") }),
    ];
    expectProblems(entries, [
      { code: "own-ancestor", entry: entries[2]?.id, animals: ["cleo", "ada", "bea"] },
      { code: "own-ancestor", entry: entries[3]?.id, animals: ["dora"] },
    ]);
    expect(["ada", "bea", "cleo", "dora"].map((name) => animalIn(entries, name)?.dam)).toEqual([
      "bea",
      "cleo",
      undefined,
      undefined,
    ]);
  });

  test("[RE-12] born twice: the kidding written first counts", () => {
    const first = kidding("hazel", ["one"], { on: "2026-03-04" });
    const second = kidding("holly", ["one", "two"], { on: "2026-03-05" });
    const entries = [doe("hazel"), doe("holly"), second, first];
    expectProblems(entries, [{ code: "born-twice", entry: second.id, animal: "one", first: first.id }]);
    expect(animalIn(entries, "one")).toMatchObject({ born: "2026-03-04", dam: "hazel" });
    expect(fold(entries, TODAY).herd.kiddings.map(({ kids }) => kids)).toEqual([["one"], ["two"]]);
  });

  test("[RE-12] an entry that tells of another birth than the kidding does is a problem, and the kidding counts", () => {
    const born = kidding("hazel", ["one"], { on: "2026-03-04" });
    const other = doe("one", {}, { born: day("2026-03-01"), dam: id("holly"), name: "Una" });
    const entries = [doe("hazel"), doe("holly"), born, other];
    expectProblems(entries, [{ code: "born-twice", entry: other.id, animal: "one", first: born.id }]);
    expect(animalIn(entries, "one")).toMatchObject({ born: "2026-03-04", dam: "hazel", name: "Una" });
  });

  test("[RE-13] what is dated ahead waits for its day and is a problem until then", () => {
    const ahead = weight("hazel", { on: "2026-06-02" });
    const entries = [doe("hazel"), ahead];
    expectProblems(entries, [{ code: "in-the-future", entry: ahead.id, on: "2026-06-02", today: "2026-06-01" }]);
    expect(animalIn(entries, "hazel")?.weights).toEqual([]);
    const line = fold(entries, TODAY).herd.history.find(({ entry }) => entry === ahead.id);
    expect(line?.state).toBe("stands");
    expect(fold(entries, day("2026-06-02"))).toMatchObject({ problems: [] });
  });

  test("[RE-13] an animal, a note or a setting entered on a phone whose date is wrong still counts, and is a problem", () => {
    const entries = [
      doe("hazel", { on: "2027-01-01" }),
      anEntry("setting", { key: "k", value: 1 }, { on: "2027-01-01" }),
    ];
    expect(animalIn(entries, "hazel")).toMatchObject({ sex: "doe" });
    expect(fold(entries, TODAY).herd.settings.get("k")).toBe(1);
    expect(fold(entries, TODAY).problems.map(({ code }) => code)).toEqual(["in-the-future", "in-the-future"]);
  });

  test("[RE-13] a day of birth still to come is none", () => {
    const hazel = doe("hazel", {}, { born: day("2026-07-01") });
    expectProblems([hazel], [{ code: "in-the-future", entry: hazel.id, on: "2026-07-01", today: "2026-06-01" }]);
    expect(animalIn([hazel], "hazel")?.born).toBeUndefined();
  });

  test("[RE-13] what happened before an animal was born is a problem and is not used", () => {
    const early = weight("one", { on: "2026-03-03" });
    const entries = [doe("hazel"), kidding("hazel", ["one"], { on: "2026-03-04" }), early];
    expectProblems(entries, [
      { code: "before-birth", entry: early.id, animal: "one", on: "2026-03-03", born: "2026-03-04" },
    ]);
    expect(animalIn(entries, "one")?.weights).toEqual([]);
  });

  test("[RE-5] heats, pregnancy checks, lost kids and care stand with the animals they name", () => {
    const over = { on: "2026-03-01" };
    const entries = [
      doe("hazel"),
      doe("rowan"),
      buck("bruno"),
      anEntry("heat", { doe: id("hazel") }, over),
      anEntry("pregnancy-check", { doe: id("hazel"), way: "ultrasound", found: "pregnant", kids: 2 }, over),
      anEntry("abortion", { doe: id("hazel") }, { on: "2026-03-09" }),
      anEntry("care", { animals: [id("hazel"), id("rowan")], task: "dam-booster", answer: "done" }, over),
    ];
    const { herd, problems } = fold(entries, TODAY);
    expect(problems).toEqual([]);
    expect(herd.animals.get(id("hazel"))).toMatchObject({
      heats: [{ on: "2026-03-01" }],
      pregnancyChecks: [{ on: "2026-03-01", way: "ultrasound", found: "pregnant", kids: 2 }],
      abortions: [{ on: "2026-03-09" }],
      care: [{ task: "dam-booster", answer: "done" }],
    });
    expect(herd.animals.get(id("rowan"))?.care).toHaveLength(1);
  });

  test("[RE-5] a photo stands with its goat by the name of the picture, also when it comes after the sale", () => {
    const sold = anEntry("departure", { animal: id("hazel"), why: "sold" }, { on: "2026-03-02" });
    const photo = anEntry("photo", { animal: id("hazel"), photo: "pic-1", what: "head" }, { on: "2026-03-05" });
    const { herd, problems } = fold([doe("hazel"), sold, photo], TODAY);
    expect(problems).toEqual([]);
    expect(herd.animals.get(id("hazel"))?.photos).toMatchObject([{ photo: "pic-1", what: "head", on: "2026-03-05" }]);
  });

  test("[RE-10] a buck has no heat: a problem, and not used", () => {
    const heat = anEntry("heat", { doe: id("bruno") }, { on: "2026-03-01" });
    expectProblems([buck("bruno"), heat], [{ code: "dam-is-no-doe", entry: heat.id, animal: "bruno", dam: "bruno" }]);
    expect(animalIn([buck("bruno"), heat], "bruno")?.heats).toEqual([]);
  });

  test("[RE-13] care put off to a day before it was is a problem", () => {
    const care = anEntry(
      "care",
      { animals: [id("hazel")], task: "dam-booster", answer: "put-off", until: day("2026-02-01") },
      { on: "2026-03-01" },
    );
    expectProblems(
      [doe("hazel"), care],
      [{ code: "ends-before-it-starts", entry: care.id, on: "2026-03-01", until: "2026-02-01" }],
    );
  });

  test("[RE-13] care of several at once counts for those that were born by then", () => {
    const body = { animals: [id("hazel"), id("one")], task: "hooves", answer: "done" } as const;
    const care = anEntry("care", { ...body, animals: [...body.animals] }, { on: "2026-03-01" });
    const entries = [doe("hazel"), kidding("hazel", ["one"], { on: "2026-03-04" }), care];
    expectProblems(entries, [
      { code: "before-birth", entry: care.id, animal: "one", on: "2026-03-01", born: "2026-03-04" },
    ]);
    expect(animalIn(entries, "hazel")?.care).toHaveLength(1);
    expect(animalIn(entries, "one")?.care).toEqual([]);
  });

  test("[RE-13] what happened after an animal left is a problem and is used; what a buyer tells is none", () => {
    const sold = anEntry("departure", { animal: id("hazel"), why: "sold" }, { on: "2026-03-10" });
    const weighed = weight("hazel", { on: "2026-03-11" });
    const told = anEntry("outcome", { animal: id("hazel"), left: "horn", right: "horn" }, { on: "2026-05-01" });
    const problem = { code: "after-departure", animal: "hazel", left: "2026-03-10" };
    const entries = [doe("hazel"), sold, weighed, told];
    expectProblems(entries, [{ ...problem, entry: weighed.id, on: "2026-03-11" }]);
    expect(animalIn(entries, "hazel")).toMatchObject({ weights: [{ kg: 4 }], outcomes: [{ left: "horn" }] });
    const died = { ...sold, body: { ...sold.body, why: "died" as const } };
    expectProblems([doe("hazel"), died, told], [{ ...problem, entry: told.id, on: "2026-05-01" }]);
    const lent = { ...sold, body: { ...sold.body, why: "lent" as const } };
    expectProblems([doe("hazel"), lent, weighed], []);
  });

  test("[RE-13] semen outlives the buck", () => {
    const died = anEntry("departure", { animal: id("bruno"), why: "died" }, { on: "2025-01-10" });
    const by = (way: "hand" | "insemination") =>
      anEntry("service", { doe: id("hazel"), bucks: [id("bruno")], way }, { on: "2025-10-05" });
    expect(fold([doe("hazel"), buck("bruno"), died, by("insemination")], TODAY).problems).toEqual([]);
    expect(fold([doe("hazel"), buck("bruno"), died, by("hand")], TODAY).problems).toHaveLength(1);
  });

  test("[RE-13] a pen period that ends before it starts counts for its first day", () => {
    const over = { on: "2025-10-05" };
    const pen = anEntry(
      "service",
      { doe: id("hazel"), bucks: [id("bruno")], way: "pen", until: day("2025-09-05") },
      over,
    );
    const entries = [doe("hazel"), buck("bruno"), pen];
    expectProblems(entries, [{ code: "ends-before-it-starts", entry: pen.id, on: "2025-10-05", until: "2025-09-05" }]);
    expect(fold(entries, TODAY).herd.services).toMatchObject([{ on: "2025-10-05", until: "2025-10-05" }]);
  });

  test("[RE-14] a kid as old as its dam or older: a problem, and the link stands", () => {
    const born = kidding("hazel", ["one"], { on: "2026-03-04" });
    const entries = [doe("hazel", {}, { born: day("2026-03-04") }), born];
    expectProblems(entries, [{ code: "older-than-parent", entry: born.id, animal: "one", parent: "hazel" }]);
    expect(animalIn(entries, "one")?.dam).toBe("hazel");
  });

  test("[RE-15] two animals with one tag are a problem while both are here", () => {
    const [first, second] = [doe("hazel", {}, { tag: "0012" }), doe("holly", {}, { tag: "0012" })];
    expectProblems(
      [first, second],
      [{ code: "two-with-one-tag", entry: second.id, tag: "0012", animals: ["hazel", "holly"] }],
    );
    const sold = anEntry("departure", { animal: id("hazel"), why: "sold" });
    expectProblems([first, second, sold], []);
    expectProblems([first, doe("holly", {}, { tag: "12" })], []);
  });

  test("[RE-19] entries of another herd are left out and said; the herd is the one most entries speak of", () => {
    const stray = doe("stray", { herd: "elsewhere" });
    const entries = [doe("hazel"), doe("holly"), stray];
    expectProblems(entries, [{ code: "other-herd", entry: stray.id, herd: "elsewhere" }]);
    expect([...fold(entries, TODAY).herd.animals.keys()]).toEqual(["hazel", "holly"]);
  });

  test("[RE-19] one id, two entries: the one written first counts, and both are a question", () => {
    const first = weight("hazel", { id: "w", at: "2026-01-01T00:00:00.000Z-0000-barn" });
    const second = { ...first, at: "2026-01-02T00:00:00.000Z-0000-barn", by: "Tobias" } as Entry;
    for (const entries of [
      [doe("hazel"), first, second],
      [second, doe("hazel"), first],
    ]) {
      expectProblems(entries, [{ code: "one-id-two-entries", entry: "w" }]);
      expect(animalIn(entries, "hazel")?.weights).toMatchObject([{ by: "Ines" }]);
    }
  });

  test("[RE-19] an entry too new is counted, said, and changes nothing else", () => {
    const tooNew = { id: "n1" as EntryId, tooNew: { v: 2, id: "n1", kind: "weight" } };
    const { herd, problems } = fold([doe("hazel"), tooNew], TODAY);
    expect(problems).toEqual([{ code: "too-new", entry: "n1" }]);
    expect(herd.tooNew).toBe(1);
    expect(herd.animals.size).toBe(1);
  });
});

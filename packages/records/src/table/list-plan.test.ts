import { type Day, day, present } from "@pollard/base";
import { type AnimalId, animalId } from "@pollard/genetics";
import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { anEntry, stampOf } from "../entry/entry-builders.ts";
import type { Entry } from "../entry/entry.ts";
import { fold } from "../fold/ledger.ts";
import type { Fact } from "../entry/entry-kinds.ts";
import type { DeviceId, EntryId, HerdId } from "../entry/ids.ts";
import { parseEntry } from "../entry/parse.ts";
import { hasKidded } from "../kidded.ts";
import { csvText } from "./csv-text.ts";
import { herdTables } from "./herd-tables.ts";
import { goatList } from "./list.ts";
import { guessedColumns } from "./list-columns.ts";
import { listFacts, type ListPlan, listPlan, type ListWishes } from "./list-plan.ts";
import { utf8Bytes } from "./utf8.ts";

const today = day("2026-03-18");

/** Facts as the entries that a device would make of them, each later than any that a test writes. */
const written = (facts: readonly Fact[], from = 0): readonly Entry[] =>
  facts.map((fact, at) => ({
    v: 1,
    id: `list-${from + at}` as EntryId,
    herd: "herd" as HerdId,
    by: "Ines",
    at: stampOf(40_000_000 + from + at),
    device: "barn" as DeviceId,
    ...fact,
  }));

const herdOf = (entries: readonly Entry[], on: Day = today) => fold(entries, on);

function plan(text: string, entries: readonly Entry[] = [], wishes: Partial<ListWishes> = {}): ListPlan {
  const list = goatList(Uint8Array.from(utf8Bytes(text)));
  if (!list.ok) throw new Error(list.error.code);
  const all = { columns: guessedColumns(list.value.headings), parents: "gone" as const, ...wishes };
  return listPlan(list.value, all, { id: "herd" as HerdId, herd: herdOf(entries).herd, today });
}

const none: ReadonlySet<AnimalId> = new Set();
const everyone = ({ rows }: ListPlan): ReadonlySet<AnimalId> =>
  new Set(rows.flatMap((row) => (row.becomes === "change" ? [row.animal] : [])));

/** What each row becomes, in a word. */
const becoming = ({ rows }: ListPlan): string => rows.map(({ becomes }) => becomes).join(" ");

/** The codes of what is wrong with each row. */
const wrong = ({ rows }: ListPlan) =>
  rows.flatMap((row) => (row.becomes === "nothing" ? [[row.line, ...row.problems.map(({ code }) => code)]] : []));

const HAZEL = anEntry("animal", { animal: animalId("hazel"), name: "Hazel", tag: "12", sex: "doe" });
const ROOK = anEntry("animal", { animal: animalId("rook"), name: "Rook", tag: "7", sex: "buck" });

const LIST = `Name;Tag;Sex;Born;Dam;Sire;Horns
Pip;31;f;25/03/2025;Hazel;Rook;
Hazel;12;f;02/05/2021;Old Fern;;polled
Rook;7;m;14/02/2020;;;horned
`;

describe("bringing a list in", () => {
  test("[RE-57] dam and sire by name, also further down; a parent that nobody tells of is known by name, and gone", () => {
    const found = plan(LIST);
    expect(becoming(found)).toBe("new new new");
    const { herd, problems } = herdOf(written(listFacts(found, none)));
    expect(problems).toEqual([]);
    const byName = new Map([...herd.animals.values()].map((animal) => [animal.name, animal]));
    const [pip, hazel, fern] = ["Pip", "Hazel", "Old Fern"].map((name) => present(byName.get(name), name));
    expect(pip).toMatchObject({ tag: "31", born: "2025-03-25", dam: hazel?.id, sires: [byName.get("Rook")?.id] });
    expect(hazel).toMatchObject({ born: "2021-05-02", dam: fern?.id, head: { head: "polled" } });
    expect(fern).toMatchObject({ sex: "doe", departure: { why: "other" } });
  });

  test("[RE-58] the same list again plans nothing, also on another device", () => {
    const facts = listFacts(plan(LIST), none);
    expect(becoming(plan(LIST, written(facts)))).toBe("same same same");
    expect(listFacts(plan(LIST, written(facts)), none)).toEqual([]);
    const both = [...written(facts), ...written(listFacts(plan(LIST), none), 100)];
    expect(herdOf(both).herd.animals.size).toBe(4);
    expect(herdOf(both).problems).toEqual([]);
  });

  test("[RE-58] one that was renamed here after it came in is still found by its row", () => {
    const facts = listFacts(plan("Name,Sex\nHazle,f"), none);
    const { animal } = (present(facts[0], "a fact") as Extract<Fact, { kind: "animal" }>).body;
    const renamed = written([{ kind: "animal", on: today, body: { animal, name: "Hazel", sex: "doe" } }], 50);
    expect(becoming(plan("Name,Sex\nHazle,f", [...written(facts), ...renamed]))).toBe("change");
  });

  test("[RE-58] a second goat of its name that came later does not make its row a question", () => {
    const facts = written(listFacts(plan("Name,Sex\nFern,f"), none));
    const later = anEntry("animal", { animal: animalId("f2"), name: "Fern", sex: "doe" });
    expect(becoming(plan("Name,Sex\nFern,f", [...facts, later]))).toBe("same");
  });

  test("[RE-59] what the herd knows is not overwritten: a difference is offered, and entered only with a yes", () => {
    const found = plan("Name,Tag,Sex,Born,Breed\nHazel,12,f,2021-05-02,\nRoock,7,m,,Alpine", [HAZEL, ROOK]);
    expect(becoming(found)).toBe("change change");
    expect(found.rows.map((row) => row.becomes === "change" && row.differences)).toEqual([
      [{ of: "born", sort: "adds", here: undefined, listed: "2021-05-02" }],
      [
        { of: "name", sort: "changes", here: "Rook", listed: "Roock" },
        { of: "breed", sort: "adds", here: undefined, listed: "Alpine" },
      ],
    ]);
    expect(listFacts(found, none)).toEqual([]);
    const { herd } = herdOf([HAZEL, ROOK, ...written(listFacts(found, new Set([animalId("rook")])))]);
    expect(herd.animals.get(animalId("rook"))).toMatchObject({ name: "Roock", tag: "7", breed: "Alpine", sex: "buck" });
    expect(herd.animals.get(animalId("hazel"))?.born).toBe(undefined);
  });

  test("[RE-59] the record of a birth stays as it is; a tag for a kid that was born here is added", () => {
    const kids = [{ kid: animalId("pip"), sex: "doe" as const, born: "alive" as const, name: "Pip" }];
    const kidding = anEntry("kidding", { dam: animalId("hazel"), kids }, { on: "2025-03-25" });
    const entries = [HAZEL, kidding];
    const found = plan("Name,Tag,Sex,Born\nPip,31,f,2025-03-26", entries);
    expect(found.rows[0]).toMatchObject({ differences: [{ of: "tag" }, { of: "born", sort: "by-hand" }] });
    const same = plan("Name,Tag,Sex,Dam\nPip,31,f,Somebody", entries);
    expect(same.rows[0]).toMatchObject({
      becomes: "change",
      differences: [
        { of: "tag", sort: "adds" },
        { of: "dam", sort: "by-hand" },
      ],
    });
    const after = herdOf([...entries, ...written(listFacts(same, everyone(same)))]);
    expect(after.problems).toEqual([]);
    expect(after.herd.animals.get(animalId("pip"))).toMatchObject({ tag: "31", dam: "hazel" });
  });

  test("[RE-57] a bad row is named with everything wrong with it, and the others come in", () => {
    const found = plan("Name,Tag,Sex,Born\nHazel,1,goose,32.1.2021\nFern,2,f,2021-01-02\n,,m,\nMoss,3,,");
    expect(wrong(found)).toEqual([
      [2, "not-a-day", "not-a-sex"],
      [4, "nameless"],
      [5, "no-sex"],
    ]);
    expect(becoming(found)).toBe("nothing new nothing nothing");
  });

  test("[RE-57] a goat without a sex is what other rows call it, or what the keeper says", () => {
    const text = "Name,Sex,Dam,Sire\nFern,,,\nRook,,,\nPip,f,Fern,Rook\nMoss,,,";
    expect(wrong(plan(text))).toEqual([[5, "no-sex"]]);
    const sexes = listFacts(plan(text, [], { otherwise: "doe" }), none).map(
      (fact) => "sex" in fact.body && fact.body.sex,
    );
    expect(sexes).toEqual(["doe", "buck", "doe", "doe"]);
  });

  test("[RE-57] a kid whose dam's own row has to be mended comes in without her, and gets her when it is", () => {
    const bad = plan("Name,Sex,Born,Dam\nFern,f,never,\nPip,f,,Fern");
    expect(bad.rows[1]).toMatchObject({ becomes: "new", lacks: ["dam"] });
    const entries = written(listFacts(bad, none));
    const mended = plan("Name,Sex,Born,Dam\nFern,f,2020-01-02,\nPip,f,,Fern", entries);
    expect(mended.rows[1]).toMatchObject({ becomes: "change", differences: [{ of: "dam", sort: "adds" }] });
    const { herd } = herdOf([...entries, ...written(listFacts(mended, everyone(mended)), 50)]);
    expect([...herd.animals.values()].map(({ name }) => name).toSorted((a = "", b = "") => a.localeCompare(b))).toEqual(
      ["Fern", "Pip"],
    );
  });

  test("[RE-57] nor does she come in by her kid's row where only her own parents keep her out", () => {
    const younger = "Name,Sex,Born,Dam\nFern,f,2021-01-02,Moss\nMoss,f,2023-01-02,\nPip,f,2025-01-02,Fern";
    const looped = "Name,Sex,Dam\nFern,f,Moss\nMoss,f,Fern\nPip,f,Fern";
    for (const [text, kept] of [
      [younger, ["Moss", "Pip"]],
      [looped, ["Pip"]],
    ] as const) {
      const bad = plan(text);
      expect(bad.rows[2]).toMatchObject({ becomes: "new", lacks: ["dam"] });
      const entries = written(listFacts(bad, none));
      const { herd, problems } = herdOf(entries);
      expect(problems).toEqual([]);
      expect([...herd.animals.values()].map(({ name = "" }) => name).toSorted()).toEqual(kept);
      const mended = plan(text.replace(/Fern,f,(2021-01-02,)?Moss/, "Fern,f,$1"), entries);
      expect(mended.rows[2]).toMatchObject({ becomes: "change", differences: [{ of: "dam", sort: "adds" }] });
    }
  });

  test("[RE-67] that a doe has kidded comes in with her, and is offered for one who is here", () => {
    const text = "Name,Sex,Horns,Kiddings\nSedge,f,polled,2\nMoss,f,polled,0\nWren,,polled,yes\nHazel,f,,x";
    const found = plan(text, [HAZEL]);
    expect(becoming(found)).toBe("new new new change");
    expect(found.rows[3]).toMatchObject({ differences: [{ of: "kidded", sort: "adds", listed: "yes" }] });
    const entries = [HAZEL, ...written(listFacts(found, everyone(found)))];
    const { herd } = herdOf(entries);
    const kidded = [...herd.animals.values()].filter((animal) => hasKidded(herd, animal));
    expect(kidded.map(({ name, sex }) => `${name} ${sex}`).toSorted()).toEqual(["Hazel doe", "Sedge doe", "Wren doe"]);
    expect(becoming(plan(text, entries))).toBe("same same same same");
  });

  test("[RE-67] one whose kidding here is on record is not offered it again", () => {
    const kids = [{ kid: animalId("pip"), sex: "doe" as const, born: "alive" as const }];
    const kidding = anEntry("kidding", { dam: animalId("hazel"), kids }, { on: "2025-03-25" });
    expect(becoming(plan("Name,Sex,Kidded\nHazel,f,yes", [HAZEL, kidding]))).toBe("same");
  });

  test.each([
    ["Name,Sex,Kidded\nMoss,m,yes", "kidded-no-doe"],
    ["Name,Sex,Kidded\nMoss,wether,1", "kidded-no-doe"],
    ["Name,Sex,Born,Kidded\nMoss,f,2026-01-02,yes", "kidded-too-young"],
    ["Name,Sex,Kidded\nMoss,f,often", "not-kidded"],
  ])("[RE-67] %j is refused with its reason: it would clear her of being intersex", (text, code) => {
    expect(wrong(plan(text))).toEqual([[2, code]]);
  });

  test.each([
    ["Name,Tag,Sex\nHazel,1,f\nHazel,1,f", "new repeat", []],
    ["Name,Tag,Sex\nHazel,1,f\nFern,1,f", "new nothing", [[3, "twice"]]],
    ["Name,Tag,Sex,Dam\nHazel,1,f,Rook", "nothing", [[2, "not-a-parent"]]],
    ["Name,Tag,Sex,Dam\nHazel,1,f,1", "nothing", [[2, "own-parent"]]],
    ["Name,Tag,Sex,Born\nMoss,12,f,2019-01-01", "new", []],
  ])("[RE-57] %j", (text, rows, problems) => {
    const found = plan(text, [ROOK]);
    expect(becoming(found)).toBe(rows);
    expect(wrong(found)).toEqual(problems);
  });

  test("[RE-57] a tag that another goat of the herd wears is a question, not an overwriting", () => {
    const dated = anEntry("animal", {
      animal: animalId("fern"),
      name: "Fern",
      tag: "9",
      sex: "doe",
      born: day("2020-01-01"),
    });
    expect(wrong(plan("Name,Tag,Sex,Born\nMoss,9,f,2023-04-05", [dated]))).toEqual([[2, "tag-of-another"]]);
    const chipped = anEntry("animal", { animal: animalId("fern"), tag: "9", chip: "276000000000001", sex: "doe" });
    expect(wrong(plan("Tag,Chip,Sex\n9,276000000000002,f", [chipped]))).toEqual([[2, "tag-of-another"]]);
    const sold = anEntry("departure", { animal: animalId("fern"), why: "sold" }, { on: "2022-01-01" });
    expect(becoming(plan("Name,Tag,Sex,Born\nMoss,9,f,2023-04-05", [dated, sold]))).toBe("new");
  });

  test("[UI-368] a parent that the list's own days make no older than its kid is named in the kid's row; one without a day is not", () => {
    const [head, dam] = ["Name,Tag,Sex,Born,Dam", "Fern,1,f,2021-05-01,"];
    expect(wrong(plan(`${head}\n${dam}\nMoss,2,f,2020-01-01,Fern`))).toEqual([[3, "parent-younger"]]);
    expect(wrong(plan(`${head}\n${dam}\nMoss,2,f,2021-05-01,1`))).toEqual([[3, "parent-younger"]]);
    expect(wrong(plan(`${head}\n${dam}\nMoss,2,f,2023-01-01,Fern`))).toEqual([]);
    expect(wrong(plan(`${head}\nFern,1,f,,\nMoss,2,f,2020-01-01,Fern`))).toEqual([]);
  });

  test("[UI-380] two rows that make each goat the other's dam are both named, and a longer way round too; the rest comes in", () => {
    const found = plan("Name,Sex,Dam\nFern,f,Moss\nMoss,f,Fern\nHazel,f,");
    expect(wrong(found)).toEqual([
      [2, "parent-loop"],
      [3, "parent-loop"],
    ]);
    expect(becoming(found)).toBe("nothing nothing new");
    const three = plan("Name,Sex,Dam,Sire\nFern,f,Moss,\nMoss,f,,Rook\nRook,m,Fern,");
    expect(wrong(three).map(([line]) => line)).toEqual([2, 3, 4]);
    // A granddam named twice, by both sides, is a line that meets itself, and no loop.
    expect(wrong(plan("Name,Sex,Dam,Sire\nFern,f,,\nMoss,f,Fern,\nRook,m,Fern,\nPip,f,Moss,Rook"))).toEqual([]);
  });

  test("[UI-380] a row that closes a loop with what the herd knows is named", () => {
    const fern = anEntry("animal", { animal: animalId("fern"), name: "Fern", sex: "doe", dam: animalId("hazel") });
    expect(wrong(plan("Name,Tag,Sex,Dam\nHazel,12,f,Fern", [HAZEL, fern]))).toEqual([[2, "parent-loop"]]);
  });

  test("[RE-57] two goats of one name: the day of birth tells; without it the row is a question", () => {
    const one = anEntry("animal", { animal: animalId("f1"), name: "Fern", sex: "doe", born: day("2020-01-01") });
    const two = anEntry("animal", { animal: animalId("f2"), name: "Fern", sex: "doe", born: day("2023-01-01") });
    expect(wrong(plan("Name,Sex\nFern,f", [one, two]))).toEqual([[2, "several-goats"]]);
    expect(plan("Name,Sex,Born\nFern,f,2023-01-01", [one, two]).rows[0]).toMatchObject({
      becomes: "same",
      animal: "f2",
    });
  });

  test("[RE-55] days that may be swapped wait for the keeper, unless another of the list proves the order", () => {
    const open = "Name,Sex,Born\nHazel,f,03/04/2021";
    expect(wrong(plan(open))).toEqual([[2, "day-either"]]);
    expect(plan(open, [], { days: "month-day" }).rows[0]).toMatchObject({ goat: { born: "2021-03-04" } });
    const proven = plan(`${open}\nFern,f,25/04/2021`);
    expect(proven.days).toEqual({ proven: "day-month", open: 1 });
    expect(proven.rows[0]).toMatchObject({ goat: { born: "2021-04-03" } });
  });

  test("[RE-58] struck as one deed, nothing is left of it, and it can be brought in again", () => {
    const entries = written(listFacts(plan(LIST), none));
    const strikes = entries.map(({ id }, at) =>
      anEntry("strike" as never, { entry: id } as never, { on: today, at: stampOf(50_000_000 + at) }),
    ) as unknown as readonly Entry[];
    const undone = [...entries, ...strikes];
    expect(herdOf(undone).herd.animals.size).toBe(0);
    expect(becoming(plan(LIST, undone))).toBe("new new new");
  });

  describe("laws", () => {
    const anyCell = fc.oneof(
      fc.constantFrom("", "Hazel", "Fern", "1", "2", "f", "m", "2020-01-02", "3/4/2021", "yes", "?", "9.8E+14"),
      fc.string({ maxLength: 6 }),
    );
    const headings = [
      "id",
      "name",
      "tag",
      "chip",
      "sex",
      "born",
      "breed",
      "dam",
      "sire",
      "polled",
      "notes",
      "left",
      "why",
    ];
    const anyList = fc.array(fc.array(anyCell, { minLength: 13, maxLength: 13 }), { minLength: 1, maxLength: 6 });

    test("[RE-57] whatever a list holds: an answer, entries that are entries, a herd without contradictions of its own making", () =>
      fc.assert(
        fc.property(anyList, (rows) => {
          fc.pre(rows.some((row) => row.some((cell) => cell.trim() !== "")));
          const text = csvText([headings, ...rows], "as-is");
          const found = plan(text, [HAZEL, ROOK], { otherwise: "doe" });
          for (const entry of written(listFacts(found, everyone(found)))) expect(parseEntry(entry).ok).toBe(true);
        }),
      ));

    test("[RE-58] whatever a list holds, brought in again it brings in nothing new", () =>
      fc.assert(
        fc.property(anyList, (rows) => {
          fc.pre(rows.some((row) => row.some((cell) => cell.trim() !== "")));
          const text = csvText([headings, ...rows], "as-is");
          const first = plan(text, [HAZEL, ROOK], { otherwise: "doe" });
          const entries = [HAZEL, ROOK, ...written(listFacts(first, everyone(first)))];
          const again = plan(text, entries, { otherwise: "doe" });
          expect(again.rows.filter(({ becomes }) => becomes === "new")).toEqual([]);
        }),
      ));
  });

  test("[RE-61] the table of animals, brought in again, changes nothing; brought into an empty herd, it is the same goats", () => {
    const { herd } = herdOf(written(listFacts(plan(LIST), none)));
    const [animals] = herdTables(herd, () => []);
    const text = csvText([present(animals, "animals").columns, ...present(animals, "animals").rows], "guard");
    const again = plan(text, written(listFacts(plan(LIST), none)));
    expect(becoming(again)).toBe("same same same same");
    const fresh = herdOf(written(listFacts(plan(text), none))).herd;
    const shape = (of: typeof herd) =>
      [...of.animals.values()]
        .map(({ name, tag, sex, born, dam, head }) =>
          [name, tag, sex, born, dam && of.animals.get(dam)?.name, head?.head].join(),
        )
        .sort();
    expect(shape(fresh)).toEqual(shape(herd));
  });
});

import { day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { describe, expect, test } from "vitest";
import { anEntry } from "../entry/entry-builders.ts";
import { fold } from "../fold/ledger.ts";
import { herdTables } from "./herd-tables.ts";

const [hazel, rook, pip] = ["hazel", "rook", "pip"].map(animalId) as [
  ReturnType<typeof animalId>,
  ReturnType<typeof animalId>,
  ReturnType<typeof animalId>,
];
const on = "2025-03-25";
const ENTRIES = [
  anEntry("animal", { animal: hazel, name: "Hazel", tag: "0012", chip: "276000123456789", sex: "doe" }),
  anEntry("animal", { animal: rook, name: "Rook", sex: "buck", head: "polled" }),
  anEntry("service", { doe: hazel, bucks: [rook], way: "pen", until: day("2024-11-20") }, { on: "2024-10-20" }),
  anEntry(
    "kidding",
    { dam: hazel, bucks: [rook], kids: [{ kid: pip, sex: "doe", born: "alive", mark: "white star", weightKg: 3.2 }] },
    { on },
  ),
  anEntry(
    "head-reading",
    { kid: pip, signs: { feel: { both: "nothing" }, skin: { left: "slides" }, crown: "flat" } },
    { on: "2025-03-30" },
  ),
  anEntry(
    "disbudding",
    { kid: pip, done: "not-done", found: { left: "no-bud", right: "no-bud" } },
    { on: "2025-04-02" },
  ),
  anEntry("outcome", { animal: pip, left: "nothing", right: "scur" }, { on: "2025-07-01" }),
  anEntry("dna-test", { animal: rook, locus: "polled", alleles: ["P", "p"], lab: "Blue Lane" }),
  anEntry(
    "care",
    { animals: [hazel, pip], task: "hooves", answer: "done", because: 'long, "soft"' },
    { on: "2025-06-01" },
  ),
  anEntry("departure", { animal: pip, why: "sold", to: "Ada" }, { on: "2025-09-01" }),
  anEntry("setting", { key: "herd-name", value: "Thornfield" }),
];

/** One table's rows without who wrote them down, each cell under its heading. */
function rowsOf(name: string): readonly Readonly<Record<string, string>>[] {
  const { herd } = fold(ENTRIES, day("2026-03-18"));
  const table = herdTables(herd, (animal) => animal.sires).find((each) => each.name === name);
  return (table?.rows ?? []).map((cells) =>
    Object.fromEntries(
      cells.flatMap((cell, at) => (cell === "" || table?.columns[at] === "entry" ? [] : [[table?.columns[at], cell]])),
    ),
  );
}

describe("a herd as tables", () => {
  test("[RE-60] animals, with everything as text", () => {
    expect(rowsOf("animals")).toEqual([
      { id: "hazel", name: "Hazel", tag: "0012", chip: "276000123456789", sex: "doe" },
      {
        id: "pip",
        mark: "white star",
        sex: "doe",
        born: on,
        dam: "hazel",
        sire: "rook",
        possible_sires: "rook",
        grew_left: "nothing",
        grew_right: "scur",
        left_herd: "2025-09-01",
        why: "sold",
      },
      { id: "rook", name: "Rook", sex: "buck", head: "polled" },
    ]);
  });

  test.each([
    ["kiddings", [{ dam: "hazel", on, kids: "pip", born_alive: "1", born_dead: "0", by: "Ines" }]],
    ["services", [{ doe: "hazel", on: "2024-10-20", until: "2024-11-20", bucks: "rook", way: "pen", by: "Ines" }]],
    [
      "readings",
      [
        {
          animal: "pip",
          on: "2025-03-30",
          feel_left: "nothing",
          feel_right: "nothing",
          skin_left: "slides",
          crown: "flat",
          by: "Ines",
        },
      ],
    ],
    [
      "disbuddings",
      [{ animal: "pip", on: "2025-04-02", done: "not-done", found_left: "no-bud", found_right: "no-bud", by: "Ines" }],
    ],
    ["outcomes", [{ animal: "pip", on: "2025-07-01", left: "nothing", right: "scur", by: "Ines" }]],
    [
      "tests",
      [
        {
          animal: "rook",
          on: "2026-03-01",
          locus: "polled",
          allele_1: "P",
          allele_2: "p",
          lab: "Blue Lane",
          by: "Ines",
        },
      ],
    ],
    ["weights", [{ animal: "pip", on, kg: "3.2", how: "weighed", by: "Ines" }]],
    ["settings", [{ key: "herd-name", value: "Thornfield" }]],
  ])("[RE-60] %s", (name, rows) => {
    expect(rowsOf(name)).toEqual(rows);
  });

  test("[RE-60] care of several goats is a row for each", () => {
    expect(rowsOf("care").map(({ animal, because }) => [animal, because])).toEqual([
      ["hazel", 'long, "soft"'],
      ["pip", 'long, "soft"'],
    ]);
  });

  test("[RE-60] every row has a cell for every column, and no two tables or columns have one name", () => {
    const tables = herdTables(fold(ENTRIES, day("2026-03-18")).herd, () => []);
    expect(new Set(tables.map(({ name }) => name)).size).toBe(tables.length);
    for (const { columns, rows } of tables) {
      expect(new Set(columns).size).toBe(columns.length);
      for (const row of rows) expect(row).toHaveLength(columns.length);
    }
  });
});

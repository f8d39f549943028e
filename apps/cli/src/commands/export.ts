import { err, ok, type Result } from "@pollard/base";
import { calendarItems, calendarText, herdBreedOf, herdNameOf, sireCandidates, type Situation } from "@pollard/advice";
import { csvText, type Formulas, HERD_ENTRY_SCHEMA, herdTables, writeHerdFile } from "@pollard/records";
import { HERD_OPTIONS, OUT_OPTION, type Arguments, type Command } from "../command.ts";
import { answered, type OpenHerd, openHerd } from "../herd-source.ts";
import { give } from "../giving.ts";
import { type Stop, wrong } from "../outcome.ts";
import type { World } from "../world.ts";
import { season } from "../spoken.ts";

const FORMS = ["jsonl", "csv", "ics", "schema"] as const;
type Form = (typeof FORMS)[number];

/** The herd as a file for others: every entry, one of its tables, its calendar, or the schema of its entries. */
export const exportHerd: Command = {
  name: "export",
  takes: ["HERD"],
  about: "the herd as a backup (jsonl), a table (csv) or a calendar (ics); the schema of its entries",
  options: [
    { name: "as", value: FORMS.join("|"), about: "which of the four" },
    { name: "table", value: "NAME", about: "csv: animals (the usual one), kiddings, readings, weights, …" },
    { name: "guard", about: "csv: an apostrophe before cells that a spreadsheet might run" },
    ...HERD_OPTIONS.filter(({ name }) => name !== "json"),
    OUT_OPTION,
  ],
  async run(args, world) {
    const form = FORMS.find((each) => each === args.value("as"));
    if (form === undefined)
      return wrong(
        "As what? Write --as jsonl for a backup, --as csv for a table, --as ics for a calendar, or --as schema.",
      );
    const onlyTables = ["guard", "table"] as const;
    for (const option of onlyTables)
      if (form !== "csv" && args.has(option)) return wrong(`--${option} is for --as csv.`);
    if (form === "schema") {
      const given = await give(`${JSON.stringify(HERD_ENTRY_SCHEMA, undefined, 2)}\n`, args, world);
      return given.ok ? ok(0) : given;
    }
    const opened = await openHerd(args, world);
    if (!opened.ok) return err(opened.error);
    const text = textAs(form, opened.value, args, world);
    if (!text.ok) return text;
    const given = await give(text.value, args, world);
    return given.ok ? ok(answered(opened.value, world)) : given;
  },
};

function textAs(form: Exclude<Form, "schema">, opened: OpenHerd, args: Arguments, world: World): Result<string, Stop> {
  const { entries, situation } = opened;
  const { id } = situation.herd;
  switch (form) {
    case "jsonl":
      return ok(writeHerdFile(entries, id === undefined ? {} : { herd: id }));
    case "ics":
      return ok(calendarOf(situation, world));
    case "csv":
      return tableOf(situation, args.value("table") ?? "animals", args.has("guard") ? "guard" : "as-is");
  }
}

/** One table of the herd. The sires that it gives are the bucks that kidding and services leave possible. */
function tableOf({ herd }: Situation, name: string, formulas: Formulas): Result<string, Stop> {
  const breed = herdBreedOf(herd);
  const tables = herdTables(herd, (animal) => sireCandidates(herd, animal, breed).flatMap(({ sire }) => sire ?? []));
  const table = tables.find((each) => each.name === name);
  if (table === undefined)
    return wrong(`There is no table "${name}"; there are ${tables.map((each) => each.name).join(", ")}.`);
  return ok(csvText([table.columns, ...table.rows], formulas));
}

/** The season as a calendar file; exported again, it updates what a calendar took in before. */
function calendarOf(situation: Situation, world: World): string {
  const { herd, today } = situation;
  const entries = calendarItems(situation).map((item) => ({ ...item, ...season.calendar(item, today) }));
  return calendarText(entries, {
    name: season.calendarName(herdNameOf(herd)),
    herd: herd.id ?? "herd",
    at: world.now(),
  });
}

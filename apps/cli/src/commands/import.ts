import { type Day, err, ok, type Result } from "@pollard/base";
import { animalRef } from "@pollard/advice";
import type { AnimalId } from "@pollard/genetics";
import {
  type ColumnMap,
  DAY_ORDERS,
  type DeviceId,
  type Entry,
  entryIdMadeOf,
  fold,
  type GoatList,
  goatList,
  guessedColumns,
  type Herd,
  type HerdId,
  isTooNew,
  LIST_COLUMNS,
  listFacts,
  type ListPlan,
  listPlan,
  type ListWishes,
  nameMadeOf,
  nextStamp,
  PARENT_CHOICES,
  type PlannedRow,
  type Stamp,
  type TooNewEntry,
  writeHerdFile,
} from "@pollard/records";
import { dayOf } from "../arguments.ts";
import { HERD_OPTIONS, OUT_OPTION, type Arguments, type Command } from "../command.ts";
import { give } from "../giving.ts";
import { openHerd } from "../herd-source.ts";
import { type Stop, wrong } from "../outcome.ts";
import { bytesOf } from "../reading.ts";
import { table } from "../table.ts";
import type { World } from "../world.ts";
import { screens } from "../spoken.ts";

/** Goats from a spreadsheet's list: shows what each row becomes, and with `-o` writes the herd with them. */
export const importList: Command = {
  name: "import",
  takes: ["LIST.csv", "HERD"],
  about: "what a spreadsheet's list becomes in a herd; with -o the herd file with it",
  options: [
    { name: "map", value: "COLUMN=HEADING,…", about: `what columns hold: ${LIST_COLUMNS.join(", ")}` },
    { name: "days", value: DAY_ORDERS.join("|"), about: "which number comes first in a day such as 3/4/2024" },
    { name: "otherwise", value: "doe|buck", about: "the sex of goats whose row tells none" },
    { name: "parents", value: PARENT_CHOICES.join("|"), about: "what becomes of parents that nothing else tells of" },
    { name: "change", about: "enters also what the list says otherwise than the herd" },
    { name: "by", value: "NAME", about: "who brings it in" },
    ...HERD_OPTIONS.filter(({ name }) => name !== "seed"),
    OUT_OPTION,
  ],
  async run(args, world) {
    const [path] = args.words;
    if (path === undefined)
      return wrong("pollard import needs a list: pollard import LIST.csv HERD.jsonl -o NEW.jsonl.");
    const bytes = await bytesOf(world, path);
    if (!bytes.ok) return bytes;
    const list = goatList(bytes.value);
    if (!list.ok) return wrong(`"${path}": ${screens.lists.refusal(list.error)}`);
    const wishes = wishesOf(list.value, args);
    if (!wishes.ok) return wishes;
    const into = await herdFor(args, world, nameMadeOf(`${world.now()} ${list.value.headings.join()}`));
    if (!into.ok) return into;
    const { herd, today, entries, id } = into.value;
    const plan = listPlan(list.value, wishes.value, into.value);
    const agreed = args.has("change") ? plan.rows.flatMap((row) => (row.becomes === "change" ? [row.animal] : [])) : [];
    if (args.value("out") !== undefined) {
      const fresh = newEntries(plan, new Set(agreed), { id, entries, by: args.value("by") ?? "?" }, world);
      const given = await give(writeHerdFile([...entries, ...fresh], { herd: id }), args, world);
      if (!given.ok) return given;
    }
    if (args.has("json"))
      world.out(`${JSON.stringify({ columns: wishes.value.columns, today, ...plan }, undefined, 2)}\n`);
    else world.out(printed(plan, list.value, herd));
    return ok(plan.rows.some(({ becomes }) => becomes === "nothing") ? 1 : 0);
  },
};

/** What was asked for on the command line; columns that were not named stay as their headings say. */
function wishesOf(list: GoatList, args: Arguments): Result<ListWishes, Stop> {
  const columns = columnsOf(list, args.value("map"));
  if (!columns.ok) return columns;
  const days = chosen(args, "days", DAY_ORDERS);
  const otherwise = chosen(args, "otherwise", ["doe", "buck"] as const);
  const parents = chosen(args, "parents", PARENT_CHOICES);
  if (!days.ok) return days;
  if (!otherwise.ok) return otherwise;
  if (!parents.ok) return parents;
  return ok({ columns: columns.value, days: days.value, otherwise: otherwise.value, parents: parents.value ?? "gone" });
}

function chosen<T extends string>(args: Arguments, name: string, among: readonly T[]): Result<T | undefined, Stop> {
  const value = args.value(name);
  const found = among.find((each) => each === value);
  return value === undefined || found !== undefined
    ? ok(found)
    : wrong(`--${name} is one of ${among.join(", ")}, not "${value}".`);
}

function columnsOf(list: GoatList, map: string | undefined): Result<ColumnMap, Stop> {
  const columns = [...guessedColumns(list.headings)];
  for (const pair of map?.split(",") ?? []) {
    const [name, heading = ""] = pair.split(/=(.*)/s).map((part) => part.trim());
    const column = LIST_COLUMNS.find((each) => each === name);
    if (column === undefined) return wrong(`--map knows no column "${name}"; it knows ${LIST_COLUMNS.join(", ")}.`);
    const at = list.headings.findIndex((each) => each.toLowerCase() === heading.toLowerCase());
    if (heading !== "" && at < 0)
      return wrong(
        `The list has no heading "${heading}"; it has ${list.headings.map((each) => `"${each}"`).join(", ")}.`,
      );
    const before = columns.indexOf(column);
    if (before >= 0) columns[before] = undefined;
    if (at >= 0) columns[at] = column;
  }
  return ok(columns);
}

interface IntoFile {
  readonly id: HerdId;
  readonly herd: Herd;
  readonly entries: readonly (Entry | TooNewEntry)[];
  readonly today: Day;
}

/** The herd that the list is brought into; without one, a new one under the name given. */
async function herdFor(args: Arguments, world: World, fresh: string): Promise<Result<IntoFile, Stop>> {
  const path = args.words[1];
  if (path === undefined && args.value("demo") === undefined) {
    const today = dayOf(args, "on", world.today());
    return today.ok
      ? ok({ id: fresh as HerdId, herd: fold([], today.value).herd, entries: [], today: today.value })
      : today;
  }
  const opened = await openHerd(args, world, 1);
  if (!opened.ok) return err(opened.error);
  const { situation, entries, today, file } = opened.value;
  const id = file.header?.herd ?? situation.herd.id;
  return id === undefined
    ? wrong(`"${path}" does not say whose herd it is.`)
    : ok({ id, herd: situation.herd, entries, today });
}

/** The plan's facts as entries, each later than all that the herd has. */
function newEntries(
  plan: ListPlan,
  agreed: ReadonlySet<AnimalId>,
  into: { readonly id: HerdId; readonly entries: readonly (Entry | TooNewEntry)[]; readonly by: string },
  world: World,
): readonly Entry[] {
  const now = world.now();
  const facts = listFacts(plan, agreed);
  const source = nameMadeOf(`${now} ${into.id} ${JSON.stringify(facts)}`);
  const device = `terminal-${source.slice(0, 8)}` as DeviceId;
  let at = into.entries.reduce<Stamp | undefined>(
    (last, entry) => (isTooNew(entry) || (last !== undefined && last > entry.at) ? last : entry.at),
    undefined,
  );
  return facts.map((fact, place) => {
    at = nextStamp(at, now.replace(/Z$/, ".000Z"), device);
    const id = entryIdMadeOf(`${source} ${place}`, Date.parse(now));
    return { v: 1, id, herd: into.id, by: into.by, at, device, ...fact };
  });
}

/** The rows that need a look, and how many there are of each sort. */
function printed(plan: ListPlan, list: GoatList, herd: Herd): string {
  const called = (id: string): string => {
    const listed = plan.rows.find((row) => "animal" in row && row.animal === id)?.called;
    const elder = plan.parents.find(({ animal }) => animal === id)?.called;
    const ref = animalRef(herd, id as AnimalId);
    return listed ?? elder ?? ref.name ?? ref.tag ?? id;
  };
  const said = (row: PlannedRow): readonly string[] => {
    switch (row.becomes) {
      case "nothing":
        return row.problems.map(screens.lists.problem);
      case "change":
        return row.differences.map((each) => screens.lists.difference(each, called));
      case "repeat":
        return [screens.lists.repeats(row.first)];
      case "new":
        return row.lacks.map(screens.lists.lacks);
      case "same":
        return [];
    }
  };
  const rows = plan.rows.flatMap((row) => said(row).map((sentence) => [String(row.line), row.called, sentence]));
  const columns = [
    { title: "Line", align: "right" as const },
    { title: "Goat", most: 24 },
    { title: "What", most: 60 },
  ];
  const counts = (["new", "same", "change", "repeat", "nothing"] as const).flatMap((becomes) => {
    const count = plan.rows.filter((row) => row.becomes === becomes).length;
    return count === 0 ? [] : [`${screens.lists.groups[becomes](count)}.`];
  });
  const encoding = screens.lists.encoding[list.encoding];
  return [
    ...(rows.length === 0 ? [] : [table(columns, rows), "\n"]),
    ...[encoding, ...counts, plan.parents.length === 0 ? "" : screens.lists.parents(plan.parents.length)]
      .filter((line) => line !== "")
      .map((line) => `${line}\n`),
  ].join("");
}

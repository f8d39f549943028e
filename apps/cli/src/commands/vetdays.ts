import { err, ok, parseDay, type Result } from "@pollard/base";
import { type ExpectedDoe, expectedDoes, type VetDaysModel, vetDaysModel, visitWishes } from "@pollard/advice";
import type { Day } from "@pollard/base";
import { loadSolver } from "@pollard/planning";
import { HERD_OPTIONS, type Arguments, type Command } from "../command.ts";
import { answered, type OpenHerd, openHerd } from "../herd-source.ts";
import { type Stop, wrong } from "../outcome.ts";
import { table } from "../table.ts";
import { season } from "../spoken.ts";

/** Which days to ask the vet for, what to expect of each, and what one visit fewer or more would change. */
export const vetdays: Command = {
  name: "vetdays",
  takes: ["HERD"],
  about: "which days to ask the vet for, with the heads expected on each",
  options: [
    ...HERD_OPTIONS,
    { name: "pin", value: "DAY,DAY", about: "days that are to be visits" },
    { name: "forbid", value: "DAY,DAY", about: "days that are not to be" },
  ],
  async run(args, world) {
    const pin = daysOf(args, "pin");
    if (!pin.ok) return pin;
    const forbid = daysOf(args, "forbid");
    if (!forbid.ok) return forbid;
    const opened = await openHerd(args, world);
    if (!opened.ok) return err(opened.error);
    const { situation } = opened.value;
    const limited = visitWishes(situation.herd).mostHeads !== undefined;
    const model = vetDaysModel(situation, {
      pin: pin.value,
      forbid: forbid.value,
      ...(limited ? { solver: await loadSolver() } : {}),
    });
    const does = expectedDoes(situation);
    if (args.has("json")) world.out(`${JSON.stringify({ ...model, expected: does }, undefined, 2)}\n`);
    else world.out(printed(model, does, opened.value));
    return ok(answered(opened.value, world));
  },
};

/** The days given to an option, with commas between. */
function daysOf(args: Arguments, name: string): Result<readonly Day[], Stop> {
  const days: Day[] = [];
  for (const text of args.value(name)?.split(",") ?? []) {
    const day = parseDay(text.trim());
    if (day === undefined) return wrong(`"${text}" is not a day of the calendar; write --${name} YYYY-MM-DD.`);
    days.push(day);
  }
  return ok(days);
}

const VISITS = [{ title: "Day" }, { title: "" }, { title: "Heads" }, { title: "Kids of" }] as const;
const DOES = [
  { title: "Doe", most: 16 },
  { title: "Most likely" },
  { title: "Nine in ten between" },
  { title: "In kid", align: "right" },
  { title: "Kids", align: "right" },
  { title: "Horned", align: "right" },
  { title: "Sire" },
] as const;

function printed(model: VetDaysModel, does: readonly ExpectedDoe[], { words }: OpenHerd): string {
  const visits = model.visits.map((visit) => [
    season.tableDay(visit.day),
    season.states[visit.state],
    season.heads(visit),
    season.visitFrom(visit),
  ]);
  const due = does.map((doe) => [
    words.label(doe.doe),
    doe.days === undefined ? "" : season.tableDay(doe.days.likely),
    doe.days === undefined ? "" : `${doe.days.from.slice(5)} to ${doe.days.to.slice(5)}`,
    doe.inKid.toFixed(2),
    doe.meanKids.toFixed(1),
    doe.horned.toFixed(2),
    doe.sires
      .flatMap(({ sire, chance }) => (sire === undefined ? [] : [`${words.label(sire)} ${chance.toFixed(2)}`]))
      .join(" or "),
  ]);
  const lines = [
    season.plan(model),
    ...(model.fewer === undefined ? [] : [season.otherCount(model.fewer, "fewer")]),
    ...(model.more === undefined ? [] : [season.otherCount(model.more, "more")]),
    ...(model.limit === undefined ? [] : [season.limit(model.limit)]),
  ];
  return [
    `${lines.join("\n")}\n`,
    visits.length === 0 ? "" : `${table(VISITS, visits)}${season.whyRange}\n`,
    due.length === 0 ? "" : `${table(DOES, due)}In kid, Horned: chances, of the doe and of each of her kids.\n`,
  ]
    .filter((part) => part !== "")
    .join("\n");
}

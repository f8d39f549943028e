import { type HeadRecordModel, headRecord, type RegrowthModel, regrowthRecord } from "@pollard/advice";
import { ok } from "@pollard/base";
import type { Arguments } from "../command.ts";
import { answered, type OpenHerd } from "../herd-source.ts";
import type { Outcome } from "../outcome.ts";
import { table, wrapped } from "../table.ts";
import type { World } from "../world.ts";

/** How the calls of read heads came out, what the herd's own kids have taught, and what grew again after disbudding. */
export function recorded(opened: OpenHerd, args: Arguments, world: World): Outcome {
  const heads = headRecord(opened.situation);
  const regrowth = regrowthRecord(opened.situation);
  world.out(
    args.has("json")
      ? `${JSON.stringify({ heads, regrowth }, undefined, 2)}\n`
      : [callsText(heads, opened), learntText(heads, opened), regrowthText(regrowth, opened)].join("\n"),
  );
  return ok(answered(opened, world));
}

const WAYS = {
  together: "signs and family together",
  pedigreeAlone: "family alone",
  signsAlone: "signs alone",
  ruleOfThumb: "rule of thumb",
} as const;

function callsText(record: HeadRecordModel, { words }: OpenHerd): string {
  if (record.scores === undefined)
    return `No head that was read has shown what it is yet; ${record.readNotKnown} read heads are waiting.\n`;
  const { scores } = record;
  const rivals = (Object.keys(WAYS) as (keyof typeof WAYS)[]).map((way) => [
    WAYS[way],
    scores[way].brier.toFixed(3),
    scores[way].logScore.toFixed(3),
  ]);
  const columns = [
    { title: "Way" },
    { title: "Brier", align: "right" as const },
    { title: "Log", align: "right" as const },
  ];
  return [
    `${record.kids} heads read and known since, ${record.horned} of them horned; ${record.readNotKnown} read and not known yet.\n`,
    `Each is called with what was known before its season; ${record.seasons} seasons.\n\n`,
    ...record.calls.flatMap((line) => wrappedLine(words.call(line))),
    `\n${table(columns, rivals)}Lower is better.\n\n`,
    ...record.readers.flatMap((reader) => wrappedLine(words.reader(reader))),
  ].join("");
}

function learntText({ learnt }: HeadRecordModel, { words }: OpenHerd): string {
  const rows = learnt.lessons
    .filter(({ seen }) => Math.round(seen) > 0)
    .map((lesson) => {
      const said = words.lesson(lesson);
      return [said.about, said.before, said.after, `${Math.round(lesson.seen)}`];
    });
  const columns = [
    { title: "Learnt", most: 50 },
    { title: "Before" },
    { title: "Now" },
    { title: "Heads", align: "right" as const },
  ];
  const breeds = learnt.breeds
    .filter(({ days }) => days !== 0)
    .map(({ breed, days }) => `Buds of ${breed}: ${Math.abs(days)} days ${days > 0 ? "later" : "earlier"}.\n`);
  const readers = learnt.readers.map(({ reader, kids }) => `Tables of their own: ${reader}, from ${kids} kids.\n`);
  if (learnt.kids === 0) return "No kid of this herd has moved the keepers' tables yet.\n";
  return [`Tables moved by ${learnt.kids} kids of this herd.\n`, table(columns, rows), ...breeds, ...readers].join("");
}

const TECHNIQUES = { "bud-removed": "bud taken out", "bud-left": "bud left in" } as const;

function regrowthText({ techniques, buds, notSeen }: RegrowthModel, { words }: OpenHerd): string {
  if (buds === 0) return "No disbudded bud has been looked at since.\n";
  const groups = techniques.flatMap(({ technique, all, operators, ages }) => [
    `After disbudding, ${TECHNIQUES[technique]}: ${words.regrowth(all)}\n`,
    ...operators.map((group) => `  ${group.of}: ${words.regrowth(group)}\n`),
    ...ages.map((group) => `  at ${group.of === "15-" ? "15 or more" : group.of} days: ${words.regrowth(group)}\n`),
  ]);
  return `${groups.flatMap(wrappedLine).join("")}${notSeen} buds have not been looked at.\n`;
}

/** A line of text cut at its words to the width of a terminal, what follows set in. */
function wrappedLine(line: string): readonly string[] {
  const inset = /^ */.exec(line)?.[0] ?? "";
  const lines = wrapped(line.trim(), 96 - inset.length);
  return lines.map((part, i) => `${inset}${i === 0 ? "" : "  "}${part}\n`);
}

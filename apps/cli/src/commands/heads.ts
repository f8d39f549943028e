import { err, ok } from "@pollard/base";
import { type KidModel, kidModel, type WeighedAction } from "@pollard/advice";
import { animalId } from "@pollard/genetics";
import { HERD_OPTIONS, type Arguments, type Command } from "../command.ts";
import { chanceText } from "../chance-text.ts";
import { answered, type OpenHerd, openHerd } from "../herd-source.ts";
import { type Outcome, wrong } from "../outcome.ts";
import { recorded } from "./heads-record.ts";
import { table } from "../table.ts";
import type { World } from "../world.ts";

/** Each kid in or near its window: the chance of horns, what to do, and what each choice is expected to cost. */
export const heads: Command = {
  name: "heads",
  takes: ["HERD"],
  about: "each kid in or near its window: chance of horns, advice, next look",
  options: [
    ...HERD_OPTIONS,
    { name: "explain", value: "ID", about: "one kid, with everything that speaks for and against" },
    { name: "record", about: "how the calls came out, what the herd has taught, what grew after disbudding" },
  ],
  async run(args, world) {
    const opened = await openHerd(args, world);
    if (!opened.ok) return err(opened.error);
    if (args.has("record")) return recorded(opened.value, args, world);
    const id = args.value("explain");
    return id === undefined ? listed(opened.value, args, world) : explained(opened.value, id, args, world);
  },
};

function listed(opened: OpenHerd, args: Arguments, world: World): Outcome {
  const { situation } = opened;
  const kids = situation.openHeads().flatMap(({ animal }) => kidModel(situation, animal.id) ?? []);
  if (args.has("json")) world.out(`${JSON.stringify(kids, undefined, 2)}\n`);
  else world.out(kids.length === 0 ? "No kid is in or near its window.\n" : printedList(kids, opened));
  return ok(answered(opened, world));
}

const COLUMNS = [
  { title: "Kid", most: 16 },
  { title: "Sex" },
  { title: "Age", align: "right" },
  { title: "P(horns)", align: "right" },
  { title: "Range" },
  { title: "Leave", align: "right" },
  { title: "Look", align: "right" },
  { title: "Vet", align: "right" },
  { title: "Ends" },
  { title: "Advice" },
] as const;

function printedList(kids: readonly KidModel[], opened: OpenHerd): string {
  const rows = kids.map((kid) => [
    opened.words.label(kid.kid),
    kid.kid.sex,
    ageText(kid),
    kid.belief === undefined ? "unread" : chanceText(kid.belief.horns),
    kid.belief === undefined ? "" : `${chanceText(kid.belief.low)} to ${chanceText(kid.belief.high)}`,
    ...(["leave", "look-again", "vet-list"] as const).map((action) => lossText(kid, action)),
    "end" in kid.advice ? kid.advice.end.slice(5) : "",
    adviceText(kid, opened),
  ]);
  return `${table(COLUMNS, rows)}
Age in days; of a kid born early, from its due date in brackets. Leave, Look, Vet: what each is
expected to cost, in the keeper's own terms. Ends: last day of the window.
`;
}

const ageText = ({ ages }: KidModel): string =>
  ages.daysFromDue === undefined ? `${ages.ageDays}` : `${ages.ageDays} (${ages.daysFromDue})`;

/** The expected loss of the best action of a kind that is still open. */
function lossText({ advice }: KidModel, kind: "leave" | "look-again" | "vet-list"): string {
  const open = "actions" in advice ? advice.actions.filter((action) => action.kind === kind) : [];
  return open.length === 0 ? "" : Math.min(...open.map((action) => action.expectedLoss)).toFixed(2);
}

function adviceText(kid: KidModel, { words, today }: OpenHerd): string {
  const { title, when } = words.advice(kid.advice, today);
  return when === undefined ? title : `${title}, ${when}`;
}

/** One kid: what is believed of its horns, every fact with its weight, and what each choice is expected to cost. */
function explained(opened: OpenHerd, id: string, args: Arguments, world: World): Outcome {
  const kid = kidModel(opened.situation, animalId(id));
  if (kid === undefined)
    return wrong(`There is no kid "${id}" with a birth date; \`pollard export --as csv\` lists the ids.`);
  world.out(args.has("json") ? `${JSON.stringify(kid, undefined, 2)}\n` : explanation(kid, opened));
  return ok(answered(opened, world));
}

function explanation(kid: KidModel, opened: OpenHerd): string {
  const { words, today } = opened;
  const { title, when, why } = words.advice(kid.advice, today);
  const dam =
    kid.dam === undefined ? "dam not recorded" : `by ${sireText(kid, opened)}, out of ${words.label(kid.dam)}`;
  return [
    `${words.label(kid.kid)}, ${kid.kid.sex}, ${oldText(kid)}, ${dam}.\n`,
    beliefText(kid, opened),
    `${title}${when === undefined ? "" : `, ${when}`}. ${why} (rule ${kid.advice.rule})\n`,
    "actions" in kid.advice ? actionsText(kid.advice, opened) : "",
  ]
    .filter((part) => part !== "")
    .join("\n");
}

function oldText({ ages }: KidModel): string {
  const born = `${ages.ageDays} ${ages.ageDays === 1 ? "day" : "days"} old`;
  if (ages.daysFromDue === undefined) return born;
  return `${born}, ${Math.abs(ages.daysFromDue)} days ${ages.daysFromDue < 0 ? "before" : "after"} it was due`;
}

const sireText = ({ sires }: KidModel, { words }: OpenHerd): string => {
  const named = sires.map(
    ({ sire, chance }) => `${sire === undefined ? "a buck not recorded" : words.label(sire)} ${chanceText(chance)}`,
  );
  return named.length === 0 ? "an unknown sire" : named.join(" or ");
};

function beliefText({ belief }: KidModel, { words }: OpenHerd): string {
  if (belief === undefined) return "No reading of this head is stored, so no forecast is shown: eyes first.\n";
  const rows = belief.weighed.map((fact) => [
    fact.ageDays === undefined ? "" : `${fact.ageDays}`,
    fact.by ?? "",
    words.weighed(fact),
    fact.logOdds.toFixed(2),
  ]);
  const columns = [
    { title: "Age", align: "right" as const },
    { title: "By" },
    { title: "Fact" },
    { title: "Weight", align: "right" as const },
  ];
  return `${words.horns(belief.counted)}
P(horns) ${chanceText(belief.horns)}, between ${chanceText(belief.low)} and ${chanceText(belief.high)}; from the pedigree alone ${chanceText(belief.forecast)}.
${learntText(belief)}
${table(columns, rows)}
Weight: natural log-odds, above 0 for horns.
`;
}

/** What the same readings said before the herd's own kids moved the tables, where they have. */
const learntText = ({ learntFrom, unlearnt }: NonNullable<KidModel["belief"]>): string =>
  learntFrom === 0
    ? ""
    : `By the keepers' tables alone ${chanceText(unlearnt)}; ${learntFrom} kids of this herd have moved them.\n`;

function actionsText(
  advice: Extract<KidModel["advice"], { readonly actions: unknown }>,
  { words, today }: OpenHerd,
): string {
  const day = (action: WeighedAction): string => (action.day === undefined ? "" : words.day(action.day, today));
  const shown = advice.actions.filter(
    (action, i, all) => all.slice(0, i).filter(({ kind }) => kind === action.kind).length < SHOWN_OF_A_KIND,
  );
  const rows = shown.map((action) => [
    ACTION[action.kind],
    day(action),
    action.visit ?? "",
    action.expectedLoss.toFixed(3),
  ]);
  const columns = [
    { title: "Choice" },
    { title: "Day" },
    { title: "Visit" },
    { title: "Expected loss", align: "right" as const },
  ];
  const flips = [
    ...(advice.leaveUpTo === undefined ? [] : [`leaving is best up to P(horns) ${chanceText(advice.leaveUpTo)}`]),
    ...(advice.listFrom === undefined ? [] : [`the vet's list from ${chanceText(advice.listFrom)}`]),
  ];
  return `${table(columns, rows)}
Followed to its end: horns missed ${chanceText(advice.missed)}, needless disbudding ${chanceText(advice.needless)}; one more look saves ${advice.lookSaves.toFixed(3)}.
${flips.length === 0 ? "No chance of horns would turn this advice.\n" : `It would turn: ${flips.join("; ")}.\n`}`;
}

/** How many of the days on which one thing could be done are shown, the best first; the plain data have all. */
const SHOWN_OF_A_KIND = 3;

const ACTION = { leave: "leave it", "look-again": "look again", "vet-list": "vet's list" } as const;

import { err, ok, type Result } from "@pollard/base";
import {
  bestLodPhaseKnown,
  bestLodPhaseUnknown,
  binomialAtLeast,
  binomialAtMost,
  binomialTest,
  countInterval,
  type DominantKids,
  homozygousAfter,
  kidsToCatch,
  type Lod,
  lodPhaseKnown,
  lodPhaseUnknown,
  missedIfCarrier,
  shareInterval,
} from "@pollard/genetics";
import { type Arguments, type Command, JSON_OPTION } from "../command.ts";
import { type Stop, wrong } from "../outcome.ts";
import { table } from "../table.ts";

/** What counts of kids say by themselves: shares, whether a buck carries horns, whether two traits hang together. */
export const counts: Command = {
  name: "counts",
  takes: [],
  about: "what bare counts of kids say: exact tests, a buck's proof by his kids, linkage of two traits",
  options: [
    { name: "seen", value: "HITS:KIDS", about: "so many of so many kids: which shares that does not rule out" },
    {
      name: "expected",
      value: "SHARE",
      about: "with --seen, the share expected, such as 1/4: how strange the count is",
    },
    { name: "confidence", value: "SHARE", about: "with --seen, how sure the interval is; without it 0.95" },
    {
      name: "polled",
      value: "KIDS:DAMS,…",
      about: "a buck's kids, all polled, by their dams: 5:pp,12:Pp,20:daughters",
    },
    { name: "prior", value: "SHARE", about: "with --polled, the chance of PP before; without it 1/3" },
    { name: "linked", value: "RECOMBINANTS:KIDS", about: "two traits, phase known: log odds of linkage" },
    { name: "groups", value: "KIDS:KIDS", about: "two traits, phase unknown: log odds of linkage" },
    JSON_OPTION,
  ],
  run(args, world) {
    const answer = answerTo(args);
    if (!answer.ok) return Promise.resolve(err(answer.error));
    world.out(args.has("json") ? `${JSON.stringify(answer.value, undefined, 2)}\n` : printed(answer.value));
    return Promise.resolve(ok(0));
  },
};

interface Answer {
  readonly share?: Share;
  readonly buck?: Buck;
  readonly linkage?: Linkage;
}

function answerTo(args: Arguments): Result<Answer, Stop> {
  const [seen, kids, known, unknown] = ["seen", "polled", "linked", "groups"].map((name) => args.value(name));
  if (seen === undefined && kids === undefined && known === undefined && unknown === undefined)
    return wrong("pollard counts needs --seen, --polled, --linked or --groups.");
  const lonely = (["expected", "confidence"] as const).find((name) => args.has(name) && seen === undefined);
  if (lonely !== undefined) return wrong(`--${lonely} goes with --seen.`);
  if (args.has("prior") && kids === undefined) return wrong("--prior goes with --polled.");
  if (known !== undefined && unknown !== undefined) return wrong("--linked and --groups are two ways; give one.");
  const share = seen === undefined ? ok(undefined) : shareOf(seen, args);
  if (!share.ok) return share;
  const buck = kids === undefined ? ok(undefined) : buckOf(kids, args);
  if (!buck.ok) return buck;
  const linkage =
    known !== undefined ? linkedBy(known) : unknown !== undefined ? linkedInGroups(unknown) : ok(undefined);
  if (!linkage.ok) return linkage;
  return ok({
    ...(share.value && { share: share.value }),
    ...(buck.value && { buck: buck.value }),
    ...(linkage.value && { linkage: linkage.value }),
  });
}

/** Most kids of one count: sums over all outcomes stay short. */
const MOST = 1_000_000;

const wholeOf = (text: string | undefined): number =>
  text !== undefined && /^\d{1,7}$/.test(text.trim()) && Number(text) <= MOST ? Number(text) : Number.NaN;

/** Two whole numbers with a colon between them. */
function pairOf(text: string, option: string): Result<readonly [number, number], Stop> {
  const [one, other, ...more] = text.split(":").map(wholeOf);
  return one === undefined || other === undefined || more.length > 0 || Number.isNaN(one + other)
    ? wrong(`${option} takes two whole numbers up to ${MOST} such as 5:25; "${text}" is none.`)
    : ok([one, other]);
}

/** A share as a decimal or a fraction, ends left out. */
function shareFrom(args: Arguments, name: string, otherwise: number): Result<number, Stop> {
  const text = args.value(name);
  if (text === undefined) return ok(otherwise);
  const [over, under, ...more] = text.split("/").map((part) => (/^\d*\.?\d+$/.test(part.trim()) ? Number(part) : NaN));
  const share = (over ?? Number.NaN) / (under ?? 1);
  return more.length === 0 && share > 0 && share < 1
    ? ok(share)
    : wrong(`--${name} is a share between 0 and 1, such as 1/4 or 0.25; "${text}" is none.`);
}

interface Share {
  readonly hits: number;
  readonly kids: number;
  readonly confidence: number;
  readonly low: number;
  readonly high: number;
  readonly against?: {
    readonly expected: number;
    readonly asStrange: number;
    readonly atMost: number;
    readonly atLeast: number;
    readonly noSurprise: { readonly low: number; readonly high: number };
  };
}

function shareOf(text: string, args: Arguments): Result<Share, Stop> {
  const pair = pairOf(text, "--seen");
  if (!pair.ok) return pair;
  const [hits, kids] = pair.value;
  if (hits > kids) return wrong(`--seen ${text}: there cannot be more hits than kids.`);
  const confidence = shareFrom(args, "confidence", 0.95);
  if (!confidence.ok) return confidence;
  const found = { hits, kids, confidence: confidence.value, ...shareInterval(hits, kids, confidence.value) };
  if (!args.has("expected")) return ok(found);
  const expected = shareFrom(args, "expected", Number.NaN);
  if (!expected.ok) return expected;
  const p = expected.value;
  const against = {
    expected: p,
    asStrange: binomialTest(hits, kids, p),
    atMost: binomialAtMost(hits, kids, p),
    atLeast: binomialAtLeast(hits, kids, p),
    noSurprise: countInterval(kids, p, confidence.value),
  };
  return ok({ ...found, against });
}

/** The chance of a polled kid if its sire is a carrier, by what is known of its dam. */
const BY_DAMS: Readonly<Record<string, number>> = { pp: 1 / 2, Pp: 3 / 4, daughters: 7 / 8 };
/** A polled buck of two carriers, before any kid. */
const PRIOR = 1 / 3;
/** How surely a carrier would have shown himself. */
const SURENESS = [0.95, 0.99, 0.999] as const;

interface Buck {
  readonly prior: number;
  readonly PP: number;
  /** Had he been a carrier, so would have come only polled kids with this chance. */
  readonly missedIfCarrier: number;
  readonly kidsToCatch: readonly { readonly dams: string; readonly sureness: number; readonly kids: number }[];
}

function buckOf(text: string, args: Arguments): Result<Buck, Stop> {
  const groups: (DominantKids & { readonly dams: string })[] = [];
  for (const part of text.split(",")) {
    const [count, dams = "", ...more] = part.split(":").map((word) => word.trim());
    const [kids, chanceIfCarrier] = [wholeOf(count), Object.hasOwn(BY_DAMS, dams) ? BY_DAMS[dams] : undefined];
    if (Number.isNaN(kids) || chanceIfCarrier === undefined || more.length > 0)
      return wrong(
        `--polled takes kids by their dams, ${Object.keys(BY_DAMS).join(", ")}, as 5:pp; "${part}" is none.`,
      );
    groups.push({ kids, chanceIfCarrier, dams });
  }
  const prior = shareFrom(args, "prior", PRIOR);
  if (!prior.ok) return prior;
  return ok({
    prior: prior.value,
    PP: homozygousAfter(prior.value, groups),
    missedIfCarrier: missedIfCarrier(groups),
    kidsToCatch: groups.flatMap(({ dams, chanceIfCarrier }) =>
      SURENESS.map((sureness) => ({ dams, sureness, kids: kidsToCatch(chanceIfCarrier, sureness) })),
    ),
  });
}

/** Recombination fractions at which the log odds are listed. */
const THETAS = [0.01, 0.05, 0.1, 0.2, 0.3, 0.4] as const;

interface Linkage {
  readonly phase: "known" | "unknown";
  readonly lods: readonly Lod[];
  readonly best: Lod;
}

function linkedBy(text: string): Result<Linkage, Stop> {
  const pair = pairOf(text, "--linked");
  if (!pair.ok) return pair;
  const [recombinants, kids] = pair.value;
  if (recombinants > kids) return wrong(`--linked ${text}: there cannot be more recombinants than kids.`);
  const lods = THETAS.map((theta) => ({ theta, lod: lodPhaseKnown(kids, recombinants, theta) }));
  return ok({ phase: "known", lods, best: bestLodPhaseKnown(kids, recombinants) });
}

function linkedInGroups(text: string): Result<Linkage, Stop> {
  const pair = pairOf(text, "--groups");
  if (!pair.ok) return pair;
  const [one, other] = pair.value;
  const lods = THETAS.map((theta) => ({ theta, lod: lodPhaseUnknown(one, other, theta) }));
  return ok({ phase: "unknown", lods, best: bestLodPhaseUnknown(one, other) });
}

const NUMBERS = [{ title: "" }, { title: "", align: "right" as const }];
const six = (x: number): string => (x !== 0 && x < 1e-6 ? x.toExponential(3) : x.toFixed(6));

function printed({ share, buck, linkage }: Answer): string {
  const parts = [
    ...(share
      ? [table([{ title: `${share.hits} of ${share.kids} kids` }, ...NUMBERS.slice(1)], shareRows(share))]
      : []),
    ...(buck ? [table([{ title: "A buck with polled kids only" }, ...NUMBERS.slice(1)], buckRows(buck))] : []),
    ...(linkage ? [printedLinkage(linkage)] : []),
  ];
  return parts.join("\n");
}

const shareRows = ({ confidence, low, high, against }: Share): readonly (readonly string[])[] => [
  [`Shares not ruled out, ${confidence} sure: from`, six(low)],
  ["to", six(high)],
  ...(against
    ? [
        [`Were it ${six(against.expected)}: a count as strange or stranger`, six(against.asStrange)],
        ["so few or fewer", six(against.atMost)],
        ["so many or more", six(against.atLeast)],
        ["Counts that are no surprise", `${against.noSurprise.low} to ${against.noSurprise.high}`],
      ]
    : []),
];

const buckRows = (buck: Buck): readonly (readonly string[])[] => [
  ["PP before any kid", six(buck.prior)],
  ["PP after these kids", six(buck.PP)],
  ["A carrier would have shown no horned kid", six(buck.missedIfCarrier)],
  ...buck.kidsToCatch.map(({ dams, sureness, kids }) => [
    `Kids of ${dams === "daughters" ? "his daughters by PP dams" : `${dams} dams`} that show a carrier, ${sureness} sure`,
    String(kids),
  ]),
];

function printedLinkage({ phase, lods, best }: Linkage): string {
  const row = ({ theta, lod }: Lod): readonly string[] => [theta.toFixed(4), lod.toFixed(6)];
  const rows = [...lods.map(row), [`most: ${best.theta.toFixed(4)}`, best.lod.toFixed(6)]];
  return `${table([{ title: `Recombination, phase ${phase}` }, { title: "Log odds", align: "right" }], rows)}3 is taken as proof of linkage, -2 as proof against it.\n`;
}

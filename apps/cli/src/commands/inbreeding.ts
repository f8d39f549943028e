import { err, ok, present, type Result } from "@pollard/base";
import { type Diversity, diversityOf } from "@pollard/advice";
import {
  type AnimalId,
  animalId,
  inbreeding as inbreedingOf,
  kinship,
  type NumberedPedigree,
  numberedPedigree,
  type Parentage,
  type PedigreeIssue,
} from "@pollard/genetics";
import { type Command, JSON_OPTION } from "../command.ts";
import { csvRows } from "@pollard/records";
import { type Stop, wrong } from "../outcome.ts";
import { textOf } from "../reading.ts";
import { table } from "../table.ts";
import type { World } from "../world.ts";

/** How inbred every animal of a pedigree is, and how kin the pairs asked for are. */
export const inbreeding: Command = {
  name: "inbreeding",
  takes: ["PEDIGREE.csv"],
  about: "inbreeding of every animal of a pedigree (columns id,sire,dam), kinship of pairs",
  options: [
    { name: "pairs", value: "A:B,…", about: "pairs whose kinship is asked for" },
    { name: "founders", about: "founders, ancestors and effective numbers of the animals that have no young" },
    { name: "group", value: "A,B,…", about: "the same of these animals" },
    JSON_OPTION,
  ],
  async run(args, world) {
    const rows = await parentages(world, args.words[0]);
    if (!rows.ok) return err(rows.error);
    const { pedigree, issues } = numberedPedigree(rows.value);
    const known = inbreedingOf(pedigree);
    const pairs = pairsOf(args.value("pairs"));
    if (!pairs.ok) return err(pairs.error);
    const group = groupOf(args.value("group"));
    const strange = [...pairs.value.flat(), ...(group ?? [])].find((id) => !pedigree.positions.has(id));
    if (strange !== undefined) return wrong(`There is no animal "${strange}" in the pedigree.`);
    const at = (id: AnimalId): number => present(pedigree.positions.get(id), "an animal's place");
    const answer = {
      inbreeding: pedigree.ids.map((id, i) => ({ id, F: present(known.f[i], "an inbreeding") })),
      kinship: pairs.value.map(([a, b]) => ({ a, b, kinship: kinship(known, at(a), at(b)) })),
      ...(args.has("founders") || group !== undefined
        ? { diversity: diversityOf(known, group?.map(at) ?? withoutYoung(pedigree)) }
        : {}),
      issues,
    };
    world.out(args.has("json") ? `${JSON.stringify(answer, undefined, 2)}\n` : printed(answer));
    return ok(issues.some((issue) => issue.code !== "parent-without-row") ? 1 : 0);
  },
};

const COLUMNS = ["id", "sire", "dam"] as const;

/** The rows of the table, in whatever order its three columns stand. */
async function parentages(world: World, path: string | undefined): Promise<Result<readonly Parentage[], Stop>> {
  if (path === undefined) return wrong("pollard inbreeding needs a file: pollard inbreeding PEDIGREE.csv.");
  const text = await textOf(world, path);
  if (!text.ok) return text;
  const read = csvRows(text.value);
  if (!read.ok) return wrong(`"${path}" is no table: a quote does not close in line ${read.error.line}.`);
  const [head, ...rows] = read.value;
  const places = COLUMNS.map((name) => head?.cells.findIndex((cell) => cell.trim().toLowerCase() === name) ?? -1);
  const [id = -1, sire = -1, dam = -1] = places;
  if (places.some((place) => place < 0))
    return wrong(`"${path}" needs the columns id, sire and dam in its first line.`);
  const nameless = rows.find(({ cells }) => (cells[id] ?? "").trim() === "");
  if (nameless !== undefined) return wrong(`Line ${nameless.line} of "${path}" has no id.`);
  const parent = (cell: string | undefined): AnimalId | undefined => {
    const name = (cell ?? "").trim();
    return name === "" || name === "0" ? undefined : animalId(name);
  };
  return ok(
    rows.map(({ cells }) => ({
      id: animalId((cells[id] ?? "").trim()),
      sire: parent(cells[sire]),
      dam: parent(cells[dam]),
    })),
  );
}

function pairsOf(text: string | undefined): Result<readonly (readonly [AnimalId, AnimalId])[], Stop> {
  if (text === undefined) return ok([]);
  const pairs = text.split(",").map((pair) => pair.split(":").map((name) => name.trim()));
  const bad = pairs.find((pair) => pair.length !== 2 || pair.includes(""));
  if (bad !== undefined) return wrong(`--pairs takes pairs such as A:B,C:D; "${bad.join(":")}" is none.`);
  return ok(pairs.map(([a = "", b = ""]) => [animalId(a), animalId(b)]));
}

/** The animals named, each once. */
const groupOf = (text: string | undefined): readonly AnimalId[] | undefined =>
  text === undefined ? undefined : [...new Set(text.split(",").map((name) => animalId(name.trim())))];

/** The animals that are nobody's parents, by position. */
function withoutYoung({ ids, sire, dam }: NumberedPedigree): readonly number[] {
  const parents = new Set([...sire, ...dam]);
  return ids.flatMap((_, at) => (parents.has(at) ? [] : [at]));
}

interface Answer {
  readonly inbreeding: readonly { readonly id: AnimalId; readonly F: number }[];
  readonly kinship: readonly { readonly a: AnimalId; readonly b: AnimalId; readonly kinship: number }[];
  readonly diversity?: Diversity | undefined;
  readonly issues: readonly PedigreeIssue[];
}

function printed({ inbreeding: all, kinship: pairs, diversity, issues }: Answer): string {
  const right = { align: "right" as const };
  const rows = all.map(({ id, F }) => [id, F.toFixed(6)]);
  const kin = pairs.map(({ a, b, kinship: k }) => [a, b, k.toFixed(6)]);
  return [
    table(
      [
        { title: "Animal", most: 40 },
        { title: "F", ...right },
      ],
      rows,
    ),
    ...(kin.length === 0 ? [] : [table([{ title: "One" }, { title: "Other" }, { title: "Kinship", ...right }], kin)]),
    ...(diversity === undefined ? [] : [printedDiversity(diversity)]),
    ...(issues.length === 0 ? [] : [issues.map((issue) => `${sayIssue(issue)}\n`).join("")]),
  ].join("\n");
}

/** How many founders and ancestors are listed; the rest is counted in the figures below. */
const MOST_LISTED = 20;

function printedDiversity(found: Diversity): string {
  const right = { align: "right" as const };
  const shares = (title: string, list: Diversity["founders"]): string =>
    table(
      [
        { title, most: 40 },
        { title: "Share", ...right },
      ],
      list.slice(0, MOST_LISTED).map(({ who, share }) => [who, share.toFixed(6)]),
    );
  const figures: readonly (readonly [string, string])[] = [
    ["Animals in the group", String(found.animals)],
    ["Founders", String(found.founders.length)],
    ["Effective founders", found.effectiveFounders.toFixed(3)],
    ["Effective ancestors", found.effectiveAncestors.toFixed(3)],
    ["Founder genomes left", found.founderGenomes.toFixed(3)],
    ["Mean kinship", found.meanKinship.toFixed(6)],
    ["Mean inbreeding", found.meanInbreeding.toFixed(6)],
    ["Complete generations", found.completeGenerations.toFixed(3)],
    ["Effective size", found.effectiveSize?.toFixed(1) ?? "not to be told"],
  ];
  return [
    shares("Founder", found.founders),
    shares("Ancestor", found.ancestors),
    table([{ title: "Of the group" }, { title: "", ...right }], figures),
  ].join("\n");
}

function sayIssue(issue: PedigreeIssue): string {
  switch (issue.code) {
    case "duplicate-id":
      return `${issue.animal} is there twice; the first row counts.`;
    case "parent-without-row":
      return `${issue.parent}, parent of ${issue.animal}, has no row; taken as a founder.`;
    case "own-ancestor":
      return `${issue.animal} would be its own ancestor; its parent ${issue.parent} is left out.`;
    case "both-sire-and-dam":
      return `${issue.animal} stands as a sire and as a dam; both are kept.`;
  }
}

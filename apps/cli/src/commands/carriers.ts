import { err, ok, type Result } from "@pollard/base";
import {
  type AnimalLine,
  animalLines,
  animalRef,
  genotypeSaid,
  herdLoci,
  locusAnswer,
  locusProblem,
  namedFacts,
} from "@pollard/advice";
import {
  expectedAmount,
  explainConflicts,
  type GenotypeAnswer,
  genotypesOf,
  type Locus,
  parseLocus,
  POLLED,
  POLLED_GENOTYPES,
} from "@pollard/genetics";
import { type Arguments, type Command, HERD_OPTIONS } from "../command.ts";
import { answered, type OpenHerd, openHerd } from "../herd-source.ts";
import { type Stop, wrong } from "../outcome.ts";
import { jsonOf } from "../reading.ts";
import { chanceText } from "../chance-text.ts";
import { type Column, table, wrapped } from "../table.ts";
import type { World } from "../world.ts";
import { carriersLikeliest } from "./carriers-likeliest.ts";
import { restedOn } from "./carriers-rest-on.ts";
import { carriersTogether } from "./carriers-together.ts";
import { sayConflict } from "./genotypes.ts";
import { loci as saidOfLoci } from "../spoken.ts";

/** What every animal carries at a locus, from everything known of all of them together. */
export const carriers: Command = {
  name: "carriers",
  takes: ["HERD"],
  about: "what every animal carries: exact chances, log-likelihood, contradictions",
  options: [
    { name: "locus", value: "L", about: `the locus asked about: ${POLLED.id}, another that ships, or one of your own` },
    { name: "rests-on", value: "GOAT", about: "one goat: what would be believed without each fact" },
    { name: "together", value: "GOAT,GOAT", about: "the chance that all of these carry an allele" },
    { name: "likeliest", about: "the likeliest genotypes of all goats together, beside each goat's own" },
    {
      name: "described",
      value: "LOCUS.json",
      about: "a locus of your own from a file, asked about as if it were the herd's",
    },
    { name: "allele", value: "A", about: "the allele that --together asks for; without it, the locus's last" },
    ...HERD_OPTIONS,
  ],
  async run(args, world) {
    const opened = await openHerd(args, world);
    if (!opened.ok) return err(opened.error);
    const chosen = await locusAskedFor(opened.value, args, world);
    if (!chosen.ok) return err(chosen.error);
    const locus = chosen.value;
    const answer = locusAnswer(opened.value.situation, locus);
    const asked = { opened: opened.value, locus, answer };
    if (args.has("likeliest")) return carriersLikeliest(asked, args, world);
    const goat = args.value("rests-on");
    if (goat !== undefined) return restedOn(asked, goat, args, world);
    if (args.has("together")) return carriersTogether(asked, args, world);
    world.out(args.has("json") ? `${JSON.stringify(plain(asked), undefined, 2)}\n` : printed(asked));
    const exit = answered(opened.value, world);
    return ok(answer.conflicts.length > 0 ? 1 : exit);
  },
};

/** One of the herd's loci by its id, or one that a file describes. */
async function locusAskedFor({ situation }: OpenHerd, args: Arguments, world: World): Promise<Result<Locus, Stop>> {
  const { loci, problems } = herdLoci(situation.herd);
  const path = args.value("described");
  if (path !== undefined) return described(path, loci, args, world);
  const id = args.value("locus") ?? POLLED.id;
  const locus = loci.find((l) => l.id === id);
  const own = problems.find((p) => p.locus === id);
  if (own !== undefined) return wrong(`Your locus "${id}" cannot be used. ${saidOfLoci.locusProblem(own.problem)}`);
  if (locus === undefined) return wrong(`There is no locus "${id}"; there are ${loci.map((l) => l.id).join(", ")}.`);
  return ok(locus);
}

async function described(
  path: string,
  loci: readonly Locus[],
  args: Arguments,
  world: World,
): Promise<Result<Locus, Stop>> {
  if (args.has("locus")) return wrong("--locus and --described are two ways; give one.");
  const json = await jsonOf(world, path);
  if (!json.ok) return json;
  const read = parseLocus(json.value);
  if (!read.ok) return wrong(`The locus in "${path}" cannot be used. ${saidOfLoci.locusProblem(read.error)}`);
  if (loci.some(({ id }) => id === read.value.id))
    return wrong(`The herd has a locus "${read.value.id}" already; give the one in "${path}" another id.`);
  return read;
}

interface Asked {
  readonly opened: OpenHerd;
  readonly locus: Locus;
  readonly answer: GenotypeAnswer;
}

const saidOf = ({ situation }: OpenHerd, { ref }: AnimalLine) => {
  const animal = situation.herd.animals.get(ref.id);
  return animal === undefined ? undefined : genotypeSaid(situation, animal);
};

function plain({ opened, locus, answer }: Asked) {
  return {
    locus: locus.id,
    genotypes: genotypesOf(locus),
    method: answer.method,
    logLikelihood: answer.logLikelihood,
    animals: animalLines(opened.situation).map((line) =>
      locus.id === POLLED.id
        ? { ...line, genotype: saidOf(opened, line) }
        : { ref: line.ref, born: line.born, gone: line.gone, chances: answer.belief(line.ref.id).genotypes },
    ),
    conflicts: answer.conflicts,
  };
}

const NAMED: readonly Column[] = [{ title: "Animal", most: 20 }, { title: "Tag" }, { title: "Here" }];
const named = ({ words }: OpenHerd, line: AnimalLine): readonly string[] => [
  words.label(line.ref),
  line.ref.tag ?? "",
  line.gone ? "left" : "here",
];
const right = (title: string): Column => ({ title, align: "right" });

function printed(asked: Asked): string {
  const { opened, locus, answer } = asked;
  const lines = animalLines(opened.situation);
  const [body, notes] = locus.id === POLLED.id ? atPolled(opened, lines) : atLocus(asked, lines);
  const likelihood = `Log-likelihood ${answer.logLikelihood.toFixed(6)} (${answer.method}).`;
  const conflicts = explained(asked);
  return `${body}
${wrapped([...notes, likelihood].join(" "), 100).join("\n")}
${conflicts.map((sentence) => `${sentence}\n`).join("")}`;
}

/** The contradictions, those that hang together at once, and what most likely lies behind them, the likeliest first. */
function explained({ opened: { situation, words }, locus, answer }: Asked): readonly string[] {
  const name = (id: AnimalLine["ref"]["id"]): string => words.label(animalRef(situation.herd, id));
  const facts = namedFacts(situation, locus);
  const factOf = (fact: string): string => {
    const named = facts.get(fact);
    return named === undefined ? fact : saidOfLoci.namedFact(named, name);
  };
  return explainConflicts(locusProblem(situation, locus), answer).flatMap(({ conflicts, explanations }) => [
    ...conflicts.map((conflict) => sayConflict(conflict, factOf, name)),
    ...explanations.map((e) => `  ${saidOfLoci.explanation(e, name, factOf)}`),
  ]);
}

function atPolled(opened: OpenHerd, lines: readonly AnimalLine[]): readonly [string, readonly string[]] {
  const columns = [...NAMED, ...POLLED_GENOTYPES.map(right), right("Horned kids"), { title: "Known" }];
  const rows = lines.map((line) => {
    const said = saidOf(opened, line);
    return [
      ...named(opened, line),
      ...POLLED_GENOTYPES.map((g) => (said === undefined ? "" : chanceText(said.belief[g]))),
      said === undefined || said.kidsKnown === 0 ? "" : `${said.kidsHorned} of ${said.kidsKnown}`,
      said === undefined ? "" : opened.words.genotype(said),
    ];
  });
  return [table(columns, rows), ["Horned kids: of those whose own heads have shown it."]];
}

/** Genotypes that still have a column each; of more, the two likeliest are shown. */
const MOST_COLUMNS = 4;

function atLocus({ opened, locus, answer }: Asked, lines: readonly AnimalLine[]): readonly [string, readonly string[]] {
  const names = genotypesOf(locus);
  const [amount] = locus.amounts ?? [];
  const each = names.length <= MOST_COLUMNS;
  const columns = [
    ...NAMED,
    ...(each ? names.map(right) : [{ title: "Likeliest" }, right("Chance"), { title: "Next" }, right("Chance")]),
    ...(amount === undefined ? [] : [right(`Expected ${amount.unit}`)]),
  ];
  const rows = lines.map((line) => {
    const { genotypes } = answer.belief(line.ref.id);
    const ranked = names.map((name, g) => ({ name, chance: genotypes[g] ?? 0 })).sort((a, b) => b.chance - a.chance);
    const shown = each
      ? names.map((_, g) => chanceText(genotypes[g] ?? 0))
      : ranked.slice(0, 2).flatMap(({ name, chance }) => [name, chanceText(chance)]);
    return [
      ...named(opened, line),
      ...shown,
      ...(amount === undefined ? [] : [expectedAmount(locus, amount, genotypes).toFixed(1)]),
    ];
  });
  const standings = new Set((locus.traits ?? []).flatMap((trait) => saidOfLoci.standing(trait.standing) ?? []));
  return [table(columns, rows), [`${locus.name}.`, ...standings]];
}

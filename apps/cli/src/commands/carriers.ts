import { err, ok } from "@pollard/base";
import { type AnimalLine, animalLines, genotypeSaid } from "@pollard/advice";
import { POLLED, POLLED_GENOTYPES } from "@pollard/genetics";
import { type Command, HERD_OPTIONS } from "../command.ts";
import { answered, type OpenHerd, openHerd } from "../herd-source.ts";
import { wrong } from "../outcome.ts";
import { chanceText } from "../chance-text.ts";
import { table } from "../table.ts";
import { sayConflict } from "./genotypes.ts";

/** What every animal carries at a locus, from everything known of all of them together. */
export const carriers: Command = {
  name: "carriers",
  takes: ["HERD"],
  about: "what every animal carries: exact chances, log-likelihood, contradictions",
  options: [
    { name: "locus", value: "L", about: `the locus asked about (${POLLED.id}, the only one yet)` },
    ...HERD_OPTIONS,
  ],
  async run(args, world) {
    const locus = args.value("locus") ?? POLLED.id;
    if (locus !== POLLED.id) return wrong(`There is no locus "${locus}"; there is "${POLLED.id}".`);
    const opened = await openHerd(args, world);
    if (!opened.ok) return err(opened.error);
    world.out(args.has("json") ? `${JSON.stringify(plain(opened.value), undefined, 2)}\n` : printed(opened.value));
    const exit = answered(opened.value, world);
    return ok(opened.value.situation.beliefs.answer.conflicts.length > 0 ? 1 : exit);
  },
};

const saidOf = ({ situation }: OpenHerd, { ref }: AnimalLine) => {
  const animal = situation.herd.animals.get(ref.id);
  return animal === undefined ? undefined : genotypeSaid(situation, animal);
};

function plain(opened: OpenHerd) {
  const { answer } = opened.situation.beliefs;
  return {
    locus: POLLED.id,
    genotypes: POLLED_GENOTYPES,
    method: answer.method,
    logLikelihood: answer.logLikelihood,
    animals: animalLines(opened.situation).map((line) => ({ ...line, genotype: saidOf(opened, line) })),
    conflicts: answer.conflicts,
  };
}

const COLUMNS = [
  { title: "Animal", most: 20 },
  { title: "Tag" },
  { title: "Here" },
  ...POLLED_GENOTYPES.map((title) => ({ title, align: "right" as const })),
  { title: "Horned kids", align: "right" as const },
  { title: "Known" },
];

function printed(opened: OpenHerd): string {
  const { answer } = opened.situation.beliefs;
  const rows = animalLines(opened.situation).map((line) => {
    const said = saidOf(opened, line);
    return [
      opened.words.label(line.ref),
      line.ref.tag ?? "",
      line.gone ? "left" : "here",
      ...POLLED_GENOTYPES.map((g) => (said === undefined ? "" : chanceText(said.belief[g]))),
      said === undefined || said.kidsKnown === 0 ? "" : `${said.kidsHorned} of ${said.kidsKnown}`,
      said === undefined ? "" : opened.words.genotype(said),
    ];
  });
  return `${table(COLUMNS, rows)}
Horned kids: of those whose own heads have shown it. Log-likelihood ${answer.logLikelihood.toFixed(6)} (${answer.method}).
${answer.conflicts.map((conflict) => `${sayConflict(conflict)}\n`).join("")}`;
}

import { err, ok, weightIn } from "@pollard/base";
import { keepOrSell, type KeptKid, type ReviewModel, reviewModel } from "@pollard/advice";
import { POLLED_GENOTYPES } from "@pollard/genetics";
import { chanceText } from "../chance-text.ts";
import { type Command, HERD_OPTIONS } from "../command.ts";
import { answered, type OpenHerd, openHerd } from "../herd-source.ts";
import { wrong } from "../outcome.ts";
import { table, wrapped } from "../table.ts";
import { pairings, reviews as said, units } from "../spoken.ts";

/** As wide as tables get. */
const WIDTH = 100;

/** A season against what was to be expected of it; with --kids, the year's kids side by side. */
export const review: Command = {
  name: "review",
  takes: ["HERD"],
  about: "a season against what was expected of it; surprising kids first",
  options: [
    ...HERD_OPTIONS,
    { name: "year", value: "YYYY", about: "the latest season of that year (the latest of all)" },
    { name: "kids", about: "the young goats side by side: keep, sell, wether" },
  ],
  async run(args, world) {
    const text = args.value("year");
    if (text !== undefined && !/^(19|20|21)\d\d$/.test(text)) return wrong(`"${text}" is not a year.`);
    const opened = await openHerd(args, world);
    if (!opened.ok) return err(opened.error);
    const exit = answered(opened.value, world);
    if (args.has("kids")) {
      const kids = keepOrSell(opened.value.situation);
      world.out(args.has("json") ? `${JSON.stringify(kids, undefined, 2)}\n` : kidsSideBySide(kids, opened.value));
      return ok(exit);
    }
    const model = reviewModel(opened.value.situation, text === undefined ? undefined : Number(text));
    world.out(args.has("json") ? `${JSON.stringify(model, undefined, 2)}\n` : printed(model, opened.value));
    return ok(model.kind === "no-season" ? 1 : exit);
  },
};

function printed(model: ReviewModel, { words, today }: OpenHerd): string {
  const lines = said.season(model);
  if (model.kind === "no-season") return `${lines.join("\n")}\n`;
  const { scores } = model.readings;
  const part = (title: string, of: readonly string[]): string =>
    of.length === 0
      ? ""
      : `\n${title}\n${of
          .flatMap((line) => wrapped(line, WIDTH))
          .map((line) => `${line}\n`)
          .join("")}`;
  const reading =
    scores === undefined
      ? []
      : [
          `${model.readings.kids} heads read and known since, over all seasons.`,
          `Brier score ${scores.together.brier.toFixed(3)}; by the pedigree alone ${scores.pedigreeAlone.brier.toFixed(3)}. Lower is better.`,
        ];
  return `The season from ${words.day(model.from, today)} to ${words.day(model.to, today)}
${lines.map((line) => `${line}\n`).join("")}${part("Surprises", model.surprises.map(said.surprise))}${part(
  "By sire",
  model.sires.map(({ buck, horned }) => said.seen(words.label(buck), horned)),
)}${part("What it taught", model.learnt.map(said.learnt))}${part("Readings", reading)}`;
}

/** The genotypes that it may be, likeliest first; of a head that nobody has read yet nothing is shown. */
const statusOf = ({ genotype }: KeptKid): string =>
  genotype === undefined
    ? "read it first"
    : POLLED_GENOTYPES.filter((g) => genotype.belief[g] >= 0.005)
        .sort((x, y) => genotype.belief[y] - genotype.belief[x])
        .map((g) => `${g} ${chanceText(genotype.belief[g])}`)
        .join(" ");

/** Grams a day, or pounds, and that it falls behind where it does. */
const gainOf = ({ gainKgADay: { mean }, state }: NonNullable<KeptKid["growth"]>): string =>
  `${units === "kg" ? (1000 * mean).toFixed(0) : weightIn(mean, units).toFixed(2)}${state === "slow" || state === "losing" ? ` ${state}` : ""}`;

function kidsSideBySide(kids: readonly KeptKid[], { words }: OpenHerd): string {
  if (kids.length === 0) return "There is no young goat to decide about.\n";
  const rows = kids.map((kid) => [
    words.label(kid.kid),
    kid.kid.sex,
    `${kid.ageDays}`,
    statusOf(kid),
    kid.inbreeding.toFixed(2),
    `${kid.litter}`,
    kid.growth === undefined ? "" : gainOf(kid.growth),
    pairings.uses(kid),
    pairings.closedUses(kid),
  ]);
  const columns = [
    { title: "Kid", most: 14 },
    { title: "Sex" },
    { title: "Days", align: "right" as const },
    { title: "May be", most: 15 },
    { title: "F", align: "right" as const },
    { title: "Of", align: "right" as const },
    { title: units === "kg" ? "g/day" : "lb/day", align: "right" as const, most: 6 },
    { title: "Open to", most: 20 },
    { title: "Closed" },
  ];
  return `${table(columns, rows)}F: inbreeding. Of: kids in the litter. What counts most is yours to say.
${pairings.caution}
`;
}

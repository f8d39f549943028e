import { err, ok, probability, type Result } from "@pollard/base";
import {
  type CandidateBuck,
  type PairingRules,
  pairingRulesOf,
  type PairingsModel,
  pairingsModel,
  type PairModel,
  type PlanModel,
} from "@pollard/advice";
import { type AnimalId, POLLED_GENOTYPES, type PolledGenotype } from "@pollard/genetics";
import { loadSolver } from "@pollard/planning";
import { seedOf } from "../arguments.ts";
import { HERD_OPTIONS, type Arguments, type Command } from "../command.ts";
import { chanceText } from "../chance-text.ts";
import { answered, type OpenHerd, openHerd } from "../herd-source.ts";
import { type Stop, wrong } from "../outcome.ts";
import { table } from "../table.ts";
import { pairings as said } from "../spoken.ts";

/** Which buck for which doe: every pair, the plan, why, and what other plans and rules would change. */
export const pairings: Command = {
  name: "pairings",
  takes: ["HERD"],
  about: "which buck for which doe, and why; what each rule costs",
  options: [
    ...HERD_OPTIONS,
    { name: "must", value: "DOE:BUCK,…", about: "pairs that are to be (names, tags or ids)" },
    { name: "never", value: "DOE:BUCK,…", about: "pairs that are not to be" },
    { name: "most", value: "BUCK:N,…", about: "how many does a buck serves at most" },
    { name: "least", value: "BUCK:N,…", about: "how many does a buck serves at least" },
    { name: "open", value: "LOSS", about: "does may stay open, each at this loss" },
    { name: "kin", value: "F", about: "highest inbreeding that kids may have" },
    { name: "crop", value: "WEIGHT", about: "weight on the mean kinship of all kids of the season" },
    { name: "polled-together", about: "allow two polled parents (intersex kids)" },
    { name: "buy", value: "PP|Pp|pp|polled", about: "add a buck that is not bought yet" },
    { name: "pair", value: "DOE:BUCK", about: "everything about one pair" },
  ],
  async run(args, world) {
    const opened = await openHerd(args, world);
    if (!opened.ok) return err(opened.error);
    const rules = rulesOf(args, opened.value);
    if (!rules.ok) return rules;
    const candidate = candidateOf(args, opened.value);
    if (!candidate.ok) return candidate;
    const seed = seedOf(args, "seed", 1);
    if (!seed.ok) return seed;
    const asked = wishesOf(args, "pair", opened.value);
    if (!asked.ok) return asked;
    const model = pairingsModel(opened.value.situation, await loadSolver(), {
      rules: rules.value,
      seed: seed.value,
      ...(candidate.value === undefined ? {} : { candidate: candidate.value }),
    });
    const exit = answered(opened.value, world);
    const [wanted] = asked.value;
    if (wanted !== undefined) {
      const pair = model.pairs.flat().find((p) => p.doe.id === wanted.doe && p.buck.id === wanted.buck);
      if (pair === undefined) return wrong("These two are not among the goats that can be paired.");
      world.out(args.has("json") ? `${JSON.stringify(pair, undefined, 2)}\n` : onePair(pair, opened.value));
      return ok(exit);
    }
    world.out(args.has("json") ? `${JSON.stringify(model, undefined, 2)}\n` : printed(model, opened.value));
    return ok(model.plan.kind === "plan" ? exit : 1);
  },
};

/** A goat by its name, its tag or its id. */
function goatOf(text: string, { situation }: OpenHerd): Result<AnimalId, Stop> {
  const found = [...situation.herd.animals.values()].filter((a) => a.id === text || a.name === text || a.tag === text);
  const [animal, other] = found;
  if (animal === undefined) return wrong(`There is no goat "${text}".`);
  if (other !== undefined) return wrong(`"${text}" names more than one goat; use an id (\`pollard export --as csv\`).`);
  return ok(animal.id);
}

/** Two parts with a colon between, any number of them with commas between. */
function partsOf(args: Arguments, name: string): Result<readonly (readonly [string, string])[], Stop> {
  const parts: (readonly [string, string])[] = [];
  for (const text of args.value(name)?.split(",") ?? []) {
    const [left, right, ...more] = text.split(":").map((t) => t.trim());
    if (!left || !right || more.length > 0) return wrong(`"${text}" is not A:B, as --${name} needs it.`);
    parts.push([left, right]);
  }
  return ok(parts);
}

type Wish = { readonly doe: AnimalId; readonly buck: AnimalId };

function wishesOf(args: Arguments, name: string, opened: OpenHerd): Result<readonly Wish[], Stop> {
  const parts = partsOf(args, name);
  if (!parts.ok) return parts;
  const wishes: Wish[] = [];
  for (const [she, he] of parts.value) {
    const doe = goatOf(she, opened);
    if (!doe.ok) return doe;
    const buck = goatOf(he, opened);
    if (!buck.ok) return buck;
    wishes.push({ doe: doe.value, buck: buck.value });
  }
  return ok(wishes);
}

function amountsOf(args: Arguments, name: string, opened: OpenHerd): Result<ReadonlyMap<AnimalId, number>, Stop> {
  const parts = partsOf(args, name);
  if (!parts.ok) return parts;
  const amounts = new Map<AnimalId, number>();
  for (const [who, count] of parts.value) {
    const animal = goatOf(who, opened);
    if (!animal.ok) return animal;
    if (!/^\d{1,4}$/.test(count)) return wrong(`"${count}" is not a number of does.`);
    amounts.set(animal.value, Number(count));
  }
  return ok(amounts);
}

function numberOf(args: Arguments, name: string): Result<number | undefined, Stop> {
  const text = args.value(name);
  if (text === undefined) return ok(undefined);
  const value = Number(text);
  return Number.isFinite(value) && value >= 0 ? ok(value) : wrong(`"${text}" is not an amount for --${name}.`);
}

/** The rules of the settings, changed by what was typed. */
function rulesOf(args: Arguments, opened: OpenHerd): Result<PairingRules, Stop> {
  const base = pairingRulesOf(opened.situation.herd);
  const must = wishesOf(args, "must", opened);
  if (!must.ok) return must;
  const never = wishesOf(args, "never", opened);
  if (!never.ok) return never;
  const most = amountsOf(args, "most", opened);
  if (!most.ok) return most;
  const least = amountsOf(args, "least", opened);
  if (!least.ok) return least;
  const open = numberOf(args, "open");
  if (!open.ok) return open;
  const kin = numberOf(args, "kin");
  if (!kin.ok) return kin;
  const crop = numberOf(args, "crop");
  if (!crop.ok) return crop;
  const bucks = new Map(base.bucks);
  for (const [id, n] of most.value) bucks.set(id, { ...bucks.get(id), most: n });
  for (const [id, n] of least.value) bucks.set(id, { ...bucks.get(id), least: n });
  return ok({
    ...base,
    bucks,
    must: [...base.must, ...must.value],
    never: [...base.never, ...never.value],
    openDoe: open.value ?? base.openDoe,
    inbreedingCeiling: kin.value ?? base.inbreedingCeiling,
    cropKinship: crop.value ?? base.cropKinship,
    ...(args.has("polled-together") ? { polledTogether: "allowed", intersexCeiling: 1 } : {}),
  });
}

/** A buck not bought yet, by his genotype, or only known to be polled: then as likely PP as among polled bucks bred here. */
function candidateOf(args: Arguments, { situation }: OpenHerd): Result<CandidateBuck | undefined, Stop> {
  const text = args.value("buy");
  if (text === undefined) return ok(undefined);
  const is = (g: PolledGenotype): number => (text === g ? 1 : 0);
  if ((POLLED_GENOTYPES as readonly string[]).includes(text))
    return ok({
      name: `a ${text} buck`,
      belief: { PP: probability(is("PP")), Pp: probability(is("Pp")), pp: probability(is("pp")) },
    });
  if (text !== "polled") return wrong(`"${text}" is no status of a buck; write PP, Pp, pp or polled.`);
  const [PP = 0, Pp = 0] = situation.beliefs.answer.kid(undefined, undefined);
  const polled = PP + Pp;
  return ok({
    name: "a polled buck",
    belief: { PP: probability(PP / polled), Pp: probability(Pp / polled), pp: probability(0) },
  });
}

const cell = (pair: PairModel): string =>
  `${chanceText(pair.horned)} ${pair.inbreeding === 0 ? "   -" : pair.inbreeding.toFixed(2)}${pair.closedBy.length > 0 ? " x" : "  "}`;

function printed(model: PairingsModel, { words }: OpenHerd): string {
  const grid = table(
    [{ title: "Doe", most: 16 }, ...model.bucks.map((buck) => ({ title: words.label(buck), most: 14 }))],
    model.does.map((doe, d) => [words.label(doe), ...(model.pairs[d] ?? []).map(cell)]),
  );
  const note =
    grid === ""
      ? ""
      : "Each pair: chance that a kid grows horns, kids' inbreeding, x where a rule closes the pair.\n\n";
  const plan = said.plan(model.plan).map((line) => `${line}\n`);
  const leftOut = [...said.leftOut(model.leftOut), ...model.wishesAside.map(said.wishAside)].map((line) => `${line}\n`);
  const more = model.plan.kind === "plan" ? planned(model.plan, words) : "";
  return `${grid}${note}${more}${plan.join("")}${leftOut.join("")}${said.caution}\n`;
}

function planned(plan: Extract<PlanModel, { kind: "plan" }>, words: OpenHerd["words"]): string {
  const rows = plan.does.map(({ doe, buck, pair, whyNot }) => [
    words.label(doe),
    buck === undefined ? "open" : words.label(buck),
    pair === undefined ? "" : pair.losses.total.toFixed(2),
    whyNot.map(({ buck: other, reason }) => `${words.label(other)}: ${said.reason(reason)}`).join(" "),
  ]);
  const columns = [
    { title: "Doe", most: 16 },
    { title: "Buck", most: 16 },
    { title: "Loss", align: "right" as const },
    { title: "Why not another" },
  ];
  const wrongly = plan.season.check.filter((c) => c.agrees === "no").length;
  return `${table(columns, rows)}${said.unit}

${plan.next.map((next) => `${said.nextPlan(next)}\n`).join("")}${plan.prices.map((price) => `${said.price(price)}\n`).join("")}${plan.bucks.map(({ buck, does }) => `${words.label(buck)}: ${does} ${does === 1 ? "doe" : "does"}. `).join("")}
${wrongly === 0 ? "Simulated as well, and it agrees." : "Simulated as well, and it does NOT agree: tell the makers."}
`;
}

function onePair(pair: PairModel, { words }: OpenHerd): string {
  const rows = pair.maybe.map((m) => [m.buck, m.doe, chanceText(m.chance), chanceText(m.horned)]);
  const columns = [
    { title: words.label(pair.buck) },
    { title: words.label(pair.doe) },
    { title: "Chance", align: "right" as const },
    { title: "Kids horned", align: "right" as const },
  ];
  const { losses } = pair;
  return `${words.label(pair.doe)} with ${words.label(pair.buck)}.
${said.pair(pair)}
${said.luckAndDoubt(pair)}
${said.kin(pair)}
${pair.closedBy.map((rule) => `Closed: ${said.rule(rule)}.\n`).join("")}
${table(columns, rows)}
${pair.loci.map((locus) => `${said.locus(locus)}\n`).join("")}Kids expected ${pair.kids.toFixed(1)}; able to have any ${chanceText(pair.fertile)}; kids that cannot breed ${chanceText(pair.infertile)}.
Loss ${losses.total.toFixed(2)}: horned ${losses.horned.toFixed(2)}, heads ${losses.heads.toFixed(2)}, intersex ${losses.intersex.toFixed(2)}, kin ${losses.inbreeding.toFixed(2)}, barren ${losses.barren.toFixed(2)}, your points ${losses.merit.toFixed(2)}.
${said.unit}
`;
}

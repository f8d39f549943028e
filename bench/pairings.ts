import { present, type Random, seededRandom } from "@pollard/base";
import {
  type AnimalId,
  animalId,
  type DoubtfulParentage,
  expectedKinship,
  POLLED_GENOTYPES,
  type PolledGenotype,
} from "@pollard/genetics";
import {
  type BreedingPolicy,
  forecast,
  type ForecastHerd,
  kidsOf,
  loadSolver,
  planLoss,
  planPairings,
  type PlanQuestion,
  planRules,
  type ProgramSolver,
  startForecast,
} from "@pollard/planning";
import { bestPlan } from "../packages/planning/src/pairing/plan.ts";
import { type BuckOf, brokenRules } from "../packages/planning/src/pairing/plan-loss.ts";
import { forbids } from "../packages/planning/src/pairing/plan-question.ts";
import { timed } from "./measuring/times.ts";

/** What a plan and a forecast cost, how they grow, and what a plan is worth beside simpler ways on the same herd. */
const SIZES = [
  [30, 3],
  [100, 6],
  [300, 10],
] as const;
const RANDOM_PLANS = 200;
const SEED = 31;

export async function bench() {
  const solver = await loadSolver();
  bestOf(anyHerd(10, 2, seededRandom(1)), solver); // the first run also pays for compiling
  const lines: { what: string; value: number; unit: string; note?: string }[] = [];
  for (const [does, bucks] of SIZES) {
    const question = anyHerd(does, bucks, seededRandom(SEED));
    const plain = timed(() => bestOf(question, solver));
    const { plan } = plain.value;
    lines.push({
      what: `best plan, ${does} does x ${bucks} bucks`,
      value: plain.ms,
      unit: "ms",
      note: `loss ${plan.loss.total.toFixed(2)}, proven optimal`,
    });
    const greedy = greedyPlan(question);
    const random = randomPlans(question, seededRandom(SEED + 1));
    const [first = Number.NaN] = random.losses;
    const mean = random.losses.reduce((a, b) => a + b, 0) / random.losses.length;
    lines.push(
      {
        what: `  greedy plan, doe by doe`,
        value: greedy === undefined ? Number.NaN : planLoss(question, greedy).total,
        unit: "loss",
        note:
          greedy === undefined
            ? "finds none"
            : `breaks ${brokenRules(question, planRules(question), greedy).length} rules; best ${plan.loss.total.toFixed(2)}`,
      },
      {
        what: `  random plan within the rules`,
        value: mean,
        unit: "loss",
        note: `mean of ${random.losses.length}, the best of them ${Math.min(first, ...random.losses).toFixed(2)}`,
      },
    );
    const whole = timed(() => planPairings(question, solver));
    lines.push({
      what: `  with the next plans and the price of each rule`,
      value: whole.ms,
      unit: "ms",
      note:
        whole.value.kind === "plan" ? `${whole.value.next.length} plans, ${whole.value.prices.length} prices` : "none",
    });
    const crop = withCrop(question, seededRandom(SEED + 2));
    const slow = timed(() => bestOf(crop, solver));
    lines.push({
      what: `  the same with a weight on the kids' kinship`,
      value: slow.ms,
      unit: "ms",
      note: `gap ${slow.value.gap.toExponential(1)} of ${slow.value.plan.loss.total.toFixed(2)}`,
    });
  }
  for (const does of [15, 60, 240])
    for (const years of [1, 5, 10]) {
      const runs = Math.max(5, Math.round(1500 / (does * years)));
      const { ms } = timed(() => forecast(aForecast(does, years, runs)));
      lines.push({
        what: `forecast, ${does} does, ${years} years`,
        value: (runs / ms) * 1000,
        unit: "runs/s",
        note: `one policy; ${(ms / runs / years).toFixed(2)} ms a year`,
      });
    }
  const run = startForecast(aForecast(60, 10, 100));
  lines.push({
    what: "forecast: one step of ten runs, 60 does, 10 years",
    value: timed(() => run.step(10)).ms,
    unit: "ms",
  });
  return lines;
}

const bestOf = (question: PlanQuestion, solver: ProgramSolver) =>
  present(bestPlan(question, planRules(question), solver), "a plan");

/** Does of three generations by few sires, bucks half of them theirs; genotypes as a mixed herd has them. */
function anyHerd(does: number, bucks: number, random: Random): PlanQuestion {
  const pick = (below: number): number => Math.floor(random.next() * below);
  const rows: DoubtfulParentage[] = [];
  const born = (name: string, dam?: AnimalId, sire?: AnimalId): AnimalId => {
    const id = animalId(name);
    rows.push({ id, dam, sires: sire === undefined ? [] : [{ sire, weight: 1 }] });
    return id;
  };
  const sires = Array.from({ length: Math.max(2, bucks) }, (_, i) => born(`s${i}`));
  const dams = Array.from({ length: Math.ceil(does / 3) }, (_, i) => born(`f${i}`));
  const of = <T>(list: readonly T[]): T => present(list[pick(list.length)], "one of a list");
  const doeIds = Array.from({ length: does }, (_, i) => born(`d${i}`, of(dams), of(sires)));
  const buckIds = Array.from({ length: bucks }, (_, i) =>
    i % 2 === 0 ? born(`b${i}`, of(dams), of(sires)) : born(`b${i}`),
  );
  const kin = expectedKinship(rows);
  const doeTypes = doeIds.map((): PolledGenotype => (random.next() < 0.4 ? "Pp" : "pp"));
  const buckTypes = buckIds.map((_, b): PolledGenotype => (b % 2 === 1 ? "pp" : b % 4 === 2 ? "PP" : "Pp"));
  return {
    does: doeIds,
    bucks: buckIds.map((id) => ({ id, least: 0, most: Math.ceil((2.2 * does) / bucks), cost: 1.5 })),
    pairs: doeIds.map((doe, d) => {
      const merit = random.next() / 5;
      return buckIds.map((buck, b) => {
        const [he, she] = [present(buckTypes[b], "buck"), present(doeTypes[d], "doe")];
        const kids = kidsOf(he, she);
        const inbreeding = kin.kinship(doe, buck);
        return {
          loss: 1.85 * (kids.horned + 4 * kids.infertile + 8 * inbreeding) - merit + random.next() / 20,
          inbreeding,
          intersex: kids.intersex,
          bothPolled: he !== "pp" && she !== "pp" ? 1 : 0,
        };
      });
    }),
    inbreedingCeiling: 0.13,
    intersexCeiling: 0.02,
    polledTogether: "never",
    must: [],
    never: [],
  };
}

/** Each doe in turn takes the buck that is best for her among those still free. */
function greedyPlan(question: PlanQuestion): BuckOf | undefined {
  const rules = planRules(question);
  const left = question.bucks.map((b) => b.most);
  const plan = question.does.map((_, d) => {
    const open = question.bucks
      .map((_, b) => b)
      .filter((b) => (left[b] ?? 0) > 0 && !rules.some((rule) => forbids(question, rule, d, b)));
    const [best] = open.sort((a, b) => (question.pairs[d]?.[a]?.loss ?? 0) - (question.pairs[d]?.[b]?.loss ?? 0));
    if (best !== undefined) left[best] = (left[best] ?? 0) - 1;
    return best;
  });
  return plan.includes(undefined) ? undefined : plan;
}

function randomPlans(question: PlanQuestion, random: Random): { readonly losses: readonly number[] } {
  const rules = planRules(question);
  const losses: number[] = [];
  for (let i = 0; i < RANDOM_PLANS; i++) {
    const left = question.bucks.map((b) => b.most);
    const plan = question.does.map((_, d) => {
      const open = question.bucks
        .map((_, b) => b)
        .filter((b) => (left[b] ?? 0) > 0 && !rules.some((rule) => forbids(question, rule, d, b)));
      const chosen = open[Math.floor(random.next() * open.length)];
      if (chosen !== undefined) left[chosen] = (left[chosen] ?? 0) - 1;
      return chosen;
    });
    if (!plan.includes(undefined)) losses.push(planLoss(question, plan).total);
  }
  return { losses };
}

/** A weight on the kinship of all kids; kinships as a product of a table with its own transpose, as every kinship is. */
function withCrop(question: PlanQuestion, random: Random): PlanQuestion {
  const n = question.does.length + question.bucks.length;
  const shares = Array.from({ length: n }, () => Array.from({ length: 8 }, () => random.next() ** 4));
  const kinship = shares.map((a) => shares.map((b) => a.reduce((sum, x, k) => sum + x * (b[k] ?? 0), 0) / 4));
  return { ...question, crop: { weight: question.does.length, kinship } };
}

function aForecast(does: number, years: number, runs: number) {
  const random = seededRandom(SEED);
  const genotypes = Uint8Array.from({ length: does + 2 }, (_, i) =>
    i === does ? 1 : i > does || random.next() > 0.4 ? 2 : 1,
  );
  const herd: ForecastHerd = {
    does: Array.from({ length: does }, (_, i) => ({ seasons: i % 5, hadKids: "yes" })),
    bucks: [0, 1].map(() => ({ seasons: 0, hadKids: "yes" })),
    draw: () => genotypes,
    kinship: [],
  };
  const belief = (of: string) => Object.fromEntries(POLLED_GENOTYPES.map((g) => [g, g === of ? 1 : 0]));
  const policy: BreedingPolicy = {
    name: "two lines",
    pairing: "apart",
    bucks: [
      { from: "bought", look: "polled", bought: belief("Pp") as never, years: 2 },
      { from: "own", look: "horned", bought: belief("pp") as never, years: 2 },
    ],
    doesPerBuck: does,
    does,
    polledShare: undefined,
    doeYears: 7,
  };
  return {
    herd,
    policies: [policy],
    world: {
      litter: [0, 0.3, 0.55, 0.15],
      kidLives: 0.9,
      doeLost: 0.08,
      kiddingDays: 40,
      visitAges: { from: 4, to: 9 },
      visitCost: 60,
      headCost: 15,
    },
    years,
    runs,
    seed: SEED,
  };
}

import { present } from "@pollard/base";
import { PP_BUCK_FERTILITY } from "@pollard/genetics";
import type { BreedingPolicy, ForecastWorld } from "./breeding-policy.ts";
import { chanceAt } from "./chance-streams.ts";
import type { HerdDraw } from "./herd-draws.ts";
import { boughtBuck, type SimulatedHerd, simulateYear, YEAR_MEASURES, type YearTally } from "./year.ts";

/** A herd as it stands today, for simulating on. Does oldest first. */
export interface ForecastHerd {
  readonly does: readonly ForecastAnimal[];
  readonly bucks: readonly ForecastAnimal[];
  readonly draw: HerdDraw;
  /** Kinship over the does, then the bucks, themselves included. */
  readonly kinship: readonly (readonly number[])[];
}

/** What is known of an animal beside its genotype: seasons in which it has been bred, and whether it has had kids. */
export interface ForecastAnimal {
  readonly seasons: number;
  readonly hadKids: "yes" | "no";
}

/** What is to be forecast, and how. */
export interface ForecastQuestion {
  readonly herd: ForecastHerd;
  readonly policies: readonly BreedingPolicy[];
  readonly world: ForecastWorld;
  readonly years: number;
  readonly runs: number;
  readonly seed: number;
}

/** One measure over all runs: nine in ten lie from `low` to `high`. */
export interface Spread {
  readonly low: number;
  readonly median: number;
  readonly high: number;
  readonly mean: number;
}

/** Every measure of one year. */
export type YearSpread = Readonly<Record<keyof YearTally, Spread>>;

/** What becomes of a herd under one policy. */
export interface PolicyForecast {
  readonly policy: string;
  readonly years: readonly YearSpread[];
  /** Sums over all years. */
  readonly whole: YearSpread;
  /** The same sums less those of the first policy, run by run; all nought for the first itself. */
  readonly againstFirst: YearSpread;
}

/** A forecast under way: it can be asked to go on a little, and be left at any time. */
export interface ForecastRun {
  readonly done: number;
  readonly of: number;
  /** Simulates so many runs more. */
  step(runs: number): void;
  /** From the runs done so far. @throws Bug before the first. */
  result(): readonly PolicyForecast[];
}

/**
 * What becomes of the herd in the coming years, by simulating each policy on the same chances.
 *
 * Each run draws what the animals are, as believed today, and drops their genes through the years (gene dropping). The
 * same seed gives the same numbers on every machine, however the runs are cut into steps.
 *
 * Units:   years from the coming season on; costs as in the world given.
 * Assumes: animals from elsewhere are unrelated to the herd; the policy is kept to, whatever comes.
 * Cost:    runs × policies × years × (does + kept)².
 * Source:  gene dropping [maccluer1986]; rules PA-10 to PA-12.
 */
export function startForecast(question: ForecastQuestion): ForecastRun {
  const { policies, years, runs } = question;
  /** By policy, run and year. */
  const tallies: YearTally[][][] = policies.map(() => []);
  return {
    get done() {
      return tallies[0]?.length ?? 0;
    },
    of: runs,
    step(count) {
      const from = tallies[0]?.length ?? 0;
      for (let run = from; run < Math.min(runs, from + count); run++)
        policies.forEach((policy, p) => tallies[p]?.push(simulateYears(question, policy, run)));
    },
    result() {
      const sums = tallies.map((ofPolicy) => ofPolicy.map(summed));
      return policies.map(({ name }, p) => ({
        policy: name,
        years: Array.from({ length: years }, (_, y) =>
          spreads((tallies[p] ?? []).map((run) => present(run[y], "a year"))),
        ),
        whole: spreads(sums[p] ?? []),
        againstFirst: spreads(
          (sums[p] ?? []).map((sum, run) => less(sum, present(sums[0]?.[run], "the first policy's run"))),
        ),
      }));
    },
  };
}

/** All runs at once. */
export function forecast(question: ForecastQuestion): readonly PolicyForecast[] {
  const run = startForecast(question);
  run.step(question.runs);
  return run.result();
}

function simulateYears(question: ForecastQuestion, policy: BreedingPolicy, run: number): YearTally[] {
  const { world, seed, years } = question;
  let herd = startingHerd(question, policy, run);
  return Array.from({ length: years }, (_, year) => {
    const { tally, next } = simulateYear(herd, { policy, world, seed, run, year });
    herd = next;
    return tally;
  });
}

/**
 * The herd as drawn for a run. Each place of the policy takes the first of the herd's own bucks with its look, who serves
 * that place's years from today; a place without one is filled from elsewhere, and a buck without a place is not used.
 */
function startingHerd({ herd, seed }: ForecastQuestion, policy: BreedingPolicy, run: number): SimulatedHerd {
  const random = chanceAt(seed, run);
  const genotypes = herd.draw(random);
  const at = (place: number): number => present(genotypes[place], "a drawn genotype");
  const n = herd.does.length;
  const does = herd.does.map((doe, d) => ({
    genotype: at(d),
    seasons: doe.seasons,
    fertile: at(d) === 0 ? ("no" as const) : ("yes" as const), // XX PP are all sterile
  }));
  const left = herd.bucks.map((buck, b) => {
    const genotype = at(n + b);
    const draw = random.next();
    const able = buck.hadKids === "yes" || genotype !== 0 || draw < PP_BUCK_FERTILITY.value;
    return {
      place: n + b,
      genotype,
      fertile: able ? ("yes" as const) : ("no" as const),
    };
  });
  const spots: (number | undefined)[] = [];
  const bucks = policy.bucks.map((place) => {
    const [genotypeDraw, fertileDraw] = [random.next(), random.next()];
    const own = left.findIndex((b) => (b.genotype === 2) === (place.look === "horned"));
    if (own < 0) {
      spots.push(undefined);
      return boughtBuck(place.bought, genotypeDraw, fertileDraw);
    }
    const [buck] = left.splice(own, 1);
    const { place: spot, genotype, fertile: able } = present(buck, "a buck");
    spots.push(spot);
    return { genotype, seasons: 0, fertile: able };
  });
  const count = n + bucks.length;
  const table = new Float64Array(count * count);
  const from = (i: number): number | undefined => (i < n ? i : spots[i - n]);
  for (let i = 0; i < count; i++)
    for (let j = 0; j < count; j++) {
      const [a, b] = [from(i), from(j)];
      table[i * count + j] =
        a === undefined || b === undefined ? (i === j ? 0.5 : 0) : (herd.kinship[a]?.[b] ?? (i === j ? 0.5 : 0));
    }
  return { does, bucks, kin: { count, table } };
}

const byMeasure = (of: (measure: keyof YearTally) => number): YearTally =>
  Object.fromEntries(YEAR_MEASURES.map((m) => [m, of(m)])) as unknown as YearTally;

/** Over the years of one run: counts and costs summed, shares and means averaged. */
function summed(years: readonly YearTally[]): YearTally {
  const mean = new Set<keyof YearTally>(["inbreeding", "kinship", "polledKids", "polledDoes", "does"]);
  return byMeasure((m) => {
    const sum = years.reduce((s, y) => s + y[m], 0);
    return mean.has(m) && years.length > 0 ? sum / years.length : sum;
  });
}

const less = (a: YearTally, b: YearTally): YearTally => byMeasure((m) => a[m] - b[m]);

function spreads(runs: readonly YearTally[]): YearSpread {
  return Object.fromEntries(YEAR_MEASURES.map((m) => [m, spreadOf(runs.map((r) => r[m]))])) as unknown as YearSpread;
}

/** Median, mean, and the ends between which nine in ten lie. */
export function spreadOf(values: readonly number[]): Spread {
  const sorted = values.toSorted((a, b) => a - b);
  const at = (q: number): number => {
    const place = q * (sorted.length - 1);
    const [below, above] = [sorted[Math.floor(place)], sorted[Math.ceil(place)]].map((x) => present(x, "a run"));
    return (below ?? 0) + ((above ?? 0) - (below ?? 0)) * (place - Math.floor(place));
  };
  return {
    low: at(0.05),
    median: at(0.5),
    high: at(0.95),
    mean: values.reduce((a, b) => a + b, 0) / values.length,
  };
}

import { addDays, type Day, daysFrom, type Probability, present, probability, type Sourced } from "@pollard/base";
import { gestationLengths } from "./gestation.ts";
import { countLikelihood, type LitterFacts, litterSizes } from "./litter.ts";
import { type CheckMethod, type CheckResult, checkLikelihood } from "./pregnancy-check.ts";

/** Days on which a doe was with a buck, both ends included. `heat` = seen served in heat on that day. */
export interface Exposure {
  readonly from: Day;
  readonly to: Day;
  readonly how: "heat" | "pen" | "insemination";
}

/** What is on record of a doe since she last kidded or lost her kids. */
export interface PregnancyFacts extends LitterFacts {
  /** In any order. */
  readonly exposures: readonly Exposure[];
  /** Days on which she was seen in heat without being served. */
  readonly heats: readonly Day[];
  readonly checks: readonly {
    readonly on: Day;
    readonly method: CheckMethod;
    readonly result: CheckResult;
    /** Kids counted, where they were. */
    readonly kids?: number;
  }[];
  readonly breed?: string;
  /** She has not kidded before this day. */
  readonly today: Day;
}

/** A day on which she may have conceived, and by which of the exposures. */
export interface Conception {
  readonly on: Day;
  /** Its place in `exposures`. */
  readonly exposure: number;
  readonly chance: Probability;
}

/** What to expect of a doe that was served. */
export interface Pregnancy {
  /** Chance that she is in kid today. */
  readonly inKid: Probability;
  /** Chance that she will kid at her time: in kid, and nothing lost. */
  readonly willKid: Probability;
  /** When and by which exposure, given that she is in kid; by day, chances sum to 1. */
  readonly conceptions: readonly Conception[];
  /** Day and litter together, given that she kids; by day, chances sum to 1. */
  readonly births: readonly { readonly day: Day; readonly kids: number; readonly chance: number }[];
  /** Chance of one kid, two, …, given that she kids; sums to 1. */
  readonly litter: readonly Probability[];
}

/**
 * Chance that a heat with a buck takes. Published are 0.82 to 0.90 for a whole season [garcia1996]; a single heat takes
 * somewhat less often.
 */
export const HEAT_TAKES: Sourced<number> = { value: 0.8, source: "judgement", checked: "judgement" };
/** The same for insemination, which depends on the semen and the hand. */
export const INSEMINATION_TAKES: Sourced<number> = { value: 0.6, source: "judgement", checked: "judgement" };
/**
 * How much less often a doe in kid is seen in heat than an empty one: "pregnant does can show heat" [msd-oestrus], no rate
 * is printed.
 */
export const HEAT_IN_KID: Sourced<number> = { value: 0.05, source: "judgement", checked: "judgement" };
/** Share of pregnancies that end before their time. */
export const LOST_BEFORE_TERM: Sourced<number> = { value: 0.065, source: "garcia1996", checked: "read-in-source" };

/** Of 155 cycles of 32 does so many were short, of usual length, long. */
const CYCLE_SHARES: Sourced<readonly [number, number, number]> = {
  value: [0.15, 0.72, 0.13],
  source: "msd-oestrus-cycles",
  checked: "read-in-source",
};
/** Days that the three kinds of cycle last; the usual one 21 on average [msd-oestrus], the rest is judgement. */
const CYCLE_DAYS: Sourced<{
  readonly short: readonly [number, number];
  readonly usual: readonly [number, number];
  readonly long: readonly [number, number];
}> = {
  value: { short: [5, 16], usual: [17, 25], long: [26, 45] },
  source: "judgement",
  checked: "judgement",
};
/** Days within which a doe that is not in kid comes into heat once. */
const CYCLE = 21;

/**
 * The chance of each number of days from one heat to the next, in a doe that is not in kid.
 *
 * Shape: rising days without a gap, chances sum to 1; the usual cycles form a triangle around 21 days.
 */
export const CYCLE_LENGTHS: readonly { readonly days: number; readonly chance: number }[] = cycleLengths();

function cycleLengths() {
  const [shorts, usuals, longs] = CYCLE_SHARES.value;
  const { short, usual, long } = CYCLE_DAYS.value;
  const even = ([from, to]: readonly [number, number]) => 1 / (to - from + 1);
  const height = (days: number) => usual[1] - CYCLE + 1 - Math.abs(days - CYCLE);
  const triangle = (usual[1] - CYCLE + 1) ** 2;
  return Array.from({ length: long[1] - short[0] + 1 }, (_, i) => {
    const days = short[0] + i;
    if (days <= short[1]) return { days, chance: shorts * even(short) };
    return { days, chance: days <= usual[1] ? (usuals * height(days)) / triangle : longs * even(long) };
  });
}

/**
 * What to expect of a doe that was served: whether she is in kid, when she kids, how many.
 *
 * Her heats are followed day by day from the first exposure: each heat with a buck takes with a fixed chance, and one that
 * does not take is followed by the next after a cycle. A heat that was seen, checks, kids counted, and every day on which
 * she has not kidded yet, weigh the days on which she may have conceived. `undefined` where she was never served.
 *
 * Units:   calendar days; a check of the day itself counts.
 * Assumes: a doe in a pen comes into heat some day of its first 21, of all its days where it is shorter; silence about heats says nothing, since nobody may have
 *          watched; a loss of kids that nobody saw is as likely as over all pregnancies.
 * Source:  [amoah1996] lengths and litters, [msd-oestrus] cycle, [msd-pregnancy] and [quesada-pag] checks,
 *          [garcia1996] losses; rules HD-31 to HD-35.
 */
export function pregnancyOf(facts: PregnancyFacts): Pregnancy | undefined {
  const raw = conceptionWeights(facts);
  if (raw === undefined) return undefined;
  const first = present(raw.first, "first exposure");
  const sizes = litterSizes(facts);
  const empty = raw.empty * facts.checks.reduce((l, c) => l * checkLikelihood(c, undefined, daysFrom(first, c.on)), 1);
  const lengths = sizes.map((_, i) =>
    gestationLengths({ ...(facts.breed === undefined ? {} : { breed: facts.breed }), litterSize: i + 1 }),
  );
  const soonest = daysFrom(first, facts.today);
  /** Weight of each day, counted from the first exposure, with each litter size. */
  const births = new Map<number, number[]>();
  const conceptions = raw.conceptions.map(({ on, exposure, weight }) => {
    const conceived = daysFrom(first, on);
    let inKid = 0;
    for (const [i, size] of sizes.entries()) {
      const seen = facts.checks.reduce((l, check) => {
        const after = daysFrom(on, check.on);
        const counted = check.kids === undefined || after < 0 ? 1 : countLikelihood(i + 1, check.kids, after);
        return l * counted * checkLikelihood(check, after, daysFrom(first, check.on));
      }, weight * size);
      for (const { days, chance } of present(lengths[i], "lengths of pregnancy")) {
        const day = conceived + days;
        if (day < soonest) continue; // she would have kidded
        inKid += seen * chance;
        const ofDay = births.get(day) ?? sizes.map(() => 0);
        ofDay[i] = (ofDay[i] ?? 0) + seen * chance;
        births.set(day, ofDay);
      }
    }
    return { on, exposure, weight: inKid };
  });
  const total = conceptions.reduce((sum, { weight }) => sum + weight, 0);
  if (!(total > 0)) return NOT_IN_KID;
  const inKid = probability(total / (total + empty));
  return {
    inKid,
    willKid: probability(inKid * (1 - LOST_BEFORE_TERM.value)),
    conceptions: conceptions.flatMap(({ weight, ...c }) =>
      weight > 0 ? [{ ...c, chance: probability(weight / total) }] : [],
    ),
    births: [...births]
      .sort(([a], [b]) => a - b)
      .flatMap(([offset, weights]) => {
        const day = addDays(first, offset);
        return weights.flatMap((weight, i) => (weight > 0 ? [{ day, kids: i + 1, chance: weight / total }] : []));
      }),
    litter: sizes.map((_, i) =>
      probability([...births.values()].reduce((sum, weights) => sum + (weights[i] ?? 0), 0) / total),
    ),
  };
}

/** Every day on which she could have kidded is over. */
const NOT_IN_KID: Pregnancy = {
  inKid: probability(0),
  willKid: probability(0),
  conceptions: [],
  births: [],
  litter: [],
};

interface Weighed {
  readonly first: Day;
  /** Weight of never having conceived. */
  readonly empty: number;
  readonly conceptions: readonly { readonly on: Day; readonly exposure: number; readonly weight: number }[];
}

/** Days from the first sight of a heat within which another is the same heat: it lasts 24 to 48 hours [msd-oestrus]. */
const ONE_HEAT_DAYS = 2;

/** How likely each day of conception is by the services and heats alone; `undefined` without a service. */
function conceptionWeights(facts: PregnancyFacts): Weighed | undefined {
  const { heats, today } = facts;
  const past = facts.exposures
    .map((e, exposure) => ({ ...e, exposure }))
    .filter(({ from, to }) => from <= today && from <= to)
    .sort((a, b) => (a.from < b.from ? -1 : 1));
  const opening = past[0];
  if (opening === undefined) return undefined;
  const first = opening.from;
  const dayOf = (on: Day) => daysFrom(first, on);
  const seen = [...heats.filter((on) => on >= first && on <= today), ...past.filter(isSeen).map(({ from }) => from)];
  const starts = firstSights(seen.map(dayOf));
  const end = Math.max(...past.map(({ to }) => dayOf(to < today ? to : today)), ...starts);
  /** Chance, of a doe not in kid, that her next heat is on the day so many days after the first. */
  let next = new Map<number, number>();
  const add = (day: number, chance: number) => next.set(day, (next.get(day) ?? 0) + chance);
  const spread = Math.min(CYCLE, daysFrom(opening.from, opening.to) + 1);
  for (let d = 0; d < spread; d++) add(d, 1 / spread);
  let conceived: { on: Day; exposure: number; weight: number }[] = [];
  for (let d = 0; d <= end; d++) {
    if (starts.has(d)) {
      const empty = [...next.values()].reduce((a, b) => a + b, 0);
      next = new Map([[d, empty]]);
      conceived = conceived.map((c) => ({ ...c, weight: c.weight * HEAT_IN_KID.value }));
    }
    const inHeat = next.get(d) ?? 0;
    next.delete(d);
    if (inHeat === 0) continue;
    const on = addDays(first, d);
    const until = starts.has(d) ? addDays(on, ONE_HEAT_DAYS) : on;
    const here = past.filter((e) => (isSeen(e) ? e.from >= on && e.from <= until : e.from <= on && e.to >= on));
    const takes = Math.max(
      0,
      ...here.map(({ how }) => (how === "insemination" ? INSEMINATION_TAKES : HEAT_TAKES).value),
    );
    for (const e of here)
      conceived.push({ on: isSeen(e) ? e.from : on, exposure: e.exposure, weight: (inHeat * takes) / here.length });
    for (const { days, chance } of CYCLE_LENGTHS) add(d + days, inHeat * (1 - takes) * chance);
  }
  return { first, empty: [...next.values()].reduce((a, b) => a + b, 0), conceptions: conceived };
}

/** Whether the doe was seen in heat on the day of an exposure; in a pen nobody may have looked. */
const isSeen = ({ how }: Exposure): boolean => how !== "pen";

/** The first day of every heat that was seen, from all days on which one was. */
function firstSights(days: readonly number[]): ReadonlySet<number> {
  const starts = new Set<number>();
  let start = Number.NEGATIVE_INFINITY;
  for (const d of [...days].sort((a, b) => a - b)) {
    if (d - start <= ONE_HEAT_DAYS) continue;
    start = d;
    starts.add(d);
  }
  return starts;
}

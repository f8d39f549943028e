import { present, type Probability, probability, type Random } from "@pollard/base";
import { POLLED_GENOTYPES, type PolledBelief, type PolledGenotype } from "@pollard/genetics";
import { budCourses } from "./bud-courses.ts";
import { dirichletDraw } from "../dirichlet.ts";
import {
  breedDelay,
  headNetwork,
  type HeadKid,
  type HeadReading,
  hornsWeight,
  logLikelihoods,
  type Sign,
  SIGNS,
  sightingsOf,
} from "./head-network.ts";
import { chancesFrom, type HeadTables, meanChances } from "./head-tables.ts";

/**
 * How well each genotype explains everything seen on a kid's head: the evidence to join to the pedigree.
 *
 * Exact: what is hidden (whorls, crown, when and how fast a bud comes, a polled kid's knob) is summed out. It is shared by
 * all readings, so a second look at the same whorl adds little and a look at a later age adds much.
 *
 * Units:   relative chances; the greatest of the three is 1. No readings give 1, 1, 1.
 * Assumes: given the head's hidden truth, slips of readers are independent, from one reading and one side to the next.
 * Source:  rules HD-1 to HD-5; tables of `head-tables.ts` (common practice; no published accuracy exists).
 */
export function headLikelihood(
  readings: readonly HeadReading[],
  kid: HeadKid,
  tables: HeadTables,
): Readonly<Record<PolledGenotype, number>> {
  const log = logLikelihoods(headNetwork(kid, meanChances(tables)).after(readings));
  const top = Math.max(...POLLED_GENOTYPES.map((g) => log[g]));
  return { PP: Math.exp(log.PP - top), Pp: Math.exp(log.Pp - top), pp: Math.exp(log.pp - top) };
}

/** What one sign of one reading spoke: natural log-odds, above 0 for horns, below 0 for polled. */
export interface SignWeight {
  readonly reading: string;
  readonly sign: Sign;
  readonly weight: number;
}

/**
 * How much each sign of each reading spoke for horns or against, in the order given.
 *
 * Each weight is what the sign adds to those before it, so a sign that only repeats what is known weighs little, and the
 * weights add up to the whole evidence exactly.
 *
 * Units:   natural log-odds; their sum plus the prior's log-odds of horns is the posterior's.
 * Shape:   one row per sign that was answered; both sides of a sign are one row.
 * Assumes: `before` is the belief of the kid before its head was read: its PP : Pp decides how the polled kinds mix.
 */
export function signWeights(
  readings: readonly HeadReading[],
  kid: HeadKid,
  tables: HeadTables,
  before: PolledBelief,
): readonly SignWeight[] {
  const network = headNetwork(kid, meanChances(tables));
  const share = shareOfPP(before);
  const rows: SignWeight[] = [];
  let state = network.start;
  let weightSoFar = 0;
  const pieces = sightingsOf(readings);
  for (const [r, { reading }] of readings.entries())
    for (const sign of SIGNS) {
      const seen = pieces.filter((p) => p.reading === r && p.sign === sign);
      if (seen.length === 0) continue;
      state = seen.reduce((s, piece) => network.see(s, piece), state);
      const weight = hornsWeight(state, share);
      rows.push({ reading, sign, weight: weight - weightSoFar });
      weightSoFar = weight;
    }
  return rows;
}

/** The share of PP among the polled kinds; where nothing is polled it does not matter and is 0. */
const shareOfPP = (belief: PolledBelief): number => (belief.PP === 0 ? 0 : belief.PP / (belief.PP + belief.Pp));

/** The chance of horns after the readings, from what was believed of the kid before them. */
export function hornsAfter(
  before: PolledBelief,
  readings: readonly HeadReading[],
  kid: HeadKid,
  tables: HeadTables,
): Probability {
  const { PP, Pp, pp } = headLikelihood(readings, kid, tables);
  const horned = before.pp * pp;
  return probability(horned / (horned + before.PP * PP + before.Pp * Pp));
}

/** How many sets of tables are drawn for an interval, and the share of them it holds: 5 % are left out at each end. */
const INTERVAL_DRAWS = 400;
const LEFT_OUT = 0.05;

/**
 * How sure the tables allow us to be: the chance of horns under many sets of tables, each as likely as what is known of them says.
 *
 * A set under which these very readings would be a surprise counts for less: what is seen of this kid speaks of the tables, too.
 *
 * Shape:   `low` ≤ `hornsAfter` ≤ `high`; at least nine tenths of the sets' weight lie between them.
 * Assumes: the belief before the readings is taken as it is; only the head's tables are uncertain here.
 * Cost:    400 small networks; about 30 ms.
 */
export function hornsInterval(
  before: PolledBelief,
  readings: readonly HeadReading[],
  kid: HeadKid,
  tables: HeadTables,
  random: Random,
): { readonly low: Probability; readonly high: Probability } {
  const sets =
    tables.draws ??
    Array.from({ length: INTERVAL_DRAWS }, () => chancesFrom(tables, (counts) => dirichletDraw(counts, random)));
  const buds = budCourses(kid.sex, breedDelay(kid, tables));
  const calls = sets.map((chances) => {
    const log = logLikelihoods(headNetwork(kid, chances, buds).after(readings));
    const top = Math.max(...POLLED_GENOTYPES.map((g) => log[g]));
    const share = (g: PolledGenotype) => before[g] * Math.exp(log[g] - top);
    const explained = share("PP") + share("Pp") + share("pp");
    return { horns: share("pp") / explained, log: Math.log(explained) + top };
  });
  const top = Math.max(...calls.map((c) => c.log));
  const weighed = calls
    .map(({ horns, log }) => ({ horns, weight: Math.exp(log - top) }))
    .sort((a, b) => a.horns - b.horns);
  const total = weighed.reduce((sum, c) => sum + c.weight, 0);
  // The last set with no more than the part left out at or beyond it: few sets make the range wider, never narrower.
  const outermost = (sets: readonly { readonly horns: number; readonly weight: number }[]): Probability => {
    let rest = LEFT_OUT * total;
    const inside = sets.findIndex((c) => {
      rest -= c.weight;
      return rest < 0;
    });
    return probability(present(sets[Math.max(0, inside - 1)], "draw").horns);
  };
  const best = hornsAfter(before, readings, kid, tables);
  return {
    low: probability(Math.min(best, outermost(weighed))),
    high: probability(Math.max(best, outermost(weighed.toReversed()))),
  };
}

/** What is odd about a set of readings, for a person to think about; the arithmetic goes on. */
export type HeadWarning =
  | { readonly code: "four-horned"; readonly reading: string }
  | { readonly code: "sides-differ"; readonly reading: string };

/**
 * What a person should know before leaning on the readings.
 *
 * `four-horned`: the tables are made for two bud sites. `sides-differ`: one side felt as polled heads do, the other as a
 * bud that is well on its way.
 */
export function headWarnings(readings: readonly HeadReading[]): readonly HeadWarning[] {
  return readings.flatMap((r) => {
    const four: HeadWarning[] = r.budSites === 4 ? [{ code: "four-horned", reading: r.reading }] : [];
    const feel = r.signs.feel;
    const felt = feel === undefined || "both" in feel ? [] : [feel.left, feel.right];
    const differ = felt.includes("nothing") && felt.some((side) => side === "pointed" || side === "tip-through");
    return differ ? [...four, { code: "sides-differ" as const, reading: r.reading }] : four;
  });
}

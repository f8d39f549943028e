import { present, type Random, type Sourced } from "@pollard/base";
import { dirichletDraw } from "../dirichlet.ts";

/** How the bud was treated under the iron. */
export const TECHNIQUES = ["bud-removed", "bud-left"] as const;
export type Technique = (typeof TECHNIQUES)[number];

/** What may be found where a bud was disbudded, about three months later. */
export const REGROWTHS = ["nothing", "scur", "horn", "soft-lump"] as const;
export type Regrowth = (typeof REGROWTHS)[number];

/** A share as printed, with its 95 % interval. */
export interface PrintedShare {
  readonly share: number;
  readonly low: number;
  readonly high: number;
}

/**
 * What grew after disbudding with an iron, per bud: 243 Saanen doe kids of 4 days, two farms, watched for three months.
 *
 * Each figure is a separate estimate of a model, so a row need not sum to 1; `undefined` was not printed or not observed.
 * No figure exists for bucklings, for other ages, or for the two buds of one kid together.
 */
export const PRINTED_REGROWTH: Sourced<
  Readonly<Record<Technique, Readonly<Record<Regrowth, PrintedShare | undefined>>>>
> = {
  value: {
    "bud-removed": {
      nothing: { share: 0.77, low: 0.63, high: 0.87 },
      scur: { share: 0.25, low: 0.17, high: 0.34 },
      horn: undefined,
      "soft-lump": undefined,
    },
    "bud-left": {
      nothing: { share: 0.2, low: 0.11, high: 0.34 },
      scur: { share: 0.3, low: 0.21, high: 0.39 },
      horn: { share: 0.02, low: 0.01, high: 0.06 },
      "soft-lump": { share: 0.41, low: 0.25, high: 0.6 },
    },
  },
  source: "hempstead2018",
  checked: "read-in-source",
};

/** How many buds the printed shares count for against a herd's own: their intervals are about as wide as 40 buds give. */
const PRINTED_WEIGHT = 40;
/** What a regrowth counts for where the study saw none: a twentieth of a bud in forty. Our judgement. */
const NEVER_SEEN = 0.05;

/**
 * What to expect of one disbudded bud, as pseudo-counts to which a herd's own buds are added.
 *
 * Shape: in the order of `REGROWTHS`; sums to 40; the printed shares rescaled to sum to 1.
 */
export function regrowthPrior(technique: Technique): readonly number[] {
  const printed = PRINTED_REGROWTH.value[technique];
  const shares = REGROWTHS.map((r) => printed[r]?.share ?? 0);
  const sum = shares.reduce((a, b) => a + b, 0);
  const counts = shares.map((s) => (s === 0 ? NEVER_SEEN : (s / sum) * PRINTED_WEIGHT));
  const total = counts.reduce((a, b) => a + b, 0);
  return counts.map((c) => (c / total) * PRINTED_WEIGHT);
}

/** A bud that was disbudded and looked at about three months later. */
export interface DisbuddedBud {
  /** Names the kid, so that its two buds are known as one kid's. */
  readonly kid: string;
  readonly technique: Technique;
  readonly operator: string | undefined;
  readonly grew: Regrowth;
}

/** What a herd's own buds say, with what it is built on. Chances in the order of `REGROWTHS`; intervals hold nine in ten. */
export interface LearntRegrowth {
  readonly chances: readonly number[];
  readonly intervals: readonly { readonly low: number; readonly high: number }[];
  readonly buds: number;
  readonly kids: number;
}

/** What the herd's buds say of a technique, on the whole and for each operator. */
export interface RegrowthByOperator {
  readonly all: LearntRegrowth;
  readonly operators: ReadonlyMap<string, LearntRegrowth>;
}

/** How much of a second bud's news its kid's first bud has told already: buds of one kid are alike. Our judgement: half. */
const PAIR_LIKENESS = 0.5;
/** How many buds of the whole herd stand against an operator's own. Our judgement. */
const OPERATOR_SHRINKAGE = 20;
/** Draws behind an interval, and the share left out at each end. */
const DRAWS = 1000;
const LEFT_OUT = 0.05;

/**
 * What grows after disbudding in this herd: the printed trial, outvoted by the herd's own buds as they come in.
 *
 * The trial counts as 40 buds. The two buds of one kid count as one and a third, since they are alike. An operator's own
 * buds are pulled towards the herd's.
 *
 * Shape:   only buds of this technique are counted; with none of them the printed trial stands.
 * Source:  [hempstead2018]; weights are our judgement; rule HD-20.
 */
export function learnRegrowth(buds: readonly DisbuddedBud[], technique: Technique, random: Random): RegrowthByOperator {
  const its = buds.filter((b) => b.technique === technique);
  const prior = regrowthPrior(technique);
  const all = learntFrom(prior, its, random);
  const names = new Set(its.map((b) => b.operator).filter((name) => name !== undefined));
  const shrunk = all.chances.map((p) => p * OPERATOR_SHRINKAGE);
  return {
    all,
    operators: new Map(
      [...names].map((name) => [
        name,
        learntFrom(
          shrunk,
          its.filter((b) => b.operator === name),
          random,
        ),
      ]),
    ),
  };
}

function learntFrom(prior: readonly number[], buds: readonly DisbuddedBud[], random: Random): LearntRegrowth {
  const ofKid = new Map<string, number>();
  for (const b of buds) ofKid.set(b.kid, (ofKid.get(b.kid) ?? 0) + 1);
  const counts = REGROWTHS.map((r, i) => {
    const seen = buds.filter((b) => b.grew === r).reduce((sum, b) => sum + budWeight(ofKid.get(b.kid) ?? 1), 0);
    return (prior[i] ?? 0) + seen;
  });
  const total = counts.reduce((a, b) => a + b, 0);
  const draws = Array.from({ length: DRAWS }, () => dirichletDraw(counts, random));
  const intervals = counts.map((_, i) => {
    const sorted = draws.map((d) => d[i] ?? 0).sort((a, b) => a - b);
    const nth = (share: number) => present(sorted[Math.round(share * (DRAWS - 1))], "draw");
    return { low: nth(LEFT_OUT), high: nth(1 - LEFT_OUT) };
  });
  return { chances: counts.map((c) => c / total), intervals, buds: buds.length, kids: ofKid.size };
}

/** What one bud counts for, when so many buds of its kid were looked at (design effect of a cluster). */
const budWeight = (budsOfKid: number): number => 1 / (1 + PAIR_LIKENESS * (budsOfKid - 1));

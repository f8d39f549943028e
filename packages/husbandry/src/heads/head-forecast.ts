import { present } from "@pollard/base";
import type { PolledBelief } from "@pollard/genetics";
import { type HeadKid, type HeadReading, headNetwork, seeRow } from "./head-network.ts";
import { BUD_FEELS, CROWNS, SKIN_HOLDS, WHORLS } from "./head-signs.ts";
import {
  CROWN_TRUTHS,
  type HeadRow,
  type HeadTables,
  HORNED_STAGES,
  meanChances,
  POLLED_STAGES,
  WHORL_TRUTHS,
} from "./head-tables.ts";

/** A day on which somebody might look at the head. */
export interface LookDay {
  readonly ageDays: number;
  readonly fromDueDays?: number;
}

/** Chances if the kid will grow horns, and if it is polled. */
export interface ByHead<T> {
  readonly horned: T;
  readonly polled: T;
}

/** Answers to feel and skin together: `feel * SKIN_HOLDS.length + skin`. */
export const TOUCHES = BUD_FEELS.length * SKIN_HOLDS.length;
/** Answers to whorls and crown together: `whorl * CROWNS.length + crown`. */
export const HAIRS = WHORLS.length * CROWNS.length;

/**
 * What coming looks would find, given all readings so far: the chance of every answer, and of every pair of answers.
 *
 * Shape: `touch(i)` has `TOUCHES` chances; `touchPair(i, j)` has TOUCHES² with the first look's answer in front, and sums
 *        to `touch(i)` over the second; `hair` and `hairPair` likewise, the same for every day. Each list sums to 1.
 */
export interface HeadForecast {
  touch(i: number): ByHead<Float64Array>;
  touchPair(i: number, j: number): ByHead<Float64Array>;
  readonly hair: ByHead<Float64Array>;
  readonly hairPair: ByHead<Float64Array>;
}

/** Whose head is looked at, what was seen of it, and what is believed of it with all of that taken in. */
export interface HeadForecastQuestion {
  readonly kid: HeadKid;
  readonly readings: readonly HeadReading[];
  /** The belief *after* the readings: its PP : Pp decides how the polled kinds mix. */
  readonly belief: PolledBelief;
  readonly tables: HeadTables;
  readonly days: readonly LookDay[];
  /** Who will look; their own tables are used where there are some. */
  readonly reader?: string;
}

/**
 * The chance of every answer of looks on the days asked for, and of every pair of answers on two of them.
 *
 * Exact, with the hidden truths of the head summed out as the readings so far left them.
 *
 * Assumes: a coming look answers all four signs, once for both sides.
 * Source:  rule HD-22.
 */
export function headForecast(question: HeadForecastQuestion): HeadForecast {
  const { kid, readings, belief, tables, days, reader } = question;
  const chances = meanChances(tables);
  const network = headNetwork(kid, chances);
  const state = network.after(readings);
  const row = (name: HeadRow) => chances.row(name, reader);

  const touchGiven = (stage: (typeof HORNED_STAGES)[number] | (typeof POLLED_STAGES)[number]) =>
    products(row(seeRow("feel", stage)), row(seeRow("skin", stage)));
  const hornedTouch = HORNED_STAGES.map(touchGiven);
  const polledTouch = POLLED_STAGES.map(touchGiven);

  const courses = shares(state.courses);
  const stages = days.map((d) => network.buds.stagesAt(d.ageDays, d.fromDueDays));
  const polledShares = polledStageShares(state.stages, belief);
  const polledPair = mixedPair(diagonal(polledShares), polledTouch, TOUCHES);
  const polledOnce = mixed(polledShares, polledTouch, TOUCHES);

  const hairTruths = WHORL_TRUTHS.flatMap((w) =>
    CROWN_TRUTHS.map((c) => products(row(`see-whorl ${w}`), row(`see-crown ${c}`))),
  );
  const hairShares = (head: "horned" | "polled") => products(shares(state.whorl[head]), shares(state.crown[head]));
  const hairOf = (head: "horned" | "polled") => mixed([...hairShares(head)], hairTruths, HAIRS);
  const hairPairOf = (head: "horned" | "polled") => mixedPair(diagonal([...hairShares(head)]), hairTruths, HAIRS);

  return {
    touch: (i) => {
      const reached = HORNED_STAGES.map(() => 0);
      for (const [k, stage] of present(stages[i], "look day").entries()) add(reached, stage, courses[k] ?? 0);
      return { horned: mixed(reached, hornedTouch, TOUCHES), polled: polledOnce };
    },
    touchPair: (i, j) => {
      const [first, second] = [present(stages[i], "look day"), present(stages[j], "look day")];
      const reached = HORNED_STAGES.map(() => HORNED_STAGES.map(() => 0));
      for (const [k, stage] of first.entries()) add(present(reached[stage], "stage"), second[k] ?? 0, courses[k] ?? 0);
      return { horned: mixedPair(reached, hornedTouch, TOUCHES), polled: polledPair };
    },
    hair: { horned: hairOf("horned"), polled: hairOf("polled") },
    hairPair: { horned: hairPairOf("horned"), polled: hairPairOf("polled") },
  };
}

/** What lies under a polled kid's skin, by how likely it is PP and Pp; where it cannot be polled, as in a Pp kid. */
function polledStageShares(
  stages: { readonly PP: readonly number[]; readonly Pp: readonly number[] },
  belief: PolledBelief,
): readonly number[] {
  const polled = belief.PP + belief.Pp;
  const ofPP = polled === 0 ? 0 : belief.PP / polled;
  const [PP, Pp] = [shares(stages.PP), shares(stages.Pp)];
  return PP.map((p, k) => ofPP * p + (1 - ofPP) * (Pp[k] ?? 0));
}

function add(to: number[], place: number, chance: number): void {
  to[place] = (to[place] ?? 0) + chance;
}

function shares(weights: readonly number[]): readonly number[] {
  const sum = weights.reduce((a, b) => a + b, 0);
  return weights.map((w) => w / sum);
}

const products = (xs: readonly number[], ys: readonly number[]): readonly number[] =>
  xs.flatMap((x) => ys.map((y) => x * y));

const diagonal = (xs: readonly number[]): readonly (readonly number[])[] =>
  xs.map((x, i) => xs.map((_, j) => (i === j ? x : 0)));

/** The mixture of `size` answers: `given[k]` holds the chances under truth k, `weights[k]` that truth's share. */
function mixed(weights: readonly number[], given: readonly (readonly number[])[], size: number): Float64Array {
  const out = new Float64Array(size);
  for (const [k, w] of weights.entries())
    for (const [o, p] of present(given[k], "truth").entries()) out[o] = (out[o] ?? 0) + w * p;
  return out;
}

function mixedPair(
  weights: readonly (readonly number[])[],
  given: readonly (readonly number[])[],
  size: number,
): Float64Array {
  const out = new Float64Array(size * size);
  for (const [k, row] of weights.entries()) {
    const first = present(given[k], "truth");
    for (const [l, w] of row.entries()) {
      if (w === 0) continue;
      const second = present(given[l], "truth");
      for (let o = 0; o < size; o++) {
        const p = w * (first[o] ?? 0);
        for (let u = 0; u < size; u++) out[o * size + u] = (out[o * size + u] ?? 0) + p * (second[u] ?? 0);
      }
    }
  }
  return out;
}

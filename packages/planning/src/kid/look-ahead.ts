import { Bug, present } from "@pollard/base";
import { HAIRS, type HeadForecast, TOUCHES } from "@pollard/husbandry";
import { type Ending, type EndingEnvelope, envelope } from "./endings.ts";

/** What a course of action comes to on average. `loss` = `ifHorned` · P(horns) + `ifPolled` · P(polled). */
export interface Prospect {
  readonly loss: number;
  /** Average loss if the kid is horned, and if it is polled, when this very course is followed. */
  readonly ifHorned: number;
  readonly ifPolled: number;
  /** Chance that it ends as a horned kid left to grow, and as a polled kid put through the operation. */
  readonly missed: number;
  readonly needless: number;
}

/** The looks that may be taken, and what each allows afterwards. */
export interface LookAheadQuestion {
  readonly forecast: HeadForecast;
  /** For each day of the forecast, the endings that are open once that day's look is done. Never empty. */
  readonly endings: readonly (readonly Ending[])[];
  readonly lookLoss: number;
  readonly maxLooks: 1 | 2;
}

/** The best that can be made of looking, for any chance of horns now. */
export interface LookAhead {
  /** How many days a first look may be taken on. */
  readonly days: number;
  /** Least loss of looking on day `i` and then going on as well as can be; or, from `limit` on, a sum that has reached it. */
  loss(i: number, horns: number, limit?: number): number;
  /** What that course comes to in full. */
  prospect(i: number, horns: number): Prospect;
}

/** Sums that a course of action adds up: losses by head, and how it ends. Changed in place, inside this file only. */
interface Tally {
  ifHorned: number;
  ifPolled: number;
  missed: number;
  needless: number;
}

/** A list of answers by falling ratio of horned to polled chance, with running sums (`horned[m]` = the first m answers). */
interface Sorted {
  readonly answers: readonly number[];
  readonly ratio: Float64Array;
  readonly horned: Float64Array;
  readonly polled: Float64Array;
}

/**
 * What it is worth to look at a head on each of several days, each look followed by the best that can be done.
 *
 * Exact dynamic programming, backwards: after the last look the cheapest ending, before it the cheapest of an ending and
 * every later look, averaged over every answer a look can give. Whether an ending is cheapest depends on the evidence only
 * through its likelihood ratio, so the hair's answers are kept sorted by theirs with running sums, and one threshold for
 * each turn of the envelope replaces going through them. A second look is not worked out where even one that told the
 * truth would not pay.
 *
 * Assumes: days in rising order; a look answers all four signs.
 * Cost:    at worst days²/2 · 12 · 9 · 12 short searches.
 */
export function lookAhead({ forecast, endings, lookLoss, maxLooks }: LookAheadQuestion): LookAhead {
  const [touches, hairs] = [TOUCHES, HAIRS]; // read in the innermost loops
  const days = endings.map((open, i) => {
    if (open.length === 0) throw new Bug("lookAhead: no ending after a look");
    return {
      open: envelope(open),
      touch: forecast.touch(i),
      leastHorned: Math.min(...open.map((e) => e.horned)),
      leastPolled: Math.min(...open.map((e) => e.polled)),
    };
  });
  const once = sorted(forecast.hair.horned, forecast.hair.polled);
  const again = Array.from({ length: hairs }, (_, k) =>
    sorted(
      forecast.hairPair.horned.subarray(k * hairs, (k + 1) * hairs),
      forecast.hairPair.polled.subarray(k * hairs, (k + 1) * hairs),
    ),
  );
  const pairs = new Map<number, ReturnType<HeadForecast["touchPair"]>>();
  const pair = (i: number, j: number) => {
    const key = i * days.length + j;
    const known = pairs.get(key) ?? forecast.touchPair(i, j);
    pairs.set(key, known);
    return known;
  };

  /** Loss of a second look on day `j` after an answer on day `i` (hair's answer `k`), or a lower bound from `limit` on. */
  const secondLoss = (i: number, j: number, t: number, k: number, h: number, p: number, limit: number): number => {
    const { horned, polled } = pair(i, j);
    const { open } = present(days[j], "look day");
    const hair = present(again[k], "hair");
    let loss = 0;
    for (let u = 0; u < touches && loss < limit; u++)
      loss += cheapestLoss(open, hair, h * (horned[t * touches + u] ?? 0), p * (polled[t * touches + u] ?? 0));
    return loss;
  };

  /** The second look that is best after one answer on day `i`, if any beats `stop`, and what the answer then comes to. */
  const second = (i: number, t: number, m: number, h: number, p: number, stop: number) => {
    const { touch } = present(days[i], "look day");
    const k = once.answers[m] ?? 0;
    const a = h * (touch.horned[t] ?? 0) * ((once.horned[m + 1] ?? 0) - (once.horned[m] ?? 0));
    const b = p * (touch.polled[t] ?? 0) * ((once.polled[m + 1] ?? 0) - (once.polled[m] ?? 0));
    let [loss, day] = [stop, -1];
    for (let j = i + 1; j < days.length; j++) {
      const { leastHorned, leastPolled } = present(days[j], "look day");
      const cost = lookLoss * (a + b);
      if (cost + a * leastHorned + b * leastPolled >= loss) continue;
      const other = cost + secondLoss(i, j, t, k, h, p, loss - cost);
      if (other < loss) [loss, day] = [other, j];
    }
    return { loss, day };
  };

  const stopLoss = (i: number, t: number, m: number, h: number, p: number): number => {
    const { open, touch } = present(days[i], "look day");
    const a = h * (touch.horned[t] ?? 0) * ((once.horned[m + 1] ?? 0) - (once.horned[m] ?? 0));
    const b = p * (touch.polled[t] ?? 0) * ((once.polled[m + 1] ?? 0) - (once.polled[m] ?? 0));
    let least = Number.POSITIVE_INFINITY;
    for (const e of open.endings) least = Math.min(least, a * e.horned + b * e.polled);
    return least;
  };

  const loss = (i: number, horns: number, limit = Number.POSITIVE_INFINITY): number => {
    const { open, touch } = present(days[i], "look day");
    let sum = lookLoss;
    for (let t = 0; t < touches && sum < limit; t++) {
      if (maxLooks === 1)
        sum += cheapestLoss(open, once, horns * (touch.horned[t] ?? 0), (1 - horns) * (touch.polled[t] ?? 0));
      else
        for (let m = 0; m < hairs; m++)
          sum += second(i, t, m, horns, 1 - horns, stopLoss(i, t, m, horns, 1 - horns)).loss;
    }
    return sum;
  };

  const prospect = (i: number, horns: number): Prospect => {
    const tally: Tally = { ifHorned: lookLoss, ifPolled: lookLoss, missed: 0, needless: 0 };
    const { open, touch } = present(days[i], "look day");
    for (let t = 0; t < touches; t++)
      for (let m = 0; m < hairs; m++) {
        const k = once.answers[m] ?? 0;
        const a = (touch.horned[t] ?? 0) * (forecast.hair.horned[k] ?? 0);
        const b = (touch.polled[t] ?? 0) * (forecast.hair.polled[k] ?? 0);
        const stop = stopLoss(i, t, m, horns, 1 - horns);
        const next = maxLooks === 1 ? -1 : second(i, t, m, horns, 1 - horns, stop).day;
        if (next < 0) {
          addAnswer(tally, open, horns, a, b);
          continue;
        }
        tally.ifHorned += lookLoss * a;
        tally.ifPolled += lookLoss * b;
        const { horned, polled } = pair(i, next);
        const after = present(days[next], "look day").open;
        for (let u = 0; u < touches; u++)
          addAnswers(
            tally,
            after,
            present(again[k], "hair"),
            horns,
            horned[t * touches + u] ?? 0,
            polled[t * touches + u] ?? 0,
          );
      }
    return { ...tally, loss: horns * tally.ifHorned + (1 - horns) * tally.ifPolled };
  };

  return { days: days.length, loss, prospect };
}

/**
 * The loss of taking the cheapest ending after each of the hair's answers, summed over them.
 *
 * `h` and `p` are the weights of horned and polled before the hair is seen. Answers come by falling ratio, so each turn of
 * the envelope cuts the list in two.
 */
function cheapestLoss({ endings, turns }: EndingEnvelope, hair: Sorted, h: number, p: number): number {
  const { ratio, horned, polled } = hair;
  let [loss, from] = [0, 0];
  for (let q = 0; q < endings.length; q++) {
    const e = endings[q];
    if (e === undefined) break;
    let to = ratio.length;
    const turn = turns[q];
    if (turn !== undefined) {
      to = from;
      while (to < ratio.length && h * (ratio[to] ?? 0) >= turn * p) to++;
    }
    loss +=
      h * e.horned * ((horned[to] ?? 0) - (horned[from] ?? 0)) +
      p * e.polled * ((polled[to] ?? 0) - (polled[from] ?? 0));
    from = to;
  }
  return loss;
}

/** Adds the cheapest ending after an answer that a horned kid gives with chance `a` and a polled one with chance `b`. */
function addAnswer(tally: Tally, { endings }: EndingEnvelope, horns: number, a: number, b: number): void {
  const loss = (e: Ending) => horns * a * e.horned + (1 - horns) * b * e.polled;
  add(
    tally,
    endings.reduce((x, y) => (loss(y) < loss(x) ? y : x)),
    horns,
    a,
    b,
  );
}

/** The same for all of the hair's answers after a touch with chances `a` and `b`: each turn cuts their list in two. */
function addAnswers(
  tally: Tally,
  { endings, turns }: EndingEnvelope,
  hair: Sorted,
  horns: number,
  a: number,
  b: number,
): void {
  const { ratio, horned, polled } = hair;
  let from = 0;
  for (const [q, ending] of endings.entries()) {
    const turn = turns[q];
    let to = turn === undefined ? ratio.length : from;
    if (turn !== undefined) while (to < ratio.length && horns * a * (ratio[to] ?? 0) >= turn * (1 - horns) * b) to++;
    const [h, p] = [(horned[to] ?? 0) - (horned[from] ?? 0), (polled[to] ?? 0) - (polled[from] ?? 0)];
    add(tally, ending, horns, a * h, b * p);
    from = to;
  }
}

function add(tally: Tally, ending: Ending, horns: number, a: number, b: number): void {
  tally.ifHorned += a * ending.horned;
  tally.ifPolled += b * ending.polled;
  if (ending.kind === "leave") tally.missed += horns * a;
  else tally.needless += (1 - horns) * b;
}

function sorted(horned: Float64Array, polled: Float64Array): Sorted {
  const ratioOf = (k: number) => (horned[k] ?? 0) / (polled[k] ?? 1);
  const answers = Array.from(horned, (_, k) => k).sort((x, y) => ratioOf(y) - ratioOf(x));
  const running = (list: Float64Array) => {
    const sums = new Float64Array(answers.length + 1);
    for (const [m, k] of answers.entries()) sums[m + 1] = (sums[m] ?? 0) + (list[k] ?? 0);
    return sums;
  };
  return { answers, ratio: Float64Array.from(answers, ratioOf), horned: running(horned), polled: running(polled) };
}

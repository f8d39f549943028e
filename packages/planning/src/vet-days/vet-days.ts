import { Bug, present } from "@pollard/base";
import { type KidGroup, kidGroups, type VetDaysQuestion } from "./vet-days-question.ts";

/** Some days of visits, and what is to be expected of them. */
export interface VisitPlan {
  /** Days from today, rising; the fixed ones among them. */
  readonly visits: readonly number[];
  /** Expected loss: visits that are not fixed, misses and lateness. */
  readonly loss: number;
  /** Horned kids that are expected, and of them those whom no visit reaches inside the window. */
  readonly heads: number;
  readonly missed: number;
  /** Days past the best ones, over all kids done. */
  readonly lateDays: number;
}

/** The best days to ask the vet for, and the best for every other number of visits. */
export interface VetDaysAnswer {
  readonly best: VisitPlan;
  /** One plan for each number of visits that is possible, rising, from the fixed ones alone. */
  readonly byCount: readonly VisitPlan[];
}

/**
 * What is to be expected of these visits.
 *
 * Shape: exact; any days may be given, in any order.
 */
export function weighVisits(question: VetDaysQuestion, visits: readonly number[]): VisitPlan {
  return weighed(question, kidGroups(question), visits);
}

function weighed(question: VetDaysQuestion, groups: readonly KidGroup[], visits: readonly number[]): VisitPlan {
  const days = [...new Set(visits)].sort((a, b) => a - b);
  let [heads, missed, lateDays, loss] = [0, 0, 0, 0];
  for (const group of groups) {
    heads += group.weight;
    const done = days.find((day) => day >= group.readyIn);
    if (done === undefined || done > group.endIn) {
      missed += group.weight;
      loss += group.weight * question.losses.missedHorns;
    } else {
      lateDays += group.weight * group.lateOn(done);
      loss += group.weight * group.lossOn(done);
    }
  }
  const asked = days.filter((day) => !question.fixed.includes(day)).length;
  return { visits: days, loss: loss + asked * question.visitLoss, heads, missed, lateDays };
}

/**
 * Which days to ask the vet for, so that visits, missed kids and late days cost least together.
 *
 * A kid is done on the first visit from its best days on, so the loss falls apart into stretches between one visit and the
 * next: the best plan whose last visit is on a day follows from the best plans whose last visit is before it. Exact, and
 * for every number of visits at once.
 *
 * Shape:   `byCount` stops at `mostVisits`, or at the days there are. Among equals the plan with fewer, then earlier visits.
 * Assumes: a visit takes all kids that wait for it; for a limit use `planVetDaysWithin`.
 * Cost:    visits x days² and days x groups; half a year of days in a few hundredths of a second.
 * Source:  [bellman1957]; rules KD-30 to KD-33.
 */
export function planVetDays(question: VetDaysQuestion): VetDaysAnswer {
  const groups = kidGroups(question);
  const days = [...new Set([...question.open, ...question.fixed])].filter((d) => d >= 0).sort((a, b) => a - b);
  const fixed = new Set(question.fixed.filter((d) => d >= 0));
  const most = Math.max(fixed.size, Math.min(days.length, question.mostVisits));
  const stretch = stretches(question, groups, days);
  const lastFixed = days.findLastIndex((d) => fixed.has(d));
  /** best[i]: the least loss of n visits of which the last is on days[i], and of everything ready by then. */
  let best: readonly number[] = [];
  const backs: (readonly number[])[] = [];
  const plans: VisitPlan[] = [];
  const finish = (n: number, losses: readonly number[], isFirst: boolean): void => {
    let [least, at] = [Number.POSITIVE_INFINITY, -1];
    for (let i = Math.max(0, lastFixed); i < days.length; i++) {
      const loss = (losses[i] ?? Number.POSITIVE_INFINITY) + stretch.after(i);
      if (loss < least - TIE) [least, at] = [loss, i];
    }
    if (isFirst || at === -1) return;
    const visits: number[] = [];
    for (let [i, k] = [at, n - 1]; i >= 0; i = backs[k]?.[i] ?? -1, k--) visits.push(present(days[i], "a day"));
    plans.push(weighed(question, groups, visits));
  };
  if (fixed.size === 0) plans.push(weighed(question, groups, []));
  for (let n = 1; n <= most; n++) {
    const next: number[] = [];
    const back: number[] = [];
    for (const [i, day] of days.entries()) {
      const price = fixed.has(day) ? 0 : question.visitLoss;
      let [least, from] = [Number.POSITIVE_INFINITY, -1];
      for (let j = i - 1; j >= -1; j--) {
        const before = j === -1 ? (n === 1 ? 0 : Number.POSITIVE_INFINITY) : (best[j] ?? Number.POSITIVE_INFINITY);
        const loss = before + stretch.between(j, i) + price;
        if (loss < least - TIE || (loss <= least + TIE && Number.isFinite(loss) && j < from)) [least, from] = [loss, j];
        if (j >= 0 && fixed.has(present(days[j], "a day"))) break; // no plan passes over a fixed visit
      }
      next.push(least);
      back.push(from);
    }
    best = next;
    backs.push(back);
    finish(n, best, n < fixed.size);
  }
  const first = plans[0];
  if (first === undefined) throw new Bug(`vet days: no plan of ${most} visits holds ${fixed.size} fixed ones`);
  return { best: plans.reduce((a, b) => (b.loss < a.loss - TIE ? b : a), first), byCount: plans };
}

/** Losses closer than this are the same: what is left is rounding. */
const TIE = 1e-12;

/** What the kids lose that become ready between two visits, and are done or missed at the second. */
function stretches({ losses }: VetDaysQuestion, groups: readonly KidGroup[], days: readonly number[]) {
  /** How many groups are ready by days[i]. */
  const readyBy = days.map((day) => groups.filter((g) => g.readyIn <= day).length);
  const upTo = days.map((day) => {
    const sums = new Float64Array(groups.length + 1);
    for (const [k, g] of groups.entries())
      sums[k + 1] = (sums[k] ?? 0) + g.weight * (day <= g.endIn ? g.lossOn(day) : losses.missedHorns);
    return sums;
  });
  const left = new Float64Array(groups.length + 1);
  for (let k = groups.length - 1; k >= 0; k--)
    left[k] = (left[k + 1] ?? 0) + (groups[k]?.weight ?? 0) * losses.missedHorns;
  const at = (sums: Float64Array | undefined, k: number | undefined): number => sums?.[k ?? 0] ?? 0;
  return {
    between: (j: number, i: number): number => at(upTo[i], readyBy[i]) - at(upTo[i], j === -1 ? 0 : readyBy[j]),
    after: (i: number): number => at(left, readyBy[i]),
  };
}

import { present } from "@pollard/base";
import type { ComingKids, VetDaysQuestion } from "./vet-days-question.ts";

/** How many heads to expect on one visit. */
export interface VisitHeads {
  readonly inDays: number;
  readonly expected: number;
  /** Nine times in ten the number lies between, both included. */
  readonly low: number;
  readonly high: number;
  /** Chance of none, of one, and so on; sums to 1. */
  readonly chances: readonly number[];
  /** Whose kids they are, with how many of each are expected; only those that may come, most first. */
  readonly from: readonly { readonly id: string; readonly expected: number }[];
}

/** Share of the cases left out at each end of the range. */
const TAIL = 0.05;
/** Expected heads below which a litter is not named with a visit. */
const HARDLY = 0.01;

/**
 * How many horned kids wait for each of these visits, and whose.
 *
 * Each litter gives a distribution of its own: over the days of birth, the number of kids, and each kid's sex and horns. The
 * litters' distributions are folded into one another, which is exact (the Poisson-binomial distribution where every litter
 * is one kid).
 *
 * Shape:   in the order of the visits, which must rise.
 * Assumes: litters are independent; where two share a parent of doubtful genotype the true range is wider.
 * Source:  rule KD-34.
 */
export function visitHeads({ coming }: VetDaysQuestion, visits: readonly number[]): readonly VisitHeads[] {
  return visits.map((inDays, i) => {
    const before = i === 0 ? Number.NEGATIVE_INFINITY : present(visits[i - 1], "the visit before");
    let chances: readonly number[] = [1];
    const from: { id: string; expected: number }[] = [];
    for (const kids of coming) {
      const own = headsOf(kids, before, inDays);
      const expected = mean(own);
      if (expected >= HARDLY) from.push({ id: kids.id, expected });
      chances = folded(chances, own);
    }
    return {
      inDays,
      expected: mean(chances),
      low: shareAt(chances, TAIL),
      high: shareAt(chances, 1 - TAIL),
      chances,
      from: from.sort((a, b) => b.expected - a.expected),
    };
  });
}

/** Chance of none, one, … of these kids waiting for the visit on a day, the visit before having been on another. */
function headsOf({ births, needs, windows }: ComingKids, before: number, inDays: number): readonly number[] {
  const chances = [0];
  let never = 1;
  for (const { inDays: born, kids, chance } of births) {
    never -= chance;
    const waits = windows.reduce((sum, { window, share }) => {
      const ready = Math.max(0, born + window.aimFrom.value);
      return ready > before && ready <= inDays && inDays <= born + window.end.value ? sum + share : sum;
    }, 0);
    for (const [n, p] of binomial(kids, needs * waits).entries()) chances[n] = (chances[n] ?? 0) + chance * p;
  }
  chances[0] = (chances[0] ?? 0) + never;
  return chances;
}

/** Chance of each number of successes in `n` tries. */
function binomial(n: number, p: number): readonly number[] {
  let chances: readonly number[] = [1];
  for (let i = 0; i < n; i++) chances = folded(chances, [1 - p, p]);
  return chances;
}

/** The distribution of a sum of two independent counts. */
function folded(a: readonly number[], b: readonly number[]): readonly number[] {
  const sum = Array.from({ length: a.length + b.length - 1 }, () => 0);
  for (const [i, x] of a.entries()) for (const [j, y] of b.entries()) sum[i + j] = (sum[i + j] ?? 0) + x * y;
  while (sum.length > 1 && (sum.at(-1) ?? 0) < 1e-15) sum.pop();
  return sum;
}

const mean = (chances: readonly number[]): number => chances.reduce((sum, p, n) => sum + n * p, 0);

/** The least number that leaves no more than this share above or at it. */
function shareAt(chances: readonly number[], share: number): number {
  let sum = 0;
  for (const [n, p] of chances.entries()) {
    sum += p;
    if (sum >= share - 1e-12) return n;
  }
  return chances.length - 1;
}

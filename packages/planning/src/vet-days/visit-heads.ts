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

/**
 * One way in which the parents that litters share may be: its chance, and what each litter's kids then need. Litters that
 * are not named need what they always need.
 */
export interface ParentWorld {
  readonly chance: number;
  readonly needs: ReadonlyMap<string, number>;
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
 * Kids of one buck of doubtful genotype need the vet together or not at all. So the number is worked out in each of the
 * `worlds` in which such bucks may be, where litters are independent, and the worlds are mixed.
 *
 * Shape:   in the order of the visits, which must rise. The worlds' chances sum to 1; none is one world.
 * Assumes: within a world litters are independent of each other.
 * Source:  rule KD-34.
 */
export function visitHeads(
  { coming }: VetDaysQuestion,
  visits: readonly number[],
  worlds: readonly ParentWorld[] = ONE_WORLD,
): readonly VisitHeads[] {
  return visits.map((inDays, i) => {
    const before = i === 0 ? Number.NEGATIVE_INFINITY : present(visits[i - 1], "the visit before");
    const waiting = coming.map((kids) => ({ kids, rows: waitingRows(kids, before, inDays) })).filter(mayWait);
    const from = waiting
      .map(({ kids, rows }) => ({ id: kids.id, expected: mean(headsOf(rows, kids.needs)) }))
      .filter(({ expected }) => expected >= HARDLY);
    const chances: number[] = [];
    const known = waiting.map(() => new Map<number, readonly number[]>());
    for (const { chance, needs } of worlds) {
      let here: readonly number[] = [1];
      for (const [k, { kids, rows }] of waiting.entries()) {
        const need = needs.get(kids.id) ?? kids.needs;
        const own = known[k]?.get(need) ?? headsOf(rows, need);
        known[k]?.set(need, own);
        here = folded(here, own);
      }
      for (const [n, p] of here.entries()) chances[n] = (chances[n] ?? 0) + chance * p;
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

const ONE_WORLD: readonly ParentWorld[] = [{ chance: 1, needs: new Map() }];

/** So many kids born together, of whom each waits for a visit with a share; and the chance of that. */
interface WaitingRow {
  readonly kids: number;
  readonly share: number;
  readonly chance: number;
}

/** The ways in which a litter may wait for the visit on a day, the visit before having been on another; the rest is none. */
function waitingRows({ births, windows }: ComingKids, before: number, inDays: number): readonly WaitingRow[] {
  const rows = new Map<string, WaitingRow>();
  const first = births[0];
  const last = births.at(-1);
  const ends = Math.max(...windows.map(({ window }) => window.end.value));
  const starts = Math.max(...windows.map(({ window }) => window.aimFrom.value));
  // Births stand by day: where even the first is too late, or the last too early, none can wait.
  if (first === undefined || last === undefined || first.inDays > inDays) return [];
  if (last.inDays + ends < inDays || Math.max(0, last.inDays + starts) <= before) return [];
  for (const { inDays: born, kids, chance } of births) {
    const share = windows.reduce((sum, { window, share }) => {
      const ready = Math.max(0, born + window.aimFrom.value);
      return ready > before && ready <= inDays && inDays <= born + window.end.value ? sum + share : sum;
    }, 0);
    if (share === 0) continue;
    const key = `${kids} ${share}`;
    rows.set(key, { kids, share, chance: chance + (rows.get(key)?.chance ?? 0) });
  }
  return [...rows.values()];
}

const mayWait = ({ rows }: { readonly rows: readonly WaitingRow[] }): boolean => rows.length > 0;

/** Chance of none, one, … heads of a litter that waits in these ways, each kid of it needing the vet with a chance. */
function headsOf(rows: readonly WaitingRow[], needs: number): readonly number[] {
  const chances = [1];
  for (const { kids, share, chance } of rows) {
    chances[0] = (chances[0] ?? 0) - chance;
    for (const [n, p] of binomial(kids, needs * share).entries()) chances[n] = (chances[n] ?? 0) + chance * p;
  }
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

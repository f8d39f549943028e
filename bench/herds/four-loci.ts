import { seededRandom } from "@pollard/base";
import { inferGenotypes, type LayoutMemory, layoutMemory, type PedigreeProblem } from "@pollard/genetics";
import { at, FOUR_LOCI, herdBook } from "./herd-book.ts";

/**
 * What every animal of a herd of 300 carries at four loci, in ms: by a program that has just been loaded, the first time by
 * one that has run, after one finding more at every locus, and at this one alone.
 */
export interface FourLociTimes {
  readonly locus: string;
  readonly method: string;
  readonly loaded: number;
  readonly first: number;
  readonly again: number;
  /** All four loci, after one finding more at this one. */
  readonly entry: number;
}

/** Runs; the figures are the best of them. What a program just loaded takes there is only one of. */
const RUNS = 9;

/** Measured wherever this runs: in Node, or in a browser's worker. As in the app, all loci share one memory of layouts. */
export function timeFourLoci(): readonly FourLociTimes[] {
  const herd = herdBook({ animals: 300, does: 40, bucks: 3 }, seededRandom(7));
  const problems = FOUR_LOCI.map((locus) => at(locus, herd));
  const before = problems.map(withoutLastFinding);
  const loaded = timed(problems, layoutMemory());
  const kept = layoutMemory();
  const runs = Array.from({ length: RUNS }, () => {
    timed(before, kept);
    const again = timed(problems, kept);
    const entries = problems.map((_, locus) => {
      timed(problems, kept);
      return timed(
        problems.map((problem, other) => (other === locus ? withoutLastFinding(problem) : problem)),
        kept,
      ).reduce((total, { ms }) => total + ms, 0);
    });
    return { again, entries, first: timed(problems, layoutMemory()) };
  });
  const best = (locus: number, of: "first" | "again"): number =>
    Math.min(...runs.map((run) => run[of][locus]?.ms ?? Number.NaN));
  return FOUR_LOCI.map(({ name }, locus) => ({
    locus: name,
    method: loaded[locus]?.method ?? "",
    loaded: loaded[locus]?.ms ?? Number.NaN,
    first: best(locus, "first"),
    again: best(locus, "again"),
    entry: Math.min(...runs.map(({ entries }) => entries[locus] ?? Number.NaN)),
  }));
}

function withoutLastFinding(problem: PedigreeProblem): PedigreeProblem {
  const last = problem.members.findLastIndex(({ evidence }) => evidence.length > 0);
  return { ...problem, members: problem.members.map((m, i) => (i === last ? { ...m, evidence: [] } : m)) };
}

const timed = (
  problems: readonly PedigreeProblem[],
  layouts: LayoutMemory,
): readonly { readonly ms: number; readonly method: string }[] =>
  problems.map((problem) => {
    const from = performance.now();
    const answer = inferGenotypes(problem, { layouts });
    for (const { id } of problem.members) answer.belief(id);
    const ms = performance.now() - from;
    return { ms, method: answer.method === "exact" ? "exact" : `within ${answer.error.toExponential(0)}` };
  });

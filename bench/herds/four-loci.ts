import { seededRandom } from "@pollard/base";
import { inferGenotypes, layoutMemory } from "@pollard/genetics";
import { at, FOUR_LOCI, herdBook } from "./herd-book.ts";

/** What every animal of a herd of 300 carries at four loci, in ms: the first time, and after one finding more. */
export interface FourLociTimes {
  readonly locus: string;
  readonly method: string;
  readonly first: number;
  readonly again: number;
}

/** Runs; the figures are the best of them. */
const RUNS = 7;

/** Measured wherever this runs: in Node, or in a browser's worker. */
export function timeFourLoci(): readonly FourLociTimes[] {
  const herd = herdBook({ animals: 300, does: 40, bucks: 3 }, seededRandom(7));
  return FOUR_LOCI.map((locus) => {
    const problem = at(locus, herd);
    const last = problem.members.findLastIndex(({ evidence }) => evidence.length > 0);
    const before = {
      ...problem,
      members: problem.members.map((m, i) => (i === last ? { ...m, evidence: [] } : m)),
    };
    const layouts = layoutMemory();
    const allMarginals = (
      of: typeof problem,
      options: Parameters<typeof inferGenotypes>[1],
    ): { ms: number; method: string } => {
      const from = performance.now();
      const answer = inferGenotypes(of, options);
      for (const { id } of problem.members) answer.belief(id);
      return { ms: performance.now() - from, method: answer.method };
    };
    const runs = Array.from({ length: RUNS }, () => {
      allMarginals(before, { layouts });
      return { first: allMarginals(problem, {}), again: allMarginals(problem, { layouts }) };
    });
    return {
      locus: locus.name,
      method: runs[0]?.first.method ?? "",
      first: Math.min(...runs.map(({ first }) => first.ms)),
      again: Math.min(...runs.map(({ again }) => again.ms)),
    };
  });
}

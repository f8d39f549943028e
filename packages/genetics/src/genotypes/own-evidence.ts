import type { Evidence } from "../pedigree/pedigree-problem.ts";
import type { ChromosomalSex } from "../vocabulary.ts";
import { narrowed, type StateSpace } from "./state-space.ts";

/**
 * What an animal's facts and its sex chance say of each of its states, as natural logs: P(sex) x P(facts | sex, genotype),
 * summed over sex where the space leaves sex out; -Infinity where they rule a state out.
 */
export function ownEvidence(space: StateSpace, xx: number, evidence: readonly Evidence[]): Float64Array {
  const saysTheSame = evidence.every(({ likelihood }) => likelihood.XX === likelihood.XY);
  const chances = { XX: Math.log(xx), XY: Math.log(1 - xx) };
  const logs = new Float64Array(space.states.length);
  space.states.forEach(({ sex, within }, at) => {
    if (sex !== undefined) logs[at] = chances[sex] + logSaid(evidence, sex, within);
    else if (saysTheSame) logs[at] = logSaid(evidence, "XX", within);
    else {
      const a = chances.XX + logSaid(evidence, "XX", within);
      const b = chances.XY + logSaid(evidence, "XY", within);
      const top = Math.max(a, b);
      logs[at] = top === Number.NEGATIVE_INFINITY ? top : top + Math.log(Math.exp(a - top) + Math.exp(b - top));
    }
  });
  return logs;
}

/** The natural log of what some facts together say of one sex and genotype. */
export function logSaid(evidence: readonly Evidence[], sex: ChromosomalSex, within: number): number {
  let log = 0;
  for (const { likelihood } of evidence) log += Math.log(likelihood[sex][within] ?? 0);
  return log;
}

/** The states that an animal's own evidence leaves it; all of them if it rules out every one. */
export const statesLeft = (all: StateSpace, own: Float64Array): StateSpace =>
  narrowed(all, (at) => own[at] !== Number.NEGATIVE_INFINITY);

/** Whether a space has every state that own evidence leaves, as `ownEvidence` has it of all states of its kind. */
export const hasStatesLeft = (space: StateSpace, own: Float64Array): boolean =>
  own.every((log, at) => log === Number.NEGATIVE_INFINITY || space.states.some(({ place }) => place === at));

import { type LayoutMemory, layoutMemory } from "../inference/layout-memory.ts";
import { answerFrom, emptyAnswer } from "./answer-from-families.ts";
import type { GenotypeAnswer } from "./genotype-answer.ts";
import { workOutKept } from "./kept-answers.ts";
import { soundKept } from "./kept-problem.ts";
import type { PedigreeProblem } from "../pedigree/pedigree-problem.ts";

/** How much work an exact answer may take. */
export interface InferenceOptions {
  /** Table cells of one family, all its tables together; beyond it the answer is approximate. About 20 bytes each. */
  readonly cellBudget?: number;
  /** Keep one between questions about the same herd: after a finding more the next answer then takes a fraction of the time. */
  readonly layouts?: LayoutMemory;
}

/** Fits a phone: a fraction of a second of work, and at most some tens of megabytes. */
export const DEFAULT_CELL_BUDGET = 1 << 22;

/**
 * The genotype of every animal, from everything that is known of all of them together.
 *
 * Exact: the pedigree becomes a product of tables (founders, transmission, evidence, which sire), each family is laid out
 * as a clique tree by weighted min-fill, and two passes of messages give every belief. Contradictory facts are reported
 * and as few as possible set aside; the rest of the herd keeps its answer. A family too entangled for the budget is worked
 * out without what its parents as good as cannot be or, where that does not do, by iterative peeling; either is marked, with
 * an estimate of its error.
 *
 * Assumes: Mendelian transmission without new mutation; founders independent, in Hardy-Weinberg proportions at the
 *          frequencies given; facts about one animal independent given its genotype and sex.
 * Errors:  none. What is wrong with the problem is in `issues`, what contradicts itself in `conflicts`.
 * Source:  [lauritzen1988] (local computation on clique trees), [elston1971] (likelihood on pedigrees); rules GE-1 to GE-9.
 */
export function inferGenotypes(problem: PedigreeProblem, options: InferenceOptions = {}): GenotypeAnswer {
  const { cellBudget = DEFAULT_CELL_BUDGET, layouts = layoutMemory() } = options;
  const { sound, families } = soundKept(problem, layouts);
  if (sound.locus.alleles.length === 0) return emptyAnswer(sound);
  return answerFrom(
    sound,
    families,
    families.map((family) => workOutKept({ locus: sound.locus, members: sound.members, family, cellBudget, layouts })),
  );
}

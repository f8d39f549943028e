import {
  type GenotypeAnswer,
  inferLoci,
  type LayoutMemory,
  type PedigreeProblem,
  toldMembers,
} from "@pollard/genetics";
import { present, type Sourced } from "@pollard/base";

/** What is believed at one locus, and what that follows from. */
export interface LocusBeliefs {
  /** What everything but this locus says of sires stands beside their weights. */
  readonly problem: PedigreeProblem;
  readonly answer: GenotypeAnswer;
}

/**
 * How far the other loci have to move what one thinks of a sire for it to be told of him. Below it they could gain no more
 * than about this much of chance, and in a large herd telling of every written sire costs many times what the loci cost by
 * themselves (bench/loci).
 */
const WORTH_TELLING: Sourced<number> = { value: 0.02, source: "judgement", checked: "judgement" };

/**
 * What is believed at several loci of one herd, each knowing what the others say of the sires of whom they have something to say.
 *
 * Shape:  in the order of the problems.
 * Cost:   one inference for each locus; for a family with such a sire, one more of all loci joined at those sires alone.
 * Source: rules AD-53 and AD-80; genetics' GE-26 and GE-64.
 */
export function believeTogether(problems: readonly PedigreeProblem[], layouts: LayoutMemory): readonly LocusBeliefs[] {
  const { answers, alone, told } = inferLoci(problems, { layouts, leastTold: WORTH_TELLING.value });
  return problems.map((problem, at) => {
    const [own, answer] = [present(alone[at], "a locus alone"), present(answers[at], "a locus told")];
    if (own === answer) return { problem, answer };
    return { problem: { ...problem, members: toldMembers(problem, { together: answer, alone: own, told }) }, answer };
  });
}

import {
  type GenotypeAnswer,
  inferLoci,
  type LayoutMemory,
  type Member,
  type PedigreeProblem,
} from "@pollard/genetics";
import { present, type Sourced } from "@pollard/base";

/** What is believed at one locus, and what that follows from. */
export interface LocusBeliefs {
  /** The weights of its sires are what everything but this locus says of them. */
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
    const members = problem.members.map((member) => (told.has(member.id) ? weighed(member, own, answer) : member));
    return { problem: { ...problem, members }, answer };
  });
}

/** The member with each sire weighed by what the other loci make of him: what all make of him, without what this one does. */
function weighed(member: Member, alone: GenotypeAnswer, together: GenotypeAnswer): Member {
  const [own, all] = [alone.belief(member.id).sires, together.belief(member.id).sires];
  const byOthers = member.sires.map(({ sire, weight }) => {
    const before = own.get(sire) ?? 0;
    return { sire, weight: before > 0 ? (weight * (all.get(sire) ?? 0)) / before : weight };
  });
  const total = byOthers.reduce((sum, { weight }) => sum + weight, 0);
  return total > 0
    ? { ...member, sires: byOthers.map(({ sire, weight }) => ({ sire, weight: weight / total })) }
    : member;
}

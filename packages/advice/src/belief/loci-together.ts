import {
  type GenotypeAnswer,
  inferGenotypes,
  inferLoci,
  type LayoutMemory,
  type Member,
  type PedigreeProblem,
} from "@pollard/genetics";
import type { Sourced } from "@pollard/base";

/** What is believed at one locus, and what that follows from. */
export interface LocusBeliefs {
  /** The weights of its sires are what everything but this locus says of them. */
  readonly problem: PedigreeProblem;
  readonly answer: GenotypeAnswer;
}

/**
 * How far a locus has to move the chance of a sire for the others to be told. Below it they could gain no more than about this
 * much of chance, and in a large herd telling costs many times what the loci cost by themselves (bench/loci).
 */
const WORTH_TELLING: Sourced<number> = { value: 0.02, source: "judgement", checked: "judgement" };

/**
 * What is believed at several loci of one herd, each knowing what the others say of the sires.
 *
 * Shape:  in the order of the problems.
 * Cost:   one inference for each locus; where one says something of a sire, that of all of them together.
 * Source: rule AD-53; genetics' GE-26.
 */
export function believeTogether(problems: readonly PedigreeProblem[], layouts: LayoutMemory): readonly LocusBeliefs[] {
  const alone = problems.map((problem) => ({ problem, answer: inferGenotypes(problem, { layouts }) }));
  if (alone.length < 2 || !alone.some(saysOfSires)) return alone;
  const { answers } = inferLoci(problems, { layouts });
  return alone.map((own, at) => {
    const answer = answers[at] ?? own.answer;
    const members = own.problem.members.map((member) => told(member, own.answer, answer));
    return { problem: { ...own.problem, members }, answer };
  });
}

const saysOfSires = ({ problem, answer }: LocusBeliefs): boolean =>
  problem.members.some(({ id, sires }) => {
    if (sires.length < 2) return false;
    const believed = answer.belief(id).sires;
    return sires.some(({ sire, weight }) => Math.abs((believed.get(sire) ?? weight) - weight) >= WORTH_TELLING.value);
  });

/** The member with each sire weighed by what the other loci make of him: what all make of him, without what this one does. */
function told(member: Member, alone: GenotypeAnswer, together: GenotypeAnswer): Member {
  if (member.sires.length < 2) return member;
  const [own, all] = [alone.belief(member.id).sires, together.belief(member.id).sires];
  const weighed = member.sires.map(({ sire, weight }) => {
    const before = own.get(sire) ?? 0;
    return { sire, weight: before > 0 ? (weight * (all.get(sire) ?? 0)) / before : weight };
  });
  const total = weighed.reduce((sum, { weight }) => sum + weight, 0);
  return total > 0
    ? { ...member, sires: weighed.map(({ sire, weight }) => ({ sire, weight: weight / total })) }
    : member;
}

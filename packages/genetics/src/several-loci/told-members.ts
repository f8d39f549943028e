import { present } from "@pollard/base";
import type { GenotypeAnswer } from "../genotypes/genotype-answer.ts";
import { hangsTogether, littersOf, ratiosBetween, saidOfLitter, type SaidByKid } from "../pedigree/litters.ts";
import type { Member, PedigreeProblem, SireCandidate } from "../pedigree/pedigree-problem.ts";
import { soundProblem } from "../pedigree/sound-problem.ts";
import type { AnimalId } from "../vocabulary.ts";

/** What was found about the sires of a problem's animals. */
export interface FoundSires {
  /** What everything together says. */
  readonly together: Pick<GenotypeAnswer, "belief">;
  /** What of that the problem's own facts say by themselves, to be left out; nothing is, unless given. */
  readonly alone?: Pick<GenotypeAnswer, "belief">;
  /** The animals to be told; all, unless given. */
  readonly told?: ReadonlySet<AnimalId>;
}

/**
 * The animals of a problem with what is known elsewhere of the sires of each, for whoever asks on at one locus by itself.
 *
 * Shape:   in what is said of the sires of litter mates, whose weights are their litter's; in the weights of all others.
 * Assumes: of litter mates what is known elsewhere of one kid's sire tells of its mates' through the litter alone.
 * Source:  rule GE-73.
 */
export function toldMembers(problem: PedigreeProblem, { together, alone, told }: FoundSires): readonly Member[] {
  const { members } = soundProblem(problem);
  const mates = new Set<AnimalId>();
  const saidOf = new Map<AnimalId, ReadonlyMap<AnimalId | undefined, number>>();
  for (const litter of littersOf(members, [...members.keys()])) {
    const kids = litter.kids.map((i) => present(members[i], "a kid"));
    if (told && !kids.some(({ id }) => told.has(id))) continue;
    const sires = kids.map((kid) =>
      kid.sires.map(({ sire }) => (sire < 0 ? undefined : present(members[sire], "a sire").id)),
    );
    const chances = (from: Pick<GenotypeAnswer, "belief">): SaidByKid =>
      kids.map(({ id }, k) => (sires[k] ?? []).map((sire) => from.belief(id).sires.get(sire) ?? 0));
    const all = saidOfLitter(litter, chances(together));
    const given = kids.map((kid) => kid.sires.map(({ said }) => said));
    const said = alone ? ratiosBetween(all, saidOfLitter(litter, chances(alone))) : all;
    if (hangsTogether(litter)) for (const { id } of kids) mates.add(id);
    kids.forEach(({ id }, k) => {
      const row = (said[k] ?? []).map((x, at) => (alone ? x * (given[k]?.[at] ?? 1) : x));
      saidOf.set(id, new Map(row.map((x, at) => [sires[k]?.[at], x])));
    });
  }
  return problem.members.map((m) => {
    const said = saidOf.get(m.id);
    if (!said) return m;
    const sires = m.sires.map((s) => ({ ...s, said: said.get(s.sire) ?? said.get(undefined) ?? 1 }));
    return { ...m, sires: mates.has(m.id) ? sires : weighed(sires) };
  });
}

/** What is said of each as part of his weight; as it was where that leaves nobody. */
function weighed(sires: readonly (SireCandidate & { readonly said: number })[]): readonly SireCandidate[] {
  const total = sires.reduce((sum, { weight, said }) => sum + weight * said, 0);
  return total > 0 ? sires.map(({ sire, weight, said }) => ({ sire, weight: (weight * said) / total })) : sires;
}

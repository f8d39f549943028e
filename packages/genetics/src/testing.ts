import type { Locus } from "./locus.ts";
import type { Evidence, Member, PedigreeProblem } from "./pedigree/pedigree-problem.ts";
import { type AnimalId, animalId } from "./vocabulary.ts";

export { byEnumeration, type Enumeration } from "./genotypes/by-enumeration.ts";

/** A member by name, with what the test does not care about filled in: unknown parents, sex unknown, no facts. */
export const aMember = (id: string, more: Partial<Omit<Member, "id" | "dam" | "sires">> & Parents = {}): Member => {
  const { dam, sire, sires, ...rest } = more;
  const named = sires ?? (sire === undefined ? [] : [[sire, 1] as const]);
  return {
    id: animalId(id),
    dam: dam === undefined ? undefined : animalId(dam),
    sires: named.map(([name, weight]) => ({ sire: name === undefined ? undefined : animalId(name), weight })),
    xx: 0.5,
    breed: undefined,
    evidence: [],
    ...rest,
  };
};

interface Parents {
  readonly dam?: string;
  readonly sire?: string;
  readonly sires?: readonly (readonly [string | undefined, number])[];
}

/** A fact that says the same of both sexes. */
export const aFact = (fact: string, likelihood: readonly number[]): Evidence => ({
  fact,
  likelihood: { XX: likelihood, XY: likelihood },
});

/** A locus for a test, with equal founder frequencies. */
export const aLocus = (alleles: readonly string[], inheritance: Locus["inheritance"] = "autosomal"): Locus => ({
  id: `test ${alleles.join("")}`,
  name: "A locus of a test",
  alleles,
  inheritance,
  founders: {
    default: { value: alleles.map(() => 1 / alleles.length), source: "test", checked: "judgement" },
    breeds: {},
  },
});

/** The problem with every sire known: of the possible ones the first, or the one at the place that is picked. */
export const withSires = (problem: PedigreeProblem, picks: ReadonlyMap<AnimalId, number>): PedigreeProblem => ({
  ...problem,
  members: problem.members.map((m): Member => {
    const pick = m.sires[picks.get(m.id) ?? 0];
    return { ...m, sires: pick?.sire === undefined ? [] : [{ sire: pick.sire, weight: 1 }] };
  }),
});

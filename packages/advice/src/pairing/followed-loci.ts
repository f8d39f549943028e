import {
  CHROMOSOMAL_SEXES,
  dnaTestLikelihood,
  type Evidence,
  type GenotypeAnswer,
  genotypesOf,
  inferGenotypes,
  type Locus,
  phenotypeChances,
  POLLED,
  SHIPPED_LOCI,
  traitLikelihood,
} from "@pollard/genetics";
import type { Animal } from "@pollard/records";
import type { Situation } from "../situation.ts";
import type { LocusOutlook } from "./pairing-models.ts";
import type { PairingBuck } from "./pairing-table.ts";

/** A locus beside horns of which something is on record in this herd. */
export interface FollowedLocus {
  readonly locus: Locus;
  readonly answer: GenotypeAnswer;
}

/**
 * The loci that the keeper follows beside horns: those of which a test or a trait of any animal is on record.
 *
 * The pedigree and the belief about each sire are taken over from the polled locus; what these loci say of a sire is not
 * told back.
 *
 * Shape:  in the order in which loci ship.
 * Cost:   one inference for each.
 * Source: rule PA-20; the loci themselves are genetics'.
 */
export function followedLoci({ herd, beliefs }: Situation): readonly FollowedLocus[] {
  return SHIPPED_LOCI.filter((locus) => locus.id !== POLLED.id).flatMap((locus) => {
    const evidence = new Map([...herd.animals.values()].map((animal) => [animal.id, evidenceAt(locus, animal)]));
    if ([...evidence.values()].every((facts) => facts.length === 0)) return [];
    const members = beliefs.problem.members.map((member) => ({
      ...member,
      evidence: evidence.get(member.id) ?? [],
      sires: beliefs.sires(member.id).map(([sire, weight]) => ({ sire, weight })),
    }));
    return [{ locus, answer: inferGenotypes({ locus, members }) }];
  });
}

/** What tests and traits of one animal say at a locus; what cannot be read there says nothing. */
function evidenceAt(locus: Locus, animal: Animal): readonly Evidence[] {
  const tests = animal.tests
    .filter((test) => test.locus === locus.id)
    .map((test) => ({ fact: test.entry, read: dnaTestLikelihood(locus, test.alleles) }));
  const traits = animal.traits.map(({ entry, trait, value }) => ({
    fact: entry,
    read: traitLikelihood(locus, { trait, phenotype: value }),
  }));
  return [...tests, ...traits].flatMap(({ fact, read }) => (read.ok ? [{ fact, likelihood: read.value }] : []));
}

/** What the kids of a doe and a buck would be at each locus that is followed. A buck from elsewhere counts as unknown. */
export const lociOutlook = (loci: readonly FollowedLocus[], buck: PairingBuck, doe: Animal): readonly LocusOutlook[] =>
  loci.map(({ locus, answer }) => {
    const sire = typeof buck.parent === "string" ? buck.parent : undefined;
    const breed = doe.breed === undefined ? {} : { breed: doe.breed };
    const [XX = [], XY = []] = CHROMOSOMAL_SEXES.map((sex) => answer.kid(sire, doe.id, { sex, ...breed }));
    const half = { XX: XX.map((p) => p / 2), XY: XY.map((p) => p / 2) };
    const genotypes =
      locus.inheritance === "autosomal" ? half.XX.map((p, g) => p + (half.XY[g] ?? 0)) : [...half.XX, ...half.XY];
    const names = genotypesOf(locus);
    return {
      locus: locus.id,
      name: locus.name,
      genotypes: genotypes.map((chance, g) => ({ genotype: names[g] ?? "", chance })),
      traits: (locus.traits ?? []).map((trait) => ({
        trait: trait.id,
        standing: trait.standing,
        phenotypes: phenotypeChances(trait, half).map((chance, k) => ({
          phenotype: trait.phenotypes[k] ?? "",
          chance,
        })),
      })),
    };
  });

import { CHROMOSOMAL_SEXES, type GenotypeAnswer, genotypesOf, type Locus, phenotypeChances } from "@pollard/genetics";
import type { Animal } from "@pollard/records";
import { locusAnswer } from "../belief/locus-answer.ts";
import { recordedLoci } from "../belief/findings.ts";
import type { Situation } from "../situation.ts";
import type { LocusOutlook, PairingBuck } from "./pairing-models.ts";

/** A locus beside horns of which something is on record in this herd. */
export interface FollowedLocus {
  readonly locus: Locus;
  readonly answer: GenotypeAnswer;
}

/**
 * The loci that the keeper follows beside horns: those of which a test or a trait of any animal is on record.
 *
 * Shape:  in the order in which loci ship, the keeper's own last.
 * Source: rule PA-20; the loci themselves are genetics'.
 */
export const followedLoci = (situation: Situation): readonly FollowedLocus[] =>
  recordedLoci(situation.herd).map((locus) => ({ locus, answer: locusAnswer(situation, locus) }));

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

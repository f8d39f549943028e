import type { Locus } from "../locus.ts";
import type { AnimalId, ChromosomalSex } from "../vocabulary.ts";

/** A buck that may be the sire, or an unknown one of the founder population. */
export interface SireCandidate {
  readonly sire: AnimalId | undefined;
  /** Prior weight among the candidates; they need not sum to 1. */
  readonly weight: number;
  /** How well he explains what is known of the kid elsewhere, such as at other loci; only ratios matter. 1 unless given. */
  readonly said?: number;
}

/** The litter that an animal was born in. */
export interface BirthLitter {
  /** Names the litter; the same for all its kids. */
  readonly id: string;
  /**
   * Chance that each kid draws its own sire from the candidates. Else one is drawn for all of the litter. 1 where mates tell
   * nothing of each other's sires.
   */
  readonly mixed: number;
}

/** One fact about one animal, as what it says of the genotype. */
export interface Evidence {
  /** Id of the record it comes from; names the fact in conflicts. */
  readonly fact: string;
  /**
   * P(the fact | sex, genotype), in the order of `genotypesOf(locus, sex)`. Only ratios between the numbers matter for
   * beliefs; their size enters the log-likelihood.
   */
  readonly likelihood: Readonly<Record<ChromosomalSex, readonly number[]>>;
}

/** One animal of a pedigree as the mathematics sees it. */
export interface Member {
  readonly id: AnimalId;
  readonly dam: AnimalId | undefined;
  /** Empty: unknown. One: known. Several: one of them. */
  readonly sires: readonly SireCandidate[];
  /** Litter mates with the same candidates at the same weights share their sire; without a litter a kid draws its own. */
  readonly litter?: BirthLitter;
  /**
   * Prior chance of XX chromosomes before any evidence. Whoever is a dam is XX, and whoever is the sire of some kid with
   * more than half of the weight is XY, whatever stands here. A less likely candidate was not the sire if he is XX.
   */
  readonly xx: number;
  /** Chooses the allele frequencies where a parent is unknown. */
  readonly breed: string | undefined;
  /** Chances of the genotypes (order of `genotypesOf(locus)`) of a founder, instead of Hardy-Weinberg. */
  readonly founderPrior?: readonly number[];
  readonly evidence: readonly Evidence[];
}

/** Everything the genotypes of a herd are inferred from, at one locus. */
export interface PedigreeProblem {
  readonly locus: Locus;
  readonly members: readonly Member[];
  /** Instead of the locus's own founder frequencies: one number per allele. */
  readonly frequencies?: FrequencyOverride;
}

/** Allele frequencies set by hand. A breed that is not listed takes `default`; without a default, the locus's own. */
export interface FrequencyOverride {
  readonly default?: readonly number[];
  readonly breeds?: Readonly<Record<string, readonly number[]>>;
}

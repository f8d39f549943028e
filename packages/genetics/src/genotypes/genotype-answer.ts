import type { AnimalId, ChromosomalSex } from "../vocabulary.ts";
import type { Conflict } from "../questions/conflicts.ts";
import type { Evidence } from "../pedigree/pedigree-problem.ts";
import type { GenotypeProblemIssue } from "../pedigree/sound-problem.ts";

/**
 * What to believe of one animal at a locus.
 *
 * Shape: `genotypes` in the order of `genotypesOf(locus)`, sum 1. `bySex` in the order of `genotypesOf(locus, sex)`;
 *        both lists together sum to 1, the XX one alone to `xx`.
 */
export interface GenotypeBelief {
  readonly genotypes: readonly number[];
  readonly bySex: Readonly<Record<ChromosomalSex, readonly number[]>>;
  /** Chance that the animal has XX chromosomes. */
  readonly xx: number;
}

/** A belief with the chance of each possible sire; empty where no sire is recorded. `undefined` is an unknown buck. */
export interface AnimalBelief extends GenotypeBelief {
  readonly sires: ReadonlyMap<AnimalId | undefined, number>;
}

/** One way who the sires of a few animals may be. */
export interface SiresTogether {
  readonly sires: readonly (AnimalId | undefined)[];
  readonly chance: number;
}

/** Chances of every combination of genotypes of a few animals. */
export interface JointBelief {
  readonly ids: readonly AnimalId[];
  /** Row-major over `ids` in the order of `genotypesOf(locus)`, the last animal fastest; sums to 1. */
  readonly chances: readonly number[];
}

/** What more to assume of a planned kid and its parents. */
export interface KidAssumptions {
  /** Chooses the founder frequencies for an unknown parent. */
  readonly breed?: string;
  /** Needed at an X-linked locus; without it both sexes are taken as equally likely. */
  readonly sex?: ChromosomalSex;
  /** What is assumed of the parents besides what is known, e.g. that the doe is fertile since she is to have a kid. */
  readonly dam?: Evidence["likelihood"];
  readonly sire?: Evidence["likelihood"];
}

/** The genotypes of a herd at one locus, as far as the evidence tells. */
export interface GenotypeAnswer {
  /** `approximate` if any family was too entangled for the exact method. */
  readonly method: "exact" | "approximate";
  /**
   * 0 if exact. Else the largest error of a chance that was found: the surroundings of some animals are worked out exactly
   * and compared. An estimate, no bound.
   */
  readonly error: number;
  /** Natural log of the probability of all evidence that was kept (of all, where there are no conflicts). */
  readonly logLikelihood: number;
  readonly conflicts: readonly Conflict[];
  /** What was wrong with the problem, and was mended. */
  readonly issues: readonly GenotypeProblemIssue[];
  /** @throws Bug for an animal that is not in the problem; so do the questions below. */
  belief(id: AnimalId): AnimalBelief;
  /** What would be believed of an animal without these facts of its own (without any of its own, if none are named). */
  forecast(id: AnimalId, facts?: readonly string[]): GenotypeBelief;
  /**
   * What a kid of these two would be, from the joint belief about its parents: they may share ancestors or kids, so
   * multiplying their separate beliefs would be wrong. `undefined` is an unknown animal of the founder population.
   *
   * Assumes: the dam is XX and the sire XY, where what is known allows it.
   * Shape:   order of `genotypesOf(locus, sex)`, sum 1; all 0 where the two cannot be parents.
   */
  kid(sire: AnimalId | undefined, dam: AnimalId | undefined, assuming?: KidAssumptions): readonly number[];
  /**
   * Who sired some animals, all of them together: litter mates may have one sire. Of animals of different litters each is
   * taken by itself.
   *
   * Shape: combinations with a chance, which sum to 1; their sires in the order of `ids`, `undefined` for an unknown buck.
   */
  siresTogether(ids: readonly AnimalId[]): readonly SiresTogether[];
  /** @throws Bug for the same animal twice, or more animals than can be listed (the product of their genotypes). */
  joint(ids: readonly AnimalId[]): JointBelief;
}

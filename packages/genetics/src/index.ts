// Words
export {
  type AnimalId,
  animalId,
  CHROMOSOMAL_SEXES,
  type ChromosomalSex,
  POLLED_GENOTYPES,
  type PolledBelief,
  type PolledGenotype,
} from "./vocabulary.ts";
// Loci
export {
  type AllelePair,
  allelePairs,
  breedKey,
  type FounderFrequencies,
  founderFrequencies,
  genotypesOf,
  type Locus,
} from "./locus.ts";
export { POLLED } from "./loci/polled.ts";
// Genotypes on a pedigree
export type {
  Evidence,
  FrequencyOverride,
  Member,
  PedigreeProblem,
  SireCandidate,
} from "./pedigree/pedigree-problem.ts";
export { checkProblem, type GenotypeProblemIssue } from "./pedigree/sound-problem.ts";
export { type InferenceOptions, inferGenotypes } from "./pedigree/infer-genotypes.ts";
export type {
  AnimalBelief,
  GenotypeAnswer,
  GenotypeBelief,
  JointBelief,
  KidAssumptions,
} from "./pedigree/genotype-answer.ts";
export type { Conflict, ParentLink } from "./pedigree/conflicts.ts";
// A bare problem from a file
export { type GenotypeFileProblem, parseGenotypeFile } from "./pedigree/genotype-file.ts";

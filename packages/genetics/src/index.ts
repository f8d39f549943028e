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
  type LocusAmount,
  type LocusTrait,
  type Standing,
} from "./locus.ts";
export { type LocusProblem, parseLocus } from "./loci/parse-locus.ts";
export { POLLED } from "./loci/polled.ts";
export {
  ALPHA_S1_CASEIN,
  BLUE_EYES,
  MPS_IIID,
  MYOTONIA,
  PRNP_146,
  PRNP_222,
  SHIPPED_LOCI,
  SHORT_EARS,
  WATTLES,
} from "./loci/shipped.ts";
export { carrierHerdYear, type PolledOutcome, polledOutcome } from "./loci/polled-herd.ts";
export { kidOfIndependent } from "./loci/segregation.ts";
// What is seen, as evidence
export {
  amountsOf,
  expectedAmount,
  phenotypeChances,
  TRAIT_ERROR,
  traitLikelihood,
  type TraitSeenProblem,
} from "./loci/trait.ts";
export { DNA_TEST_ERROR, type DnaTestProblem, dnaTestLikelihood } from "./loci/dna-test.ts";
export {
  FERTILE_DAM,
  FERTILE_SIRE,
  GROWN_HEAD_ERROR,
  grownHeadLikelihood,
  headLikelihood,
  INTERSEX_LOOKS,
  type KnobsSeen,
  knobsLikelihood,
  NO_POLLED_EVIDENCE,
  PP_BUCK_FERTILITY,
  type SexLook,
  sexLookLikelihood,
} from "./loci/polled-evidence.ts";
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
// Kinship
export {
  numberedPedigree,
  type NumberedPedigree,
  type Parentage,
  type PedigreeIssue,
} from "./kinship/numbered-pedigree.ts";
export { type Inbreeding, inbreeding } from "./kinship/inbreeding.ts";
export { kinship, kinshipToGroup, meanKinship } from "./kinship/kinship.ts";
export { type DoubtfulParentage, type ExpectedKinship, expectedKinship } from "./kinship/uncertain-kinship.ts";
export {
  type AncestorShare,
  effectiveAncestors,
  effectiveFounders,
  founderGenomes,
  founderShares,
  marginalAncestors,
} from "./kinship/founders.ts";
export {
  completeGenerations,
  effectiveSizeFromInbreeding,
  effectiveSizeFromNumbers,
  inbreedingRate,
} from "./kinship/effective-size.ts";

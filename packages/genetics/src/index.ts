// Words
export * from "./vocabulary.ts";
// Loci
export * from "./locus.ts";
export { type LocusProblem, parseLocus } from "./loci/parse-locus.ts";
export { POLLED } from "./loci/polled.ts";
export { carrierHerdYear, type PolledOutcome, polledOutcome } from "./loci/polled-herd.ts";
export { kidOfIndependent } from "./loci/segregation.ts";
export * from "./loci/shipped.ts";
// What is seen, as evidence
export { DNA_TEST_ERROR, type DnaTestProblem, dnaTestLikelihood } from "./loci/dna-test.ts";
export * from "./loci/polled-evidence.ts";
export * from "./loci/trait.ts";
// Genotypes on a pedigree
export type { Conflict, ParentLink } from "./questions/conflicts.ts";
export {
  explainConflicts,
  type ExplainedConflicts,
  type Explanation,
  explanations,
  RECORD_ERRORS,
  type RecordErrors,
  type Suspects,
  type WrongRecord,
} from "./questions/explanations.ts";
export * from "./genotypes/genotype-answer.ts";
export { type DrawnAnimal, type HerdDrawer, herdDrawer } from "./questions/herd-draws.ts";
export { type InferenceOptions, inferGenotypes } from "./genotypes/infer-genotypes.ts";
export { type LociAnswer, type LociOptions, inferLoci } from "./several-loci/several-loci.ts";
export { type FoundSires, toldMembers } from "./several-loci/told-members.ts";
export { type LayoutMemory, layoutMemory } from "./inference/layout-memory.ts";
export type * from "./pedigree/pedigree-problem.ts";
export * from "./questions/questions.ts";
export { type Surprise, surprises } from "./questions/surprises.ts";
export { checkProblem, type GenotypeProblemIssue } from "./pedigree/sound-problem.ts";
// A bare problem from a file
export { type GenotypeFileProblem, parseGenotypeFile } from "./pedigree/genotype-file.ts";
// Kinship
export * from "./kinship/effective-size.ts";
export * from "./kinship/founders.ts";
export * from "./kinship/gene-drop.ts";
export { type Inbreeding, inbreeding } from "./kinship/inbreeding.ts";
export * from "./kinship/kinship.ts";
export * from "./kinship/numbered-pedigree.ts";
export * from "./kinship/uncertain-kinship.ts";
// Counting kids
export * from "./segregation/binomial.ts";
export * from "./segregation/linkage.ts";
export * from "./segregation/progeny-test.ts";

import { countedOf, type FindingProblem, type LocusSettingProblem, type NamedFact } from "@pollard/advice";
import type { AnimalId, Explanation, GenotypeProblemIssue, Locus, LocusTrait, WrongRecord } from "@pollard/genetics";
import { sayHeadOf } from "./animals.ts";
import { sayCounted } from "./chances.ts";

/** What a locus is called; the keeper's own as the keeper called it. */
export const locusName = ({ name }: Pick<Locus, "id" | "name">): string => name;

/** What is wrong with a locus as a keeper described it, in one sentence; the words in quotes are the description's own. */
export function sayLocusProblem(problem: LocusSettingProblem): string {
  const at = problem.path === "$" ? "The description" : `"${problem.path}"`;
  switch (problem.code) {
    case "not-json":
      return "The description is not JSON.";
    case "comes-with-pollard":
      return `A locus "${problem.got}" comes with Pollard; choose another id.`;
    case "not-an-object":
      return `${at} should be names with values, in braces.`;
    case "not-text":
      return `${at} should be a text that is not empty.`;
    case "not-a-list":
      return `${at} should be a list, in square brackets.`;
    case "too-few-alleles":
      return `A locus needs at least two alleles; here it has ${problem.got}.`;
    case "too-many-alleles":
      return `A locus has at most ${problem.most} alleles; here it has ${problem.got}.`;
    case "allele-twice":
      return `Allele "${problem.got}" is there twice.`;
    case "not-one-of":
      return `${at} should be one of ${problem.allowed.join(", ")}.`;
    case "not-shares":
      return `${at} needs shares that sum to 1, named ${problem.names.join(", ")}.`;
  }
}

/** Why a trait or a test result on record says nothing at a locus. */
export function sayFindingProblem(problem: FindingProblem): string {
  switch (problem.code) {
    case "no-such-locus":
      return `There is no locus "${problem.got}"; there are ${problem.allowed.join(", ")}.`;
    case "unknown-trait":
      return problem.allowed.length === 0
        ? `Nothing of this locus can be seen, so "${problem.got}" says nothing.`
        : `"${problem.got}" is no trait of this locus; it has ${problem.allowed.join(", ")}.`;
    case "unknown-phenotype":
      return `"${problem.got}" is not known of this trait; it is one of ${problem.allowed.join(", ")}.`;
    case "unknown-allele":
      return `"${problem.got}" is no allele of this locus; it has ${problem.allowed.join(", ")}.`;
    case "not-one-or-two-alleles":
      return `A result has one allele or two; here it has ${problem.got}.`;
  }
}

/** How far a trait's inheritance can be relied on; `undefined` where studies agree. */
function sayStanding(standing: LocusTrait["standing"]): string | undefined {
  switch (standing) {
    case "established":
      return undefined;
    case "disputed":
      return "Sources disagree how this is inherited; the first view is taken.";
    case "belief":
      return "This is what people who keep goats say; no study is known.";
  }
}

/** What did not fit in a pedigree as it was given, and how it was taken: one sentence. */
function sayGenotypeIssue(issue: GenotypeProblemIssue): string {
  switch (issue.code) {
    case "locus-without-alleles":
      return `The locus "${issue.locus}" has no alleles, so nothing can be inferred.`;
    case "allele-twice":
      return `The locus "${issue.locus}" has allele "${issue.allele}" twice.`;
    case "bad-frequencies":
      return `The frequencies${issue.breed === undefined ? "" : ` of ${issue.breed}`} do not sum to 1; the usual ones are taken.`;
    case "duplicate-id":
      return `${issue.animal} is there twice; the first one counts.`;
    case "missing-dam":
    case "missing-sire":
      return `${issue.parent}, parent of ${issue.animal}, is not in the file; taken as unknown.`;
    case "own-ancestor":
      return `${issue.animal} would be its own ancestor; its parent ${issue.parent} is left out.`;
    case "dam-used-as-sire":
      return `${issue.parent} has kidded, so it is left out as sire of ${issue.animal}.`;
    case "sex-against-role":
      return `${issue.animal} is a ${issue.role}, against its sex; what it has done counts.`;
    case "bad-weight":
      return `The weight ${issue.got} of a sire of ${issue.animal} cannot be; it counts as 0.`;
    case "bad-litter":
      return `How often a litter has several sires cannot be ${issue.got}; ${issue.animal} counts alone.`;
    case "no-sire-left":
      return `What is said of the sires of ${issue.animal} leaves none; it is left out.`;
    case "bad-sex-chance":
      return `The sex chance ${issue.got} of ${issue.animal} cannot be; one half is taken.`;
    case "bad-likelihood":
      return `${issue.fact} could not happen with any genotype; it is left out.`;
    case "bad-founder-prior":
      return `The founder chances of ${issue.animal} do not sum to 1; usual ones are taken.`;
    case "founder-prior-unused":
      return `${issue.animal} has a parent in the file; its founder chances are not used.`;
  }
}

/** What a belief rests on, as a thing with a name: "the DNA test of Hazel". */
export function sayNamedFact({ of, about }: NamedFact, nameOf: (id: AnimalId) => string): string {
  const name = nameOf(of);
  switch (about) {
    case "look":
      return `the sex that ${name} was taken for`;
    case "fertility":
      return `that ${name} has had young`;
    case "readings":
      return `the readings of ${sayHeadOf(name)}`;
    case "vet-finding":
      return `what the vet found on ${name}`;
    case "growth":
      return `what grew on ${name}`;
    case "grown-head":
      return `the grown head of ${name}`;
    case "dna-test":
      return `the DNA test of ${name}`;
    case "trait":
      return `what was seen on ${name}`;
  }
}

/** One thing that may lie behind facts that do not go together, with its chance counted out. */
export function sayExplanation(
  explanation: Explanation,
  nameOf: (id: AnimalId) => string,
  factOf: (fact: string) => string,
): string {
  const chance = sayCounted(countedOf(explanation.chance, 100));
  switch (explanation.kind) {
    case "as-written":
      return `Everything is as written: ${chance}.`;
    case "several-wrong":
      return [
        `Several records are wrong at once: ${chance}.`,
        ...explanation.records.map((record) => `${sayWrongRecord(record, nameOf, factOf)}.`),
      ].join(" ");
    default:
      return `${sayWrongRecord(explanation, nameOf, factOf)}: ${chance}.`;
  }
}

/** The same of something that is on record as it should be: then a finding itself was mistaken. */
export const sayMisfitReason: typeof sayExplanation = (explanation, nameOf, factOf) =>
  explanation.kind === "as-written"
    ? `The names are right; a test or a look misled: ${sayCounted(countedOf(explanation.chance, 100))}.`
    : sayExplanation(explanation, nameOf, factOf);

function sayWrongRecord(
  record: WrongRecord,
  nameOf: (id: AnimalId) => string,
  factOf: (fact: string) => string,
): string {
  switch (record.kind) {
    case "wrong-parent":
      return `The ${record.link.parent} of ${nameOf(record.link.kid)} is another animal`;
    case "wrong-fact":
      return `This belongs to another animal: ${factOf(record.fact)}`;
  }
}

/** All that is said of loci, of what is on record at them, and of what does not go together. */
export const loci = {
  locusProblem: sayLocusProblem,
  findingProblem: sayFindingProblem,
  standing: sayStanding,
  genotypeIssue: sayGenotypeIssue,
  namedFact: sayNamedFact,
  explanation: sayExplanation,
  misfitReason: sayMisfitReason,
  name: locusName,
  look: (look: string): string => look,
} as const;

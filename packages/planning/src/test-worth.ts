import { present, type Probability, probability } from "@pollard/base";
import {
  type AllelePair,
  allelePairs,
  type AnimalId,
  DNA_TEST_ERROR,
  dnaTestLikelihood,
  type Evidence,
  type GenotypeAnswer,
  genotypesOf,
  inferGenotypes,
  type Member,
  type PedigreeProblem,
} from "@pollard/genetics";

/** What a test could say of each animal tested, how likely that is, and what could then be done about it. */
export interface TestOutcome {
  /** A genotype for each animal, in the order asked. */
  readonly results: readonly string[];
  readonly chance: Probability;
  /** Least expected loss once this is known. */
  readonly loss: number;
}

/** What testing some animals is worth before anything is decided. */
export interface TestWorth {
  readonly animals: readonly AnimalId[];
  /** Expected saving, in the unit of the losses; never below 0 but for rounding. The price is not taken off. */
  readonly worth: number;
  readonly outcomes: readonly TestOutcome[];
}

/** What the worth of a test is worked out from. */
export interface TestWorthQuestion {
  readonly problem: PedigreeProblem;
  /** Least expected loss of all that is to be decided (the plan, the coming heads), knowing this much. */
  readonly leastLoss: (answer: GenotypeAnswer) => number;
  /** How often a laboratory's result is wrong. */
  readonly error?: number;
}

/** What is known before any test, so that it is worked out once for all of them. */
export interface TestWorthStart {
  readonly question: TestWorthQuestion;
  readonly answer: GenotypeAnswer;
  readonly loss: number;
}

/** Results less likely than this are not looked into: they could not move the worth by anything shown. */
const NEVER = 1e-9;

/** Where all tests start from. */
export function beforeTests(question: TestWorthQuestion): TestWorthStart {
  const answer = inferGenotypes(question.problem);
  return { question, answer, loss: question.leastLoss(answer) };
}

/**
 * What it is worth to test these animals, before anything is decided.
 *
 * Every result that the laboratory could give is gone through; after each the whole herd is inferred anew and everything
 * decided anew. What is saved on average against deciding today is the expected value of the information.
 *
 * Shape:  outcomes in the order of the genotypes, the last animal's result changing fastest; chances sum to 1.
 * Cost:   three inferences and three plans for one animal, nine for two.
 * Source: expected value of sample information [raiffa-schlaifer1961]; rule PA-13.
 */
export function testWorth({ question, answer, loss }: TestWorthStart, animals: readonly AnimalId[]): TestWorth {
  const outcomes: TestOutcome[] = [];
  const { locus } = question.problem;
  const names = genotypesOf(locus);
  const results = allelePairs(locus).map((pair, g) => ({
    genotype: present(names[g], "a genotype"),
    likelihood: likelihoodOf(question, pair),
  }));
  const visit = (
    at: number,
    now: GenotypeAnswer,
    members: readonly Member[],
    seen: readonly string[],
    chance: number,
  ): void => {
    const id = animals[at];
    if (id === undefined) {
      outcomes.push({ results: seen, chance: probability(chance), loss: question.leastLoss(now) });
      return;
    }
    const { bySex } = now.belief(id);
    for (const { genotype, likelihood } of results) {
      const of = (sex: "XX" | "XY"): number => bySex[sex].reduce((sum, p, g) => sum + p * (likelihood[sex][g] ?? 0), 0);
      const here = chance * (of("XX") + of("XY"));
      if (here < NEVER) continue;
      const evidence = { fact: `planned test of ${id}`, likelihood };
      const known = members.map((m) => (m.id === id ? { ...m, evidence: [...m.evidence, evidence] } : m));
      visit(at + 1, inferGenotypes({ ...question.problem, members: known }), known, [...seen, genotype], here);
    }
  };
  visit(0, answer, question.problem.members, [], 1);
  const after = outcomes.reduce((sum, o) => sum + o.chance * o.loss, 0);
  const seen = outcomes.reduce((sum, o) => sum + o.chance, 0);
  return { animals, worth: loss - after / seen, outcomes };
}

function likelihoodOf({ problem, error }: TestWorthQuestion, pair: AllelePair): Evidence["likelihood"] {
  const alleles = pair.map((a) => present(problem.locus.alleles[a], "an allele"));
  const read = dnaTestLikelihood(problem.locus, alleles, error ?? DNA_TEST_ERROR.value);
  return present(read.ok ? read.value : undefined, "a result of the locus");
}

/**
 * What testing two animals together is worth: two results together may tell what neither does alone.
 *
 * Shape: every pair of the animals given, the worthiest first.
 */
export function testPairs(start: TestWorthStart, animals: readonly AnimalId[]): readonly TestWorth[] {
  return animals
    .flatMap((a, i) => animals.slice(i + 1).map((b) => testWorth(start, [a, b])))
    .sort((a, b) => b.worth - a.worth);
}

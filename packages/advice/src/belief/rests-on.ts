import {
  type AnimalId,
  beliefAcross,
  founderFrequencies,
  type FrequencyOverride,
  influences,
  type Locus,
} from "@pollard/genetics";
import type { Situation } from "../situation.ts";
import { locusAnswer, locusProblem, type NamedFact, namedFacts } from "./locus-answer.ts";

/** What the belief about one animal rests on. Chances in the order of `genotypesOf(locus)`. */
export interface RestsOn {
  readonly now: readonly number[];
  /** What would be believed without one fact; the fact that moves it most first. */
  readonly without: readonly {
    readonly fact: NamedFact;
    readonly chances: readonly number[];
    readonly shift: number;
  }[];
  /** What would be believed were the rarer alleles so many times as common among unknown parents. */
  readonly founders: readonly { readonly times: number; readonly chances: readonly number[] }[];
}

/** Facts that move a belief by less than this chance are not worth a line. */
const SMALLEST_SHIFT = 0.005;
/** How much rarer or commoner the rarer alleles are tried: the usual frequencies are rough. */
const TIMES = [0.5, 2] as const;
/** Largest share of the rarer alleles together that is tried. */
const MOST_RARE = 0.95;

/**
 * What the belief about one animal at a locus rests on: "without this reading: …", and how far it leans on what is assumed of
 * animals of unknown parents.
 *
 * Cost:   one inference for each fact of the animal and its nearest.
 * Source: rule AD-52.
 */
export function restsOn(situation: Situation, locus: Locus, animal: AnimalId): RestsOn {
  const problem = locusProblem(situation, locus);
  const answer = locusAnswer(situation, locus);
  const facts = namedFacts(situation, locus);
  const without = influences(problem, answer, animal).flatMap(({ fact, without: chances, shift }) => {
    const named = facts.get(fact);
    return named === undefined || shift < SMALLEST_SHIFT ? [] : [{ fact: named, chances, shift }];
  });
  const tried = TIMES.map((times) => scaled(locus, problem.frequencies?.default, times));
  const founders = beliefAcross(problem, animal, tried).map((chances, i) => ({ times: TIMES[i] ?? 1, chances }));
  return { now: answer.belief(animal).genotypes, without, founders };
}

/** Every breed's frequencies with all but the commonest allele so many times as common. */
function scaled(locus: Locus, own: readonly number[] | undefined, times: number): FrequencyOverride {
  const rescale = (breed: string | undefined): readonly number[] => {
    const value = own ?? founderFrequencies(locus.founders, breed).value;
    const common = value.indexOf(Math.max(...value));
    const rare = value.reduce((sum, f, a) => (a === common ? sum : sum + f), 0);
    const factor = rare === 0 ? 1 : Math.min(times, MOST_RARE / rare);
    return value.map((f, a) => (a === common ? 1 - rare * factor : f * factor));
  };
  const breeds = Object.keys(locus.founders.breeds).map((breed) => [breed, rescale(breed)] as const);
  return { default: rescale(undefined), breeds: Object.fromEntries(breeds) };
}

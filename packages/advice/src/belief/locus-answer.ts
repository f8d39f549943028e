import {
  type AnimalId,
  type GenotypeAnswer,
  inferGenotypes,
  type Locus,
  type PedigreeProblem,
  POLLED,
  toldMembers,
} from "@pollard/genetics";
import type { Situation } from "../situation.ts";
import { problemAt } from "./findings.ts";
import type { OwnFact } from "./own-facts.ts";

/**
 * What every animal carries at a locus.
 *
 * At the polled locus and those that the herd follows that is the herd's one belief. Of a locus of which nothing is on record
 * the pedigree and the belief about each sire are all there is.
 *
 * Cost:   one inference, if the locus is not followed.
 * Source: rules AD-51, AD-53; the loci themselves are genetics'.
 */
export const locusAnswer = (situation: Situation, locus: Locus): GenotypeAnswer =>
  situation.beliefs.loci.get(locus.id)?.answer ??
  inferGenotypes(locusProblem(situation, locus), { layouts: situation.layouts });

/** What `locusAnswer` is inferred from, for whoever asks further. */
export function locusProblem({ herd, beliefs }: Situation, locus: Locus): PedigreeProblem {
  const known = beliefs.loci.get(locus.id);
  if (known !== undefined) return known.problem;
  return problemAt(herd, locus, toldMembers(beliefs.problem, { together: beliefs.answer }));
}

/** A fact that an inference at a locus rests on: whose it is, and what kind of finding. */
export interface NamedFact {
  readonly of: AnimalId;
  readonly about: OwnFact["about"];
}

/** What each fact of `locusProblem` is, by the name it has there. */
export function namedFacts({ herd, beliefs }: Situation, locus: Locus): ReadonlyMap<string, NamedFact> {
  const facts = new Map<string, NamedFact>();
  for (const { id, tests } of herd.animals.values()) {
    if (locus.id === POLLED.id) for (const { fact, about } of beliefs.facts(id)) facts.set(fact, { of: id, about });
    else for (const { entry } of tests) facts.set(entry, { of: id, about: "dna-test" });
  }
  if (locus.id !== POLLED.id)
    for (const { id, traits } of herd.animals.values())
      for (const { entry } of traits) facts.set(entry, { of: id, about: "trait" });
  return facts;
}

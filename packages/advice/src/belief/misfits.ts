import { type Probability, probability, type Sourced } from "@pollard/base";
import {
  type AnimalId,
  CHROMOSOMAL_SEXES,
  type Conflict,
  type Evidence,
  explainConflicts,
  type Explanation,
  explanations,
  type Locus,
  type ParentLink,
  POLLED,
  type SireCandidate,
  type Suspects,
} from "@pollard/genetics";
import type { Animal, EntryId } from "@pollard/records";
import { animalRef } from "../animal-ref.ts";
import type { AdviceProblem } from "../problem-models.ts";
import type { Situation } from "../situation.ts";
import { type NamedFact, namedFacts } from "./locus-answer.ts";
import type { LocusBeliefs } from "./loci-together.ts";

/**
 * How badly a finding must fit the rest before the keeper is asked about it: it was expected less than one time in fifty
 * of its best case.
 */
const HARD_TO_BELIEVE: Sourced<number> = { value: 0.02, source: "judgement", checked: "judgement" };

/** Chance that no recorded buck is the sire, from which the keeper is asked: it began at about one in eighty. */
const WRONG_SIRE_DOUBT: Sourced<number> = { value: 0.25, source: "judgement", checked: "judgement" };

/** A fact that goes against how a locus is inherited. */
export type Misfit = Extract<AdviceProblem, { readonly code: "cannot-be" | "hard-to-believe" }>;

/**
 * What does not fit how horns and every other locus that the herd follows are inherited: what cannot be, locus by locus, then
 * what is hard to believe, the oddest first.
 *
 * Shape:  an animal that is hard to believe stands there once, at the locus where it fits worst; one whose sire is in doubt at
 *         the locus that speaks most against him.
 * Source: rules AD-18, AD-19, AD-54.
 */
export function misfits(situation: Situation): readonly Misfit[] {
  const followed = [...situation.beliefs.loci.values()];
  return [...followed.flatMap((locus) => contradictions(situation, locus)), ...doubts(situation, followed)];
}

/** What may lie behind something that does not fit, the likeliest first, and what the facts in it are. */
export interface MisfitReasons {
  readonly explanations: readonly Explanation[];
  readonly facts: readonly (NamedFact & { readonly fact: string })[];
}

/**
 * Each record about it supposed wrong in turn, and the whole herd weighed anew.
 *
 * Shape:  no explanations where none of those records alone, and no few of them together, would make it fit.
 * Cost:   one likelihood of the family for each record.
 * Source: rule AD-54; genetics' GE-30, GE-34.
 */
export function misfitReasons(situation: Situation, { code, locus: { id, suspects } }: Misfit): MisfitReasons {
  const known = situation.beliefs.loci.get(id);
  if (known === undefined) return { explanations: [], facts: [] };
  const { problem, answer } = known;
  const isPart = (conflict: Conflict): boolean => conflict.facts.every((f) => suspects.facts.includes(f));
  const found =
    code === "cannot-be"
      ? (explainConflicts(problem, answer).find(({ conflicts }) => conflicts.some(isPart))?.explanations ?? [])
      : explanations(problem, suspects);
  const names = namedFacts(situation, problem.locus);
  const named = found
    .flatMap((e) => (e.kind === "several-wrong" ? e.records : e.kind === "as-written" ? [] : [e]))
    .flatMap((record) => (record.kind === "wrong-fact" ? [record.fact] : []));
  const facts = [...new Set(named)].flatMap((fact) => {
    const name = names.get(fact);
    return name === undefined ? [] : [{ fact, ...name }];
  });
  return { explanations: found, facts };
}

/** One finding on an animal at a locus. */
interface Found extends Evidence {
  readonly entries: readonly EntryId[];
  readonly leans: "horned" | "polled" | "neither";
}

/** What an animal's belief at a locus rests on, of its own; what follows from others' entries has none of its own. */
function foundOn({ beliefs, herd }: Situation, { problem }: LocusBeliefs, id: AnimalId): readonly Found[] {
  if (problem.locus.id === POLLED.id) return beliefs.facts(id);
  const animal = herd.animals.get(id);
  const entries = animal === undefined ? [] : [...animal.tests, ...animal.traits].map(({ entry }) => entry);
  const evidence = problem.members.find((m) => m.id === id)?.evidence ?? [];
  return evidence.map((e) => ({ ...e, entries: entries.filter((entry) => entry === e.fact), leans: "neither" }));
}

/** Sets of facts that cannot all be true, each as small as can be. */
function contradictions(situation: Situation, at: LocusBeliefs): readonly Misfit[] {
  return at.answer.conflicts.map((conflict) => {
    const kids = new Set(conflict.links.map((l) => l.kid));
    const factsOf = (id: AnimalId): readonly Found[] =>
      foundOn(situation, at, id).filter((f) => conflict.facts.includes(f.fact));
    return {
      code: "cannot-be",
      locus: placeOf(at.problem.locus, conflict),
      entries: [...new Set(conflict.animals.flatMap(factsOf).flatMap((f) => f.entries))],
      animals: conflict.animals.map((id) => animalRef(situation.herd, id)),
      what: whatIsOdd(conflict.animals.filter((id) => kids.has(id)).flatMap(factsOf)),
    };
  });
}

const placeOf = ({ id, name }: Locus, { facts, links }: Suspects): Misfit["locus"] => ({
  id,
  name,
  suspects: { facts, links },
});

interface Doubt {
  readonly animal: Animal;
  readonly at: LocusBeliefs;
  readonly worst: Found;
  readonly wrong: Probability;
  readonly fit: number;
}

/**
 * Findings that the rest of the herd's record makes hard to believe, the oddest first.
 *
 * An animal whose recorded sire is likely not its sire is one of them. A parent that looks odd only because of such a kid
 * is not named beside it.
 */
function doubts(situation: Situation, followed: readonly LocusBeliefs[]): readonly Misfit[] {
  const found = [...situation.herd.animals.values()].flatMap((animal): readonly Doubt[] => {
    const wrong = wrongSire(situation, animal);
    const [worst] = followed
      .flatMap((at) =>
        foundOn(situation, at, animal.id)
          .filter((f) => f.entries.length > 0)
          .map((own) => ({ animal, at, worst: own, wrong, fit: fitOf(at, animal, own) })),
      )
      .sort((a, b) => (wrong >= WRONG_SIRE_DOUBT.value ? saysStranger(b) - saysStranger(a) : 0) || a.fit - b.fit);
    return worst !== undefined && (worst.fit < HARD_TO_BELIEVE.value || wrong >= WRONG_SIRE_DOUBT.value) ? [worst] : [];
  });
  const explained = new Set(
    found
      .filter((f) => f.wrong >= WRONG_SIRE_DOUBT.value)
      .flatMap((f) => [f.animal.dam, ...situation.beliefs.sires(f.animal.id).map(([sire]) => sire)]),
  );
  return found
    .filter((f) => !explained.has(f.animal.id))
    .sort((a, b) => a.fit - b.fit)
    .map((doubt) => ({
      code: "hard-to-believe",
      locus: placeOf(doubt.at.problem.locus, suspectsOf(situation, doubt)),
      entries: doubt.worst.entries,
      animal: animalRef(situation.herd, doubt.animal.id),
      what: whatIsOdd([doubt.worst]),
      wrongSire: doubt.wrong,
    }));
}

/** How many times as likely the locus by itself makes it that nobody on record is the sire. */
function saysStranger({ at: { problem, answer }, animal: { id } }: Doubt): number {
  const sires = problem.members.find((m) => m.id === id)?.sires ?? [];
  const weigh = (of: readonly SireCandidate[]): number =>
    of.reduce((sum, { weight, said = 1 }) => sum + weight * said, 0);
  const before = weigh(sires.filter(({ sire }) => sire === undefined)) / (weigh(sires) || 1);
  return before > 0 ? (answer.belief(id).sires.get(undefined) ?? 0) / before : 1;
}

/** Fit below which what was found on a kid may be what makes its parent look odd. */
const ODD_KID = 5 * HARD_TO_BELIEVE.value;

/** The finding itself, what was found on the animal's parents and on kids that fit badly, and who these are the kids of. */
function suspectsOf(situation: Situation, { at, animal, worst }: Doubt): Suspects {
  const foundHere = (id: AnimalId): readonly Found[] => foundOn(situation, at, id).filter((f) => f.entries.length > 0);
  const kids = situation.kidsOf(animal.id).filter((kid) => foundHere(kid.id).some((f) => fitOf(at, kid, f) < ODD_KID));
  const parents = [animal.dam, ...animal.sires].filter((p) => p !== undefined);
  const theirs = [...parents, ...kids.map((kid) => kid.id)].flatMap(foundHere).map((f) => f.fact);
  const links = [animal, ...kids].flatMap((kid) => linksOf(situation, kid));
  return { facts: [...new Set([worst.fact, ...theirs])], links };
}

const linksOf = ({ beliefs }: Situation, { id, dam }: Animal): readonly ParentLink[] => [
  ...(beliefs.sires(id).length > 0 ? [{ kid: id, parent: "sire" as const }] : []),
  ...(dam === undefined ? [] : [{ kid: id, parent: "dam" as const }]),
];

/** How well a finding fits what is believed without it: its chance, against that of the genotype it fits best. */
function fitOf({ answer }: LocusBeliefs, animal: Animal, own: Found): number {
  const { bySex } = answer.forecast(animal.id, [own.fact]);
  let expected = 0;
  let best = 0;
  for (const sex of CHROMOSOMAL_SEXES)
    for (const [g, likelihood] of own.likelihood[sex].entries()) {
      expected += likelihood * (bySex[sex][g] ?? 0);
      best = Math.max(best, likelihood);
    }
  return best === 0 ? 1 : expected / best;
}

/** Chance that the sire is none of those on record; 0 where none is. */
function wrongSire({ beliefs }: Situation, animal: Animal): Probability {
  const unknown = beliefs.sires(animal.id).find(([sire]) => sire === undefined);
  return unknown?.[1] ?? probability(0);
}

function whatIsOdd(facts: readonly Pick<Found, "leans">[]): Misfit["what"] {
  const leans = new Set(facts.map((f) => f.leans).filter((l) => l !== "neither"));
  if (leans.size !== 1) return "other";
  return leans.has("horned") ? "horned-kid-of-polled" : "polled-kid-of-horned";
}

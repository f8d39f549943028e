import { present, type Probability, probability } from "@pollard/base";
import {
  type AnimalId,
  type GenotypeAnswer,
  type GenotypeBelief,
  inferGenotypes,
  type LayoutMemory,
  layoutMemory,
  type Member,
  type PedigreeProblem,
  POLLED,
  type PolledBelief,
} from "@pollard/genetics";
import type { Animal, Herd } from "@pollard/records";
import { type HerdHeads, learntHeads } from "../heads/learnt-heads.ts";
import { frequenciesFor } from "./loci.ts";
import { type OwnFact, ownFacts } from "./own-facts.ts";
import { herdBreedOf } from "../settings.ts";
import { sireCandidates } from "./sires.ts";

/** What is believed of every animal's polled genotype, from everything recorded, by one inference over the whole herd. */
export interface Beliefs {
  /** The tables that heads were read with. */
  readonly heads: HerdHeads;
  readonly answer: GenotypeAnswer;
  /** What it was inferred from. */
  readonly problem: PedigreeProblem;
  /** From everything known. */
  polled(id: AnimalId): PolledBelief;
  /** Without these facts of the animal's own; without any of its own, if none are named. */
  forecast(id: AnimalId, without?: readonly string[]): PolledBelief;
  /** Who may be the sire, after everything known; `undefined` is a buck nobody wrote down. Likeliest first. */
  sires(id: AnimalId): readonly (readonly [AnimalId | undefined, Probability])[];
  /** The facts of the animal's own that the belief rests on. */
  facts(id: AnimalId): readonly OwnFact[];
}

/** Chance of XX chromosomes before anything is seen: sex ratios at birth scatter around one half in the published herds. */
const XX_BEFORE_LOOKING = 0.5;

/**
 * What the herd's records say about who carries what.
 *
 * Every animal is a member of one pedigree; its own findings are evidence; a written sire is believed but for the error
 * rate of herd books.
 *
 * Cost:   one exact inference; see genetics.
 * Source: rules AD-2 to AD-4.
 */
export function believe(
  herd: Herd,
  heads: HerdHeads = learntHeads(herd),
  layouts: LayoutMemory = layoutMemory(),
): Beliefs {
  const breed = herdBreedOf(herd);
  const facts = new Map<AnimalId, readonly OwnFact[]>();
  const parents = parentsOf(herd);
  for (const animal of herd.animals.values()) facts.set(animal.id, ownFacts(herd, animal, parents, heads.tables));
  const members = [...herd.animals.values()].map((animal) => memberOf(herd, animal, breed, facts.get(animal.id) ?? []));
  const problem = { locus: POLLED, members, ...frequenciesFor(herd, POLLED) };
  const answer = inferGenotypes(problem, { layouts });
  return {
    heads,
    answer,
    problem,
    polled: (id) => polledBelief(answer.belief(id)),
    forecast: (id, without) => polledBelief(answer.forecast(id, without)),
    sires: (id) =>
      [...answer.belief(id).sires].map(([sire, p]) => [sire, probability(p)] as const).sort((a, b) => b[1] - a[1]),
    facts: (id) => facts.get(id) ?? [],
  };
}

function memberOf(herd: Herd, animal: Animal, breed: string | undefined, facts: readonly OwnFact[]): Member {
  return {
    id: animal.id,
    dam: animal.dam,
    sires: sireCandidates(herd, animal, breed),
    xx: XX_BEFORE_LOOKING,
    breed: animal.breed ?? breed,
    evidence: facts.map(({ fact, likelihood }) => ({ fact, likelihood })),
  };
}

/** Animals that have had young by the record, which proves them fertile: dams, and the only recorded sires. */
function parentsOf(herd: Herd): ReadonlySet<AnimalId> {
  const parents = new Set<AnimalId>();
  for (const animal of herd.animals.values()) {
    if (animal.dam !== undefined) parents.add(animal.dam);
    const [sire, ...others] = animal.sires;
    if (sire !== undefined && others.length === 0) parents.add(sire);
  }
  return parents;
}

function polledBelief({ genotypes }: GenotypeBelief): PolledBelief {
  const at = (i: number) => probability(present(genotypes[i], "a genotype's chance"));
  return { PP: at(0), Pp: at(1), pp: at(2) };
}

import { present, type Probability, probability } from "@pollard/base";
import {
  type AnimalId,
  type GenotypeAnswer,
  type GenotypeBelief,
  type LayoutMemory,
  layoutMemory,
  type Member,
  type PedigreeProblem,
  POLLED,
  type PolledBelief,
  type SiresTogether,
} from "@pollard/genetics";
import type { Animal, Herd } from "@pollard/records";
import { type HerdHeads, learntHeads } from "../heads/learnt-heads.ts";
import { frequenciesFor } from "./herd-loci.ts";
import { problemAt, recordedLoci } from "./findings.ts";
import { believeTogether, type LocusBeliefs } from "./loci-together.ts";
import { type OwnFact, ownFacts, type ParentRole } from "./own-facts.ts";
import { herdBreedOf } from "../settings.ts";
import { type HandedSires, herdSires } from "./sires.ts";

/** What is believed of every animal's polled genotype, and at the other loci that the herd follows, from everything recorded. */
export interface Beliefs {
  /** The tables that heads were read with. */
  readonly heads: HerdHeads;
  readonly answer: GenotypeAnswer;
  /** What it was inferred from. */
  readonly problem: PedigreeProblem;
  /** The same of every locus that the herd follows, by its id; the polled one first. */
  readonly loci: ReadonlyMap<string, LocusBeliefs>;
  /** From everything known. */
  polled(id: AnimalId): PolledBelief;
  /** Without these facts of the animal's own; without any of its own, if none are named. */
  forecast(id: AnimalId, without?: readonly string[]): PolledBelief;
  /** Who may be the sire, after everything known; `undefined` is a buck nobody wrote down. Likeliest first. */
  sires(id: AnimalId): readonly (readonly [AnimalId | undefined, Probability])[];
  /** Who sired some animals, all of them together: litter mates may have one sire. As `siresTogether` of genetics gives it. */
  siresTogether(ids: readonly AnimalId[]): readonly SiresTogether[];
  /** The facts of the animal's own that the belief rests on. */
  facts(id: AnimalId): readonly OwnFact[];
}

/** Chance of XX chromosomes before anything is seen: sex ratios at birth scatter around one half in the published herds. */
const XX_BEFORE_LOOKING = 0.5;

/**
 * What the herd's records say about who carries what.
 *
 * Every animal is a member of one pedigree; its own findings are evidence; a written sire is believed but for the error
 * rate of herd books; litter mates have one sire, but for the share of litters that have several. What other loci say of a sire counts for horns, and the other way round.
 *
 * Cost:   one inference for each locus of which something is on record; see `believeTogether`.
 * Source: rules AD-2 to AD-4, AD-53, AD-103.
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
  const sires = herdSires(herd, breed);
  const members = [...herd.animals.values()].map((animal) =>
    memberOf(animal, present(sires.get(animal.id), "an animal's sires"), breed, facts.get(animal.id) ?? []),
  );
  const followed = recordedLoci(herd);
  const together = believeTogether(
    [
      { locus: POLLED, members, ...frequenciesFor(herd, POLLED) },
      ...followed.map((locus) => problemAt(herd, locus, members)),
    ],
    layouts,
  );
  const { answer, problem } = present(together[0], "the polled locus");
  return {
    heads,
    answer,
    problem,
    loci: new Map(together.map((each) => [each.problem.locus.id, each])),
    polled: (id) => polledBelief(answer.belief(id)),
    forecast: (id, without) => polledBelief(answer.forecast(id, without)),
    sires: (id) =>
      [...answer.belief(id).sires].map(([sire, p]) => [sire, probability(p)] as const).sort((a, b) => b[1] - a[1]),
    siresTogether: (ids) => answer.siresTogether(ids),
    facts: (id) => facts.get(id) ?? [],
  };
}

function memberOf(animal: Animal, sires: HandedSires, breed: string | undefined, facts: readonly OwnFact[]): Member {
  return {
    id: animal.id,
    dam: animal.dam,
    ...sires,
    xx: XX_BEFORE_LOOKING,
    breed: animal.breed ?? breed,
    evidence: facts.map(({ fact, likelihood }) => ({ fact, likelihood })),
  };
}

/** Animals that have had young by the record, which proves them fertile: dams, and the only recorded sires. */
function parentsOf(herd: Herd): ReadonlyMap<AnimalId, ParentRole> {
  const parents = new Map<AnimalId, ParentRole>();
  const animals = [...herd.animals.values()];
  for (const { sires } of animals) {
    const [sire, ...others] = sires;
    if (sire !== undefined && others.length === 0) parents.set(sire, "sire");
  }
  for (const { dam } of animals) if (dam !== undefined) parents.set(dam, "dam");
  return parents;
}

function polledBelief({ genotypes }: GenotypeBelief): PolledBelief {
  const at = (i: number) => probability(present(genotypes[i], "a genotype's chance"));
  return { PP: at(0), Pp: at(1), pp: at(2) };
}

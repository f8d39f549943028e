import type { AnimalId } from "@pollard/genetics";
import { type Probability, probability, type Sourced } from "@pollard/base";
import type { Animal } from "@pollard/records";
import { animalRef } from "./animal-ref.ts";
import { counted, countedOf } from "./counted.ts";
import { kidModel, mayBeIntersex } from "./heads/kid-model.ts";
import type { AnimalLine, AnimalModel, GenotypeSaid } from "./animal-models.ts";
import type { Counted } from "./counted.ts";
import type { Situation } from "./situation.ts";
import { truthOf } from "./heads/truths.ts";

/** Chances from which a genotype is called near-sure, and likely. Where words change; our judgement. */
const SURETY: Sourced<{ readonly nearSure: number; readonly likely: number }> = {
  value: { nearSure: 0.99, likely: 0.9 },
  source: "judgement",
  checked: "judgement",
};
/** Chance left for everything else below which the answer follows from the record by logic, not by counting. */
const LOGIC = 1e-12;

/** Everything a page about one animal says. `undefined` for an animal the herd does not know. */
export function animalModel(situation: Situation, id: AnimalId): AnimalModel | undefined {
  const { herd, beliefs } = situation;
  const animal = herd.animals.get(id);
  if (animal === undefined) return undefined;
  return {
    ref: animalRef(herd, id),
    animal,
    dam: animal.dam === undefined ? undefined : animalRef(herd, animal.dam),
    sires: beliefs
      .sires(id)
      .map(([sire, chance]) => ({ sire: sire === undefined ? undefined : animalRef(herd, sire), chance })),
    kids: situation.kidsOf(id).map((k) => animalRef(herd, k.id)),
    genotype: genotypeSaid(situation, animal),
    kid: kidModel(situation, id),
    intersexWatch: mayBeIntersex(situation, animal),
  };
}

/** The animals as a list: those in the herd first, the youngest first, then those that have left. */
export function animalLines(situation: Situation): readonly AnimalLine[] {
  const { herd } = situation;
  return [...herd.animals.values()]
    .map((animal) => {
      const said = genotypeSaid(situation, animal);
      return {
        ref: animalRef(herd, animal.id),
        chip: animal.chip,
        born: animal.born,
        gone: animal.departure !== undefined || animal.bornAs === "dead",
        urgency: undefined,
        surety: said.surety,
        head: headOf(animal, said),
      };
    })
    .sort((a, b) => Number(a.gone) - Number(b.gone) || compareBorn(a.born, b.born) || (a.ref.id < b.ref.id ? -1 : 1));
}

const compareBorn = (a: string | undefined, b: string | undefined): number =>
  a === b ? 0 : a === undefined ? 1 : b === undefined ? -1 : a > b ? -1 : 1;

/** What a head is, as seen; where nothing was seen, as believed if that is likely; a disbudded head is just that. */
function headOf(animal: Animal, said: GenotypeSaid): AnimalLine["head"] {
  const outcome = animal.outcomes.at(-1);
  if (outcome?.left === "horn" || outcome?.right === "horn") return "horned";
  if (animal.disbuddings.some((d) => d.done !== "not-done")) return "disbudded";
  if (animal.head !== undefined && animal.head.head !== "unsure") return animal.head.head;
  if (said.surety === "open" && Math.max(said.belief.pp, 1 - said.belief.pp) < SURETY.value.likely) return "unknown";
  return said.belief.pp > 0.5 ? "horned" : "polled";
}

/** What animals carry is counted on one denominator, so that many of them can stand on one page. */
const EVERYDAY = 20;

/** What is known of an animal's polled genotype, how surely, and what it leans on. */
export function genotypeSaid(situation: Situation, animal: Animal): GenotypeSaid {
  const belief = situation.beliefs.polled(animal.id);
  const known = situation
    .kidsOf(animal.id)
    .map((kid) => truthOf(kid)?.head)
    .filter((head) => head !== undefined);
  const best = Math.max(belief.PP, belief.Pp, belief.pp);
  const surety =
    1 - best < LOGIC
      ? "proven"
      : best >= SURETY.value.nearSure
        ? "near-sure"
        : best >= SURETY.value.likely
          ? "likely"
          : "open";
  const counts = (chance: Probability): Counted =>
    surety === "proven" ? counted(chance, surety) : countedOf(chance, EVERYDAY);
  return {
    belief,
    surety,
    polled: counts(probability(belief.PP + belief.Pp)),
    carrier: counts(belief.Pp),
    kidsKnown: known.length,
    kidsHorned: known.filter((head) => head === "horned").length,
    tests: animal.tests.filter((t) => t.locus === "polled").length,
  };
}

import type { AnimalId } from "@pollard/genetics";
import { headWarnings } from "@pollard/husbandry";
import type { Animal } from "@pollard/records";
import { animalRef } from "../animal-ref.ts";
import { hornsBelief } from "./horns-belief.ts";
import { headReadingsOf, kidAges } from "./kid-facts.ts";
import type { KidModel } from "./kid-models.ts";
import { readersApart } from "./readers-apart.ts";
import type { Situation } from "../situation.ts";
import { latestChoice } from "../today/vet-list.ts";

/**
 * Chance of two polled genes from which a doe-looking kid is watched for signs of intersex: one in fifty. A kid of one
 * horned parent stays below it, a polled kid of two polled parents (about one in nine) well above.
 */
const WATCH_FROM = { value: 0.02, source: "judgement", checked: "judgement" } as const;

/** Everything a screen says of one kid's head. `undefined` where the birth date is not on record or the animal unknown. */
export function kidModel(situation: Situation, id: AnimalId): KidModel | undefined {
  const { herd, beliefs, today } = situation;
  const animal = herd.animals.get(id);
  const ages = animal === undefined ? undefined : kidAges(herd, animal, today);
  const advice = animal === undefined ? undefined : situation.advice(id);
  if (animal === undefined || ages === undefined || advice === undefined) return undefined;
  const chosen = latestChoice(animal);
  return {
    kid: animalRef(herd, id),
    dam: animal.dam === undefined ? undefined : animalRef(herd, animal.dam),
    sires: beliefs
      .sires(id)
      .map(([sire, chance]) => ({ sire: sire === undefined ? undefined : animalRef(herd, sire), chance })),
    ages,
    belief: hornsBelief(situation, animal),
    advice,
    chosen: chosen === undefined ? undefined : { choice: chosen.choice, day: chosen.day },
    apart: readersApart(headReadingsOf(animal, ages)),
    fourBuds: headWarnings(headReadingsOf(animal, ages)).some((w) => w.code === "four-horned"),
    intersexWatch: mayBeIntersex(situation, animal),
  };
}

/** Whether intersex is to be ruled out before this animal is bred from or sold as breeding stock. */
export function mayBeIntersex({ beliefs }: Situation, animal: Animal): boolean {
  if (animal.sex === "intersex") return true;
  if (animal.sex !== "doe" && animal.sex !== "unsure") return false;
  return beliefs.polled(animal.id).PP >= WATCH_FROM.value;
}

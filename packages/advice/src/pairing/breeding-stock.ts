import { daysFrom, type Sourced } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import type { Animal } from "@pollard/records";
import { animalRef } from "../animal-ref.ts";
import { mayBeIntersex } from "../heads/kid-model.ts";
import type { AnimalRef } from "../animal-ref.ts";
import type { Situation } from "../situation.ts";

/** Age in days from which a goat is bred: about seven months; by weight the vet or an old hand knows better. */
const BREEDING_AGE: Sourced<number> = { value: 210, source: "common-practice", checked: "common-practice" };

/** Why a goat of the herd is not among those to be paired. */
export type NotBred = "too-young" | "intersex-not-ruled-out" | "cannot-breed";

/** The goats of a herd that a year's pairings choose from, and those that are left out with the reason. */
export interface BreedingStock {
  readonly does: readonly Animal[];
  readonly bucks: readonly Animal[];
  readonly leftOut: readonly { readonly animal: AnimalRef; readonly why: NotBred }[];
}

/**
 * Who can be paired today: does and bucks that are here, old enough, and not under watch for intersex.
 *
 * A polled goat of two polled parents that looks like a doe is left out until a test, the vet or a kid of her own clears her.
 *
 * Shape:  each list by name, then id. Wethers are in none of them.
 * Source: rule PA-4; [hancock-louca1975] for the watch.
 */
export function breedingStock(situation: Situation): BreedingStock {
  const { herd, today } = situation;
  const does: Animal[] = [];
  const bucks: Animal[] = [];
  const leftOut: { animal: AnimalRef; why: NotBred }[] = [];
  for (const animal of [...herd.animals.values()].sort(byName)) {
    if (animal.departure !== undefined || animal.bornAs === "dead" || animal.sex === "wether") continue;
    const why = reasonAgainst(situation, animal);
    if (why !== undefined) leftOut.push({ animal: animalRef(herd, animal.id), why });
    else if (animal.born !== undefined && daysFrom(animal.born, today) < BREEDING_AGE.value)
      leftOut.push({ animal: animalRef(herd, animal.id), why: "too-young" });
    else if (animal.sex === "doe") does.push(animal);
    else bucks.push(animal);
  }
  return { does, bucks, leftOut };
}

function reasonAgainst(situation: Situation, animal: Animal): NotBred | undefined {
  if (animal.sex === "intersex") return "cannot-breed";
  return mayBeIntersex(situation, animal) || animal.sex === "unsure" ? "intersex-not-ruled-out" : undefined;
}

const byName = (a: Animal, b: Animal): number => {
  const [x, y] = [a.name ?? a.tag ?? "", b.name ?? b.tag ?? ""];
  return x < y ? -1 : x > y ? 1 : a.id < b.id ? -1 : 1;
};

/** Chance from which it is taken as settled that a buck has sired. */
const SIRED: Sourced<number> = { value: 0.99, source: "judgement", checked: "judgement" };

/** Whether a buck has sired, as good as surely: at least one of the kids that may be his is. */
export function hasSired({ herd, beliefs }: Situation, buck: AnimalId): boolean {
  let none = 1;
  for (const { id } of herd.animals.values()) none *= 1 - (beliefs.sires(id).find(([sire]) => sire === buck)?.[1] ?? 0);
  return 1 - none >= SIRED.value;
}

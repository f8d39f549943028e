import type { AnimalId } from "@pollard/genetics";
import type { Animal, Herd } from "@pollard/records";
import type { Beliefs } from "./beliefs.ts";

/** Chance of being the sire from which a kid counts as a buck's own: more likely than not. */
const HIS_OWN = 0.5;

/**
 * The kids of every animal: a dam's by the record, a buck's where he is more likely the sire than not.
 *
 * Shape: each list from the oldest kid to the youngest, those without a birth date last; an animal without kids has no list.
 */
export function kidsByParent(herd: Herd, beliefs: Beliefs): ReadonlyMap<AnimalId, readonly Animal[]> {
  const kids = new Map<AnimalId, Animal[]>();
  const add = (parent: AnimalId | undefined, kid: Animal): void => {
    if (parent === undefined) return;
    const of = kids.get(parent);
    if (of === undefined) kids.set(parent, [kid]);
    else of.push(kid);
  };
  const byAge = [...herd.animals.values()].sort((a, b) => order(a.born, b.born) || (a.id < b.id ? -1 : 1));
  for (const animal of byAge) {
    add(animal.dam, animal);
    const [likeliest] = beliefs.sires(animal.id);
    if (likeliest !== undefined && likeliest[1] > HIS_OWN) add(likeliest[0], animal);
  }
  return kids;
}

const order = (a: string | undefined, b: string | undefined): number =>
  a === b ? 0 : a === undefined ? 1 : b === undefined ? -1 : a < b ? -1 : 1;

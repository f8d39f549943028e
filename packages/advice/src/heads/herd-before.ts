import { addDays, type Day } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import type { Animal, Herd } from "@pollard/records";

/** Age in days from which a goat's head is there for all to see, whenever somebody wrote it down. */
const GROWN_DAYS = 365;

/**
 * The herd as it was known on the morning of a day: what happened before it, and the goats born before it. Of the goats born
 * later only those named are there, with their parents and nothing found on them.
 *
 * Shape:   everything that bears on heads and genes is cut at the day; names, settings and the like stay as they are today.
 * Assumes: a fact was known on its own day. What was entered afterwards for an earlier day counts as known then.
 */
export function herdBefore(herd: Herd, day: Day, newborn: ReadonlySet<AnimalId>): Herd {
  const before = <T extends { readonly on: Day }>(facts: readonly T[]): readonly T[] => facts.filter((f) => f.on < day);
  const here = new Map<AnimalId, Animal>();
  for (const animal of herd.animals.values()) {
    if (animal.born !== undefined && animal.born >= day && !newborn.has(animal.id)) continue;
    here.set(animal.id, {
      ...animal,
      head: animal.head !== undefined && (animal.head.on < day || isGrown(animal, day)) ? animal.head : undefined,
      departure: animal.departure !== undefined && animal.departure.on < day ? animal.departure : undefined,
      readings: before(animal.readings),
      outcomes: before(animal.outcomes),
      disbuddings: before(animal.disbuddings),
      tests: before(animal.tests),
      traits: before(animal.traits),
    });
  }
  const isHere = (id: AnimalId | undefined): boolean => id !== undefined && here.has(id);
  for (const animal of here.values()) {
    const sires = animal.sires.filter(isHere);
    const dam = isHere(animal.dam) ? animal.dam : undefined;
    if (dam !== animal.dam || sires.length < animal.sires.length) here.set(animal.id, { ...animal, dam, sires });
  }
  const services = herd.services
    .map((s) => ({ ...s, bucks: s.bucks.filter(isHere) }))
    .filter((s) => isHere(s.doe) && s.bucks.length > 0);
  return {
    ...herd,
    animals: here,
    services,
    kiddings: herd.kiddings.filter((k) => isHere(k.dam) && k.kids.some(isHere)),
  };
}

const isGrown = ({ born }: Animal, day: Day): boolean => born === undefined || addDays(born, GROWN_DAYS) <= day;

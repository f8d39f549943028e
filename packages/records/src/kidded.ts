import { type Day, daysFrom } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import type { Fact } from "./entry/entry-kinds.ts";
import type { Animal, Herd } from "./herd.ts";

type Said = Animal["traits"][number];

/** Trait under which a keeper says that a doe kidded before she came; no kid of hers need be on record. */
export const KIDDED_TRAIT = { trait: "kidded-before", value: "yes" } as const;

/**
 * Fewest days of age at which a doe can have kidded: a doe kid can conceive at three months, and some count from a day of
 * birth that is a guess. Common practice, no source.
 */
export const YOUNGEST_DAM_DAYS = 200;

/** Whether one born on that day can have kidded by the other; one of no known age can. */
export const canHaveKidded = (born: Day | undefined, by: Day): boolean =>
  born === undefined || daysFrom(born, by) >= YOUNGEST_DAM_DAYS;

/** The fact that says so of a doe. */
export const kiddedFact = (animal: AnimalId, today: Day): Fact => ({
  kind: "trait",
  on: today,
  body: { animal, ...KIDDED_TRAIT },
});

/** Whether a trait that was entered says that a doe kidded before she came. */
export const saysKidded = ({ trait, value }: Pick<Said, "trait" | "value">): boolean =>
  trait === KIDDED_TRAIT.trait && value === KIDDED_TRAIT.value;

/** The entries that say of a doe that she kidded before she came; none where nobody said so. */
export const saidToHaveKidded = ({ traits }: Pick<Animal, "traits">): readonly Said[] => traits.filter(saysKidded);

/** All that are known to have kidded, here or before they came. */
export const allThatKidded = ({ animals, kiddings }: Pick<Herd, "animals" | "kiddings">): ReadonlySet<AnimalId> =>
  new Set([
    ...kiddings.map(({ dam }) => dam),
    ...[...animals.values()].filter((animal) => saidToHaveKidded(animal).length > 0).map(({ id }) => id),
  ]);

/** Whether a doe is known to have kidded, here or before she came. */
export const hasKidded = ({ kiddings }: Pick<Herd, "kiddings">, doe: Animal): boolean =>
  kiddings.some(({ dam }) => dam === doe.id) || saidToHaveKidded(doe).length > 0;

import type { AnimalId } from "@pollard/genetics";
import type { Animal, Herd, Sex } from "@pollard/records";

/** Enough to say which goat is meant. Without name and tag, the dam and the mark tell. */
export interface AnimalRef {
  readonly id: AnimalId;
  readonly name: string | undefined;
  readonly tag: string | undefined;
  readonly mark: string | undefined;
  readonly sex: Sex;
  readonly damName: string | undefined;
}

/** Which goat is meant, for a sentence. An id that the herd does not know is named by itself, so nothing is left unsaid. */
export function animalRef(herd: Herd, id: AnimalId): AnimalRef {
  const animal = herd.animals.get(id);
  if (!animal) return { id, name: undefined, tag: id, mark: undefined, sex: "unsure", damName: undefined };
  const dam = animal.dam === undefined ? undefined : herd.animals.get(animal.dam);
  return { id, name: animal.name, tag: animal.tag, mark: animal.mark, sex: animal.sex, damName: nameOf(dam) };
}

const nameOf = (animal: Animal | undefined): string | undefined => animal?.name ?? animal?.tag;

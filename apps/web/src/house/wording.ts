import type { AnimalRef } from "@pollard/advice";
import type { AnimalId } from "@pollard/genetics";
import { english, type Words } from "@pollard/words";

const nameless = (id: AnimalId): AnimalRef => ({
  id,
  name: undefined,
  tag: id,
  mark: undefined,
  sex: "unsure",
  damName: undefined,
});

/** The wording of answers. `refs` says what animals are called, where a sentence must name them by id. */
export const wordsFor = (refs: ReadonlyMap<AnimalId, AnimalRef>): Words =>
  english((id) => refs.get(id) ?? nameless(id));

/** The wording where every animal comes with its name. */
export const words: Words = wordsFor(new Map());

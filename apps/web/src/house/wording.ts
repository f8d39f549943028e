import type { AnimalRef } from "@pollard/advice";
import type { WeightUnit } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import {
  type Catalogue,
  englishFirst,
  fetchCatalogue,
  type Language,
  type WeightWords,
  type Words,
} from "@pollard/words";

/*
 * The page speaks one language at a time. These names are bound anew when it changes (`speak`), and the whole page is
 * then drawn again: so they are read where something is said, never kept at the top of a file. What only later screens
 * say is in `wording-later.ts`.
 */
/** The catalogue that was fetched; none for English, which the page brings along. */
let fetched: Catalogue | undefined;
let first: Pick<Catalogue, "language" | "words" | "weights" | "screens" | "care" | "loci"> = englishFirst;
const listeners: ((fetched: Catalogue | undefined) => void)[] = [];

/** Words of the screens themselves. */
export let screens = first.screens;
export let care = first.care;
export let loci = first.loci;
/** How weights are said, in the unit that this device uses. */
export let weights: WeightWords = first.weights("kg");
/** The wording where every animal comes with its name. */
export let words: Words = wordsFor(new Map());

/**
 * From here on everything is said in that language; gives the language that is spoken then.
 *
 * Errors: none. A catalogue that cannot be fetched leaves the language as it was.
 */
export async function speak(language: Language): Promise<Language> {
  fetched = language === "en" ? undefined : await fetchCatalogue(language).catch(() => fetched);
  first = fetched ?? englishFirst;
  ({ screens, care, loci } = first);
  weights = first.weights(weights.unit);
  words = wordsFor(new Map());
  for (const listener of listeners) listener(fetched);
  return first.language;
}

/** From here on weights are said in that unit. */
export function weighIn(unit: WeightUnit): void {
  weights = first.weights(unit);
  words = wordsFor(new Map());
}

/** How weights are said in a unit that need not be the device's own. */
export const weightsIn = (unit: WeightUnit): WeightWords => first.weights(unit);

/** Tells, now and whenever the language changes, the catalogue that was fetched; `undefined` for English. */
export function onSpeak(listener: (fetched: Catalogue | undefined) => void): void {
  listeners.push(listener);
  listener(fetched);
}

const nameless = (id: AnimalId): AnimalRef => ({
  id,
  name: undefined,
  tag: id,
  mark: undefined,
  sex: "unsure",
  damName: undefined,
});

/** The wording of answers. `refs` says what animals are called, where a sentence must name them by id. */
export function wordsFor(refs: ReadonlyMap<AnimalId, AnimalRef>): Words {
  return first.words((id) => refs.get(id) ?? nameless(id), weights.unit);
}

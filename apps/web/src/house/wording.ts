import type { AnimalRef } from "@pollard/advice";
import type { AnimalId } from "@pollard/genetics";
import { type Catalogue, catalogueOf, englishCatalogue, type Language, type Words } from "@pollard/words";

/*
 * The page speaks one language at a time. These names are bound anew when it changes (`speak`), and the whole page is
 * then drawn again: so they are read where something is said, never kept at the top of a file.
 */
let catalogue: Catalogue = englishCatalogue;
/** Words of the screens themselves. */
export let screens = catalogue.screens;
export let care = catalogue.care;
export let season = catalogue.season;
export let sheets = catalogue.sheets;
export let pairings = catalogue.pairings;
export let forecasts = catalogue.forecasts;
export let reviews = catalogue.reviews;
export let loci = catalogue.loci;
export let help = catalogue.help;
/** The wording where every animal comes with its name. */
export let words: Words = wordsFor(new Map());

/**
 * From here on everything is said in that language; gives the language that is spoken then.
 *
 * Errors: none. A catalogue that cannot be fetched leaves the language as it was.
 */
export async function speak(language: Language): Promise<Language> {
  const next = await catalogueOf(language).catch(() => catalogue);
  catalogue = next;
  ({ screens, care, season, sheets, pairings, forecasts, reviews, loci, help } = next);
  words = wordsFor(new Map());
  return next.language;
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
  return catalogue.words((id) => refs.get(id) ?? nameless(id));
}

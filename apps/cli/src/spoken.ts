import type { WeightUnit } from "@pollard/base";
import { type Catalogue, catalogueOf, englishCatalogue, type Language } from "@pollard/words";

/*
 * A command speaks one language. These names are bound before it runs (`speak`), so they are read where something is
 * said, never kept at the top of a file. Headings of tables and the help of commands are English in every language.
 */
let catalogue: Catalogue = englishCatalogue;
/** In what weights are said; plain data stay in kilograms. */
export let units: WeightUnit = "kg";
/** How animals, days and advice are worded. */
export let wordsOf: Catalogue["words"] = catalogue.words;
export let screens = catalogue.screens;
export let season = catalogue.season;
export let sheets = catalogue.sheets;
export let reviewSheet = catalogue.reviewSheet;
export let pairings = catalogue.pairings;
export let forecasts = catalogue.forecasts;
export let reviews = catalogue.reviews;
export let loci = catalogue.loci;
export let files = catalogue.files;

/** From here on answers are said in that language, weights in that unit. */
export async function speak(language: Language, unit: WeightUnit): Promise<void> {
  catalogue = await catalogueOf(language);
  units = unit;
  ({ screens, season, sheets, reviewSheet, pairings, forecasts, reviews, loci, files } = catalogue);
  wordsOf = (nameOf) => catalogue.words(nameOf, unit);
}

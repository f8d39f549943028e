import { type Catalogue, type Language, LANGUAGES } from "./catalogue.ts";
import { englishCatalogue } from "./en/catalogue.ts";

/** Everything in that language. Only English is at hand at once; another is fetched, so that it costs nobody else. */
export async function catalogueOf(language: Language): Promise<Catalogue> {
  switch (language) {
    case "en":
      return englishCatalogue;
    case "es":
      return (await import("./es/catalogue.ts")).spanishCatalogue;
  }
}

/**
 * The first language of a list of wishes that there is, else the first there is.
 *
 * Assumes: a wish is written as a browser or a system writes it: `es-MX`, `es_ES.UTF-8`, `en`.
 */
export const languageFor = (wishes: readonly string[]): Language =>
  wishes
    .map((wish) => LANGUAGES.find((language) => wish.toLowerCase().split(/[-_.@]/)[0] === language))
    .find((language) => language !== undefined) ?? LANGUAGES[0];

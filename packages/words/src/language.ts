import { type Catalogue, type Language, LANGUAGES } from "./catalogue.ts";
import { englishCatalogue } from "./en/catalogue.ts";

/** Everything in a language that is not English, fetched when it is asked for, so that it costs nobody else. */
export async function fetchCatalogue(language: Exclude<Language, "en">): Promise<Catalogue> {
  switch (language) {
    case "es":
      return (await import("./es/catalogue.ts")).spanishCatalogue;
  }
}

/** Everything in that language. */
export const catalogueOf = async (language: Language): Promise<Catalogue> =>
  language === "en" ? englishCatalogue : fetchCatalogue(language);

/**
 * The first language of a list of wishes that there is, else the first there is.
 *
 * Assumes: a wish is written as a browser or a system writes it: `es-MX`, `es_ES.UTF-8`, `en`.
 */
export const languageFor = (wishes: readonly string[]): Language =>
  wishes
    .map((wish) => LANGUAGES.find((language) => wish.toLowerCase().split(/[-_.@]/)[0] === language))
    .find((language) => language !== undefined) ?? LANGUAGES[0];

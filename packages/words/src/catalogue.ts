import type { AnimalRef } from "@pollard/advice";
import type { WeightUnit } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import type { englishCatalogue } from "./en/catalogue.ts";
import type { HelpPage, Term } from "./help-page.ts";
import type { WeightWords } from "./weights.ts";
import type { AnyWording } from "./wording.ts";
import type { Words } from "./words.ts";

/** The languages that everything can be said in; the first is the one a device speaks that asks for none of them. */
export const LANGUAGES = ["en", "es"] as const;
export type Language = (typeof LANGUAGES)[number];

/** What a language is called by those who speak it. */
export const LANGUAGE_NAMES: Readonly<Record<Language, string>> = { en: "English", es: "Español" };

type English = typeof englishCatalogue;

/** Every fixed text of the screens, by screen. */
export type Screens = AnyWording<English["screens"]>;

/**
 * Everything that is ever said, in one language.
 *
 * Its shape is that of the English catalogue, so a text that a language lacks, and a kind that it does not say, do not compile.
 */
export type Catalogue = {
  readonly [Matter in Exclude<keyof English, "language" | "words" | "weights" | "help">]: AnyWording<English[Matter]>;
} & {
  readonly language: Language;
  /**
   * `nameOf` turns an animal's id into what it is called, since a problem in the record knows ids only. Weights are said
   * in the unit; in kilograms where none is named.
   */
  readonly words: (nameOf: (id: AnimalId) => AnimalRef, unit?: WeightUnit) => Words;
  readonly weights: (unit: WeightUnit) => WeightWords;
  readonly help: {
    readonly pages: readonly HelpPage[];
    readonly terms: readonly Term[];
    /** What a source is called in print. */
    readonly sourceNames: Readonly<Record<string, string>>;
  };
};

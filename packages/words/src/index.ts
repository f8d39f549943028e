// A catalogue a language: everything that is said
export {
  type Catalogue,
  type HelpId,
  type HelpPage,
  type HelpPart,
  type Language,
  LANGUAGE_NAMES,
  LANGUAGES,
  type Screens,
  type Term,
} from "./catalogue.ts";
export { englishCatalogue } from "./en/catalogue.ts";
export { englishFirst } from "./en/first.ts";
export { englishLater } from "./en/later.ts";
export { catalogueOf, fetchCatalogue, languageFor } from "./language.ts";
export type { SheetContext } from "./en/sheets.ts";
export type { AdviceSaid, ProblemSaid, TaskSaid, Words } from "./words.ts";

// English by its parts
export { care } from "./en/care.ts";
export { english } from "./en/english.ts";
export { notAHerd, sayFileProblem } from "./en/files.ts";
export { helpPages, sourceNames, terms } from "./en/help.ts";
export { forecasts } from "./en/forecast.ts";
export * from "./en/loci.ts";
export { pairings } from "./en/pairings.ts";
export { reviews } from "./en/review.ts";
export { sheetOfReview } from "./en/review-sheet.ts";
export { screens } from "./en/screens.ts";
export { season } from "./en/season.ts";
export { sheets } from "./en/sheets.ts";

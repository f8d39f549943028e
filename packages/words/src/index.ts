// A catalogue a language: everything that is said
export {
  type Catalogue,
  type Language,
  LANGUAGE_NAMES,
  LANGUAGES,
  type Screens,
} from "./catalogue.ts";
export type { HelpId, HelpPage, HelpPart, Term } from "./help-page.ts";
export { englishCatalogue } from "./en/catalogue.ts";
export { englishFirst } from "./en/first.ts";
export { englishLater } from "./en/later.ts";
export { catalogueOf, fetchCatalogue, languageFor } from "./language.ts";
export type { SheetContext } from "./sheets/sheet.ts";
export type { WeightWords } from "./weights.ts";
export type { AdviceSaid, ProblemSaid, TaskSaid, Words } from "./words.ts";

// English by its parts
export { helpPages } from "./en/help.ts";
export { screens } from "./en/screens.ts";

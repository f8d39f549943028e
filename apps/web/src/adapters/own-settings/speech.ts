import { type Language, languageFor, LANGUAGES } from "@pollard/words";

const KEY = "pollard-language";

/** The language chosen on this phone; before anybody chose, the first of those the phone itself asks for that there is. */
export function readLanguage(storage: Pick<Storage, "getItem">, wishes: readonly string[]): Language {
  const kept = storage.getItem(KEY);
  return LANGUAGES.find((language) => language === kept) ?? languageFor(wishes);
}

export function writeLanguage(storage: Pick<Storage, "setItem">, language: Language): void {
  storage.setItem(KEY, language);
}

import { WEIGHT_UNITS, type WeightUnit } from "@pollard/base";
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

const UNIT_KEY = "pollard-unit";

/**
 * Regions that weigh in pounds by custom.
 *
 * Source: [cldr47], regions with the US system of measures.
 */
const POUND_REGIONS: ReadonlySet<string> = new Set(["US", "LR"]);

/** The region that a wish for a language names: `US` of `en-US` and of `es-Latn-US`. */
const regionOf = (wish: string): string | undefined =>
  /^[a-z]{2,3}(?:-[a-z]{4})?-([a-z]{2})(?:-|$)/i.exec(wish)?.[1]?.toUpperCase();

/** The unit of weights chosen on this phone; before anybody chose, that of the first region the phone itself names. */
export function readUnit(storage: Pick<Storage, "getItem">, wishes: readonly string[]): WeightUnit {
  const kept = storage.getItem(UNIT_KEY);
  const region = wishes.map(regionOf).find((each) => each !== undefined);
  const usual = region !== undefined && POUND_REGIONS.has(region) ? "lb" : "kg";
  return WEIGHT_UNITS.find((unit) => unit === kept) ?? usual;
}

export function writeUnit(storage: Pick<Storage, "setItem">, unit: WeightUnit): void {
  storage.setItem(UNIT_KEY, unit);
}

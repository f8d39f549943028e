import { expect } from "vitest";
import type { Catalogue } from "./catalogue.ts";
import { englishCatalogue } from "./en/catalogue.ts";
import { spanishCatalogue } from "./es/catalogue.ts";

/** Every catalogue with the name of its language, to go through with `test.each`. */
export const CATALOGUES: readonly (readonly [string, Catalogue])[] = [englishCatalogue, spanishCatalogue].map(
  (catalogue) => [catalogue.language, catalogue],
);

/** Every fixed text, with its place; a list's by number. */
export function textsIn(words: unknown, path = ""): readonly (readonly [string, string])[] {
  if (typeof words === "string") return [[path, words]];
  if (typeof words !== "object" || words === null) return [];
  return Object.entries(words).flatMap(([key, value]) => textsIn(value, path === "" ? key : `${path}.${key}`));
}

const sentencesIn = (text: string): readonly string[] => text.split(/(?<=[.?!:]) /);

/** No sentence has more than fifteen words. */
export function expectShort(texts: readonly string[]): void {
  expect(texts.flatMap(sentencesIn).filter((sentence) => sentence.split(/\s+/).length > 15)).toEqual([]);
}

/** What holds of everything that is said, in any language: short sentences, no percentage, no code and nothing missing. */
export function expectPlain(texts: readonly string[]): void {
  expectShort(texts);
  expect(texts.filter((text) => /%|per ?cent|por ciento/i.test(text))).toEqual([]);
  expect(texts.filter((text) => /undefined|NaN|\[object/.test(text))).toEqual([]);
}

/**
 * The order in which names of a language are looked up: letters with marks beside those without, as that language has
 * them (in Spanish ñ follows n), large beside small, and 9 before 10.
 *
 * Source: the Unicode collation of the language, as the platform has it.
 */
export function orderOf(language: string): (one: string, other: string) => number {
  // One collator for all, since making one costs more than a comparison.
  const collator = new Intl.Collator(language, { numeric: true, sensitivity: "base" });
  return (one, other) => collator.compare(one, other);
}

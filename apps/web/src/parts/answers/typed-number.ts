/** What a number as it was typed comes to. */
export type TypedNumber =
  | { readonly state: "empty" | "unclear" }
  | { readonly state: "number"; readonly value: number };

/**
 * A number of nought or more as a person types it: `3,4` and `3.4` alike, in every language.
 *
 * Three digits behind a mark are refused, and so are two marks: `1,200` may be a thousand and two hundred or one and a
 * fifth, by who typed it, and a guess could be wrong a thousandfold.
 *
 * @example
 * typedNumber("3,4") // { state: "number", value: 3.4 }
 */
export function typedNumber(text: string): TypedNumber {
  const typed = text.trim();
  if (typed === "") return { state: "empty" };
  return /^\d+([.,]\d{1,2})?$/.test(typed)
    ? { state: "number", value: Number(typed.replace(",", ".")) }
    : { state: "unclear" };
}

/**
 * A text as it is looked for: small letters without their accents, so that "Núria" is found by "nuria" and the other way round.
 *
 * @example
 * plainLetters("Núria"); // "nuria"
 */
export const plainLetters = (text: string): string => text.normalize("NFD").replaceAll(/\p{M}/gu, "").toLowerCase();

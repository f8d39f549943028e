import { err, ok, type Result } from "@pollard/base";

/** What is wrong with a chip's number. `rounded` = a spreadsheet made a number of it and dropped its last digits. */
export type ChipProblem = "not-digits" | "not-15-digits" | "no-such-number" | "rounded";

/** Digits of a chip's number as written: three for the country or maker, twelve for the animal. */
export const CHIP_DIGITS = 15;
/** Largest national number: 38 bits. */
const LARGEST = 2 ** 38 - 1;

/** How a spreadsheet shows a long number: 9.8E+14. */
export const ROUNDED = /^\d([.,]\d+)?E\+?\d+$/i;

/**
 * The number of an animal's chip as fifteen digits; spaces, hyphens and dots between them are left out.
 *
 * Errors: why it cannot be one.
 * Source: [iso-11784]: a code of 10 bits for country or maker and of 38 bits for the animal.
 *
 * @example
 * chipNumber("276 000 123 456 789"); // ok("276000123456789")
 */
export function chipNumber(text: string): Result<string, ChipProblem> {
  if (ROUNDED.test(text.trim())) return err("rounded");
  const digits = text.replace(/[\s.\-\u00a0]/g, "");
  if (!/^\d+$/.test(digits)) return err("not-digits");
  if (digits.length !== CHIP_DIGITS) return err("not-15-digits");
  return Number(digits.slice(3)) > LARGEST ? err("no-such-number") : ok(digits);
}

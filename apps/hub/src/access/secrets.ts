import { createHash, randomBytes, randomInt } from "node:crypto";

/** Digits of a joining code: 10^12 of them, about 40 bits; short-lived, of use once, and guesses are counted. */
export const CODE_DIGITS = 12;

/** A code for a person to read and type, without blanks. */
export const newCode = (): string =>
  Array.from({ length: CODE_DIGITS / 3 }, () => String(randomInt(1000)).padStart(3, "0")).join("");

/** A device's own secret: 256 bits. */
export const newToken = (): string => randomBytes(32).toString("base64url");

/**
 * What is kept of a secret. A plain digest does: tokens have 256 bits of chance, and codes are worthless within minutes.
 * Rows are found by it, so that no comparison of secrets ever takes longer the more of them is right.
 */
export const digestOf = (secret: string): string => createHash("sha256").update(secret).digest("hex");

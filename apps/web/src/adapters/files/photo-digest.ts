import type { Digest } from "@pollard/records";

/** The SHA-256 of a picture, by which it is named. */
export const photoDigest: Digest = async (bytes) => {
  const digest = await crypto.subtle.digest("SHA-256", Uint8Array.from(bytes));
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
};

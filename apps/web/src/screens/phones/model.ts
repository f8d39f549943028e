import type { PeerFailure } from "@pollard/records";
import type { Screens } from "@pollard/words";

type Wrong = keyof Screens["phones"]["wrong"];

/** A code as it is shown and read aloud: in groups of four. */
export const codeShown = (code: string): string => code.replaceAll(/(\d{4})(?=\d)/g, "$1 ");

/** The digits of what was typed or scanned. */
export const digitsOf = (typed: string): string => typed.replaceAll(/\D/g, "");

/** The address that a phone's camera opens: the hub's, with the code in the part that is sent to nobody. */
export const joinAddress = (reach: string, code: string): string => `${reach}/#/join/${code}`;

/** The code in an address of that kind; nothing in any other. */
export const codeInHash = (hash: string): string | undefined => /^#\/join\/(\d{12})$/.exec(hash)?.[1];

/** Which sentence says why a phone could not join. */
export function whyNot(failure: PeerFailure): Wrong {
  if (failure.code === "unreachable") return "unreachable";
  const reason = failure.code === "peer-refused" ? failure.reason : "";
  return reason === "not-a-code" || reason === "no-such-code" || reason === "too-many-guesses" ? reason : "other";
}

/** The local day of a time that the hub wrote down. */
export function localDay(iso: string): string {
  const at = new Date(Date.parse(iso));
  const two = (n: number): string => String(n).padStart(2, "0");
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}

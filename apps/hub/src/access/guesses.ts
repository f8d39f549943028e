import { isIPv6 } from "node:net";
import { CODE_DIGITS } from "./secrets.ts";

/**
 * Wrong codes that are answered within a window; after them nobody joins until it is over.
 *
 * As many as leave a guesser a chance of one in 2^32 within the life of a code, and no fewer, so that it takes many addresses to
 * keep everybody from joining. Source: RFC 8628 5.1, which holds that chance to be good enough.
 */
export const MOST_WRONG = Math.floor(10 ** CODE_DIGITS / 2 ** 32);
/** And from one address, where the hub sees it; after them whoever comes from there waits, and nobody else. */
const MOST_WRONG_FROM_ONE = 5;
/** As long as a code lasts. */
const WINDOW_MS = 10 * 60_000;
/** How much of an IPv6 address one household or server has for itself as a rule. Source: RFC 6177. */
const IPV6_GROUPS = 4;

interface Guess {
  readonly at: number;
  readonly from: string | undefined;
}

/** Counts guesses at codes. */
export interface GuessCounter {
  /**
   * Notes a guess before it is looked at, so that those made at once are counted as those made in turn; what it gives takes the
   * note back, for a guess that was none. Nothing where no more are answered for now.
   */
  guess(from?: string): (() => void) | undefined;
}

/**
 * Counts wrong codes, so that nobody tries them out: some two hundred in ten minutes against 10^12 codes.
 *
 * Counted for the whole hub, since a guesser may come from many addresses; a keeper then waits ten minutes at most. One address
 * alone is stopped before that, so that it cannot keep the others out. Behind a proxy all come from one address, which is then
 * not told here: there the proxy counts (docs/running/nginx.conf).
 */
export function guessCounter(now: () => Date): GuessCounter {
  let guesses: readonly Guess[] = [];
  return {
    guess(from) {
      const at = now().getTime();
      guesses = guesses.filter((before) => before.at > at - WINDOW_MS);
      const place = from === undefined ? undefined : networkOf(from);
      const fromThere = place === undefined ? 0 : guesses.filter((before) => before.from === place).length;
      if (guesses.length >= MOST_WRONG || fromThere >= MOST_WRONG_FROM_ONE) return undefined;
      const noted: Guess = { at, from: place };
      guesses = [...guesses, noted];
      return () => {
        guesses = guesses.filter((each) => each !== noted);
      };
    },
  };
}

/** What counts as one address: of IPv6 the part that names a network, written out; IPv4 within IPv6 as itself. */
export function networkOf(address: string): string {
  const [, v4] = /^::ffff:(\d+\.\d+\.\d+\.\d+)$/i.exec(address) ?? [];
  if (v4 !== undefined || !isIPv6(address)) return v4 ?? address;
  const [head = "", tail] = (address.split("%")[0] ?? "").toLowerCase().split("::");
  const [first, last] = [head, tail ?? ""].map((part) => part.split(":").filter((group) => group !== ""));
  const [before, behind] = [first ?? [], last ?? []];
  const gap = tail === undefined ? 0 : 8 - before.length - behind.length;
  const groups = [...before, ...Array.from({ length: gap }, () => "0"), ...behind];
  return groups
    .slice(0, IPV6_GROUPS)
    .map((group) => group.replace(/^0+(?=.)/, ""))
    .join(":");
}

import { isIPv6 } from "node:net";

/** Wrong codes that are answered within a window; after them nobody joins until it is over. */
const MOST_WRONG = 20;
/** And from one address, where the hub sees it; after them whoever comes from there waits, and nobody else. */
const MOST_WRONG_FROM_ONE = 5;
const WINDOW_MS = 10 * 60_000;
/** How much of an IPv6 address one household or server has for itself as a rule. Source: RFC 6177. */
const IPV6_GROUPS = 4;

interface Wrong {
  readonly at: number;
  readonly from: string | undefined;
}

/**
 * Counts wrong codes, so that nobody tries them out: twenty in ten minutes against 10^12 codes.
 *
 * Counted for the whole hub, since a guesser may come from many addresses; a keeper then waits ten minutes at most. One address
 * alone is stopped before that, so that it cannot keep the others out. Behind a proxy all come from one address, which is then
 * not told here: there the proxy counts (docs/running/nginx.conf).
 */
export function guessCounter(now: () => Date): {
  isOpen(from?: string): boolean;
  wrong(from?: string): void;
} {
  let wrongs: readonly Wrong[] = [];
  const recent = (): readonly Wrong[] => {
    const after = now().getTime() - WINDOW_MS;
    wrongs = wrongs.filter(({ at }) => at > after);
    return wrongs;
  };
  return {
    isOpen(from) {
      const all = recent();
      const place = from === undefined ? undefined : networkOf(from);
      const fromThere = place === undefined ? 0 : all.filter((wrong) => wrong.from === place).length;
      return all.length < MOST_WRONG && fromThere < MOST_WRONG_FROM_ONE;
    },
    wrong(from) {
      wrongs = [...recent(), { at: now().getTime(), from: from === undefined ? undefined : networkOf(from) }];
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

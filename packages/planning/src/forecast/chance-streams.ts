import { type Random, seededRandom } from "@pollard/base";

/**
 * A source of chance of its own for each place in a simulation, named by whole numbers.
 *
 * Two policies that ask for the same place get the same draws, whatever else they did before: what differs between them is
 * then the policies' doing, and far fewer runs tell them apart (common random numbers).
 *
 * Source: integer mixing of MurmurHash3 (from memory, checked by its law test).
 */
export function chanceAt(seed: number, ...place: readonly number[]): Random {
  let h = seed | 0;
  for (const part of place) {
    h = Math.imul(h ^ mixed(part + 0x9e3779b9), 0x85ebca6b);
    h = (h << 13) | (h >>> 19);
  }
  return seededRandom(mixed(h));
}

function mixed(x: number): number {
  let h = x | 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) | 0;
}

/** Which of several outcomes happens; the chances sum to 1, rounding aside. */
export function drawn(random: Random, chances: ArrayLike<number>): number {
  let left = random.next();
  for (let i = 0; i < chances.length; i++) {
    left -= chances[i] ?? 0;
    if (left < 0) return i;
  }
  return chances.length - 1;
}

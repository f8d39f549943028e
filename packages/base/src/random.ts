import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";

/** A source of chance whose every draw is fixed by its seed. Passed in wherever chance is needed. */
export interface Random {
  /** The next draw, uniform in [0, 1). */
  next(): number;
}

/**
 * A generator that gives the same draws for the same seed, on every machine.
 *
 * Assumes: `seed` is a whole number in the 32-bit range.
 * Source:  decision 0002 (pure-rand, xoroshiro128+).
 */
export function seededRandom(seed: number): Random {
  const generator = xoroshiro128plus(seed);
  return { next: () => uniformFloat64(generator) };
}

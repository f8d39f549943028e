import type { PolledGenotype } from "../vocabulary.ts";
import { POLLED_GENOTYPES } from "../vocabulary.ts";
import { POLLED } from "./polled.ts";
import { kidOfIndependent } from "./segregation.ts";

/** What comes of a mating, as shares of all kids. `sexReversed` is a part of `PP`. */
export interface PolledOutcome {
  readonly horned: number;
  readonly Pp: number;
  readonly PP: number;
  /** Kids with XX chromosomes that are PP: intersex or looking like does or bucks, and sterile. */
  readonly sexReversed: number;
}

/** The shares a kid's genotype chances stand for. `xx` is the share of kids with XX chromosomes. */
export function polledOutcome(kid: readonly number[], xx = 0.5): PolledOutcome {
  const [PP = 0, Pp = 0, horned = 0] = kid;
  return { horned, Pp, PP, sexReversed: PP * xx };
}

const certain = (genotype: PolledGenotype): readonly number[] => POLLED_GENOTYPES.map((g) => (g === genotype ? 1 : 0));

/**
 * A herd bred on by its own daughters, all its bucks of one genotype: what this year's kids are, and the share of Pp among
 * next year's fertile does.
 *
 * Every fertile polled doe is Pp, since XX PP are sterile; so a share is all there is to know of the does.
 *
 * Assumes: does kept at random, as many daughters from each; sexes alike.
 * Source:  the mating table of [hancock-louca1975]; rule GE-14.
 */
export function carrierHerdYear(
  carrierDoes: number,
  bucks: PolledGenotype,
): { readonly kids: PolledOutcome; readonly carrierDaughters: number } {
  const does = [0, carrierDoes, 1 - carrierDoes];
  const kids = polledOutcome(kidOfIndependent(POLLED, certain(bucks), does));
  return { kids, carrierDaughters: kids.Pp / (kids.Pp + kids.horned) };
}

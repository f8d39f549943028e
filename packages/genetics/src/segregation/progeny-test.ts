/** Kids from mates of one kind, all showing the dominant trait, and the chance of such a kid if the parent is a carrier. */
export interface DominantKids {
  readonly kids: number;
  /** 1/2 from recessive mates, 3/4 from carriers, 7/8 from his own daughters out of clear dams. */
  readonly chanceIfCarrier: number;
}

/** The chance that a carrier would have had only such kids. */
export const missedIfCarrier = (all: readonly DominantKids[]): number =>
  all.reduce((chance, { kids, chanceIfCarrier }) => chance * chanceIfCarrier ** kids, 1);

/**
 * How sure it is that a parent carries no recessive allele after so many kids that all show the dominant trait.
 *
 * A rule of thumb says "five kids are enough"; that is the chance to catch a carrier, not the chance that he is none, which
 * needs what was believed before.
 *
 * Units:   `prior` is the chance, before any kid, that the parent is homozygous (else it is a carrier).
 * Assumes: heads (or what the trait is) read without error. With errors, relatives or doubtful sires: `inferGenotypes`.
 * Source:  Bayes' rule; rule GE-28.
 *
 * @example
 * homozygousAfter(0.5, [{ kids: 3, chanceIfCarrier: 0.5 }]); // 0.8888888888888888
 */
export function homozygousAfter(prior: number, all: readonly DominantKids[]): number {
  const carrier = (1 - prior) * missedIfCarrier(all);
  return prior / (prior + carrier);
}

/**
 * The fewest kids after which a carrier has shown himself with this chance.
 *
 * Source: [legates-warwick] for the question; rule GE-28.
 */
export function kidsToCatch(chanceIfCarrier: number, sureness: number): number {
  const near = Math.floor(Math.log(1 - sureness) / Math.log(chanceIfCarrier));
  let kids = Math.max(0, near - 1);
  while (1 - chanceIfCarrier ** kids < sureness) kids++;
  return kids;
}

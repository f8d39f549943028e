import { allelePairs, type Locus } from "../locus.ts";
import type { ChromosomalSex } from "../vocabulary.ts";
import { gametesOf, stateSpaces, transmissionTable } from "../genotypes/state-space.ts";

/**
 * What a kid would be, from what is believed of its parents one by one.
 *
 * Shape:   beliefs over `genotypesOf(locus, "XX")` for the dam, `"XY"` for the sire; result over `genotypesOf(locus, sex)`.
 * Assumes: the two beliefs are independent. For real animals of one herd they seldom are: ask `GenotypeAnswer.kid` there.
 * Source:  [mendel1866]; rule GE-6.
 *
 * @example
 * kidOfIndependent(POLLED, [0, 1, 0], [0, 0, 1]); // [0, 0.5, 0.5]
 */
export function kidOfIndependent(
  locus: Locus,
  sire: readonly number[],
  dam: readonly number[],
  sex: ChromosomalSex = "XX",
): readonly number[] {
  const spaces = stateSpaces(locus);
  const count = locus.alleles.length;
  const kid = spaces[sex];
  const table = transmissionTable(gametesOf(spaces.XX, "dam", count), gametesOf(spaces.XY, "sire", count), kid);
  const size = kid.states.length;
  const chances = allelePairs(locus, sex).map(() => 0);
  dam.forEach((d, i) => {
    sire.forEach((s, j) => {
      for (let g = 0; g < size; g++)
        chances[g] = (chances[g] ?? 0) + d * s * (table[(i * sire.length + j) * size + g] ?? 0);
    });
  });
  return chances;
}

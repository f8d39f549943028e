import { type AllelePair, allelePairs, type Locus } from "../locus.ts";
import { CHROMOSOMAL_SEXES } from "../vocabulary.ts";
import type { GenotypeBelief } from "./genotype-answer.ts";
import type { Evidence } from "./pedigree-problem.ts";
import type { StateSpace } from "./state-space.ts";

/**
 * The belief about one animal from what everything else says of its states (`cavity`) and its own evidence. Sex, where
 * the states leave it out, is split off again here: given the genotype it depends on the animal's own evidence alone.
 */
export function beliefFrom(
  locus: Locus,
  space: StateSpace,
  cavity: Float64Array,
  own: { readonly xx: number; readonly evidence: readonly Evidence[] },
): GenotypeBelief {
  const bySex = { XX: zeros(allelePairs(locus, "XX")), XY: zeros(allelePairs(locus, "XY")) };
  space.states.forEach((state, at) => {
    for (const sex of CHROMOSOMAL_SEXES)
      if (state.sex === undefined || state.sex === sex)
        bySex[sex][state.within] = (cavity[at] ?? 0) * (sex === "XX" ? own.xx : 1 - own.xx);
  });
  let total = 0;
  const rescale = (by: number): void => {
    total = 0;
    for (const sex of CHROMOSOMAL_SEXES)
      bySex[sex].forEach((w, g) => {
        bySex[sex][g] = w / by;
        total += w / by;
      });
  };
  rescale(1);
  for (const { likelihood } of own.evidence) {
    for (const sex of CHROMOSOMAL_SEXES)
      bySex[sex].forEach((w, g) => {
        bySex[sex][g] = w * (likelihood[sex][g] ?? 0);
      });
    rescale(Math.max(...bySex.XX, ...bySex.XY));
  }
  rescale(total);
  const genotypes =
    locus.inheritance === "autosomal" ? bySex.XX.map((w, g) => w + (bySex.XY[g] ?? 0)) : [...bySex.XX, ...bySex.XY];
  return { genotypes, bySex, xx: bySex.XX.reduce((a, b) => a + b, 0) };
}

const zeros = (pairs: readonly AllelePair[]): number[] => pairs.map(() => 0);

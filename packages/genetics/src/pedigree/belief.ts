import { type AllelePair, allelePairs, type Locus } from "../locus.ts";
import { CHROMOSOMAL_SEXES } from "../vocabulary.ts";
import type { GenotypeBelief } from "./genotype-answer.ts";
import type { Evidence } from "./pedigree-problem.ts";
import type { StateSpace } from "./state-space.ts";

/**
 * The belief about one animal from what everything else says of its states (natural logs) and its own evidence. Sex, where
 * the states leave it out, is split off again here: given the genotype it depends on the animal's own evidence alone.
 */
export function beliefFrom(
  locus: Locus,
  space: StateSpace,
  logCavity: Float64Array,
  own: { readonly xx: number; readonly evidence: readonly Evidence[] },
): GenotypeBelief {
  const logs = { XX: impossible(allelePairs(locus, "XX")), XY: impossible(allelePairs(locus, "XY")) };
  space.states.forEach((state, at) => {
    for (const sex of CHROMOSOMAL_SEXES) {
      if (state.sex !== undefined && state.sex !== sex) continue;
      logs[sex][state.within] = own.evidence.reduce(
        (log, { likelihood }) => log + Math.log(likelihood[sex][state.within] ?? 0),
        (logCavity[at] ?? Number.NEGATIVE_INFINITY) + Math.log(sex === "XX" ? own.xx : 1 - own.xx),
      );
    }
  });
  const all = [...logs.XX, ...logs.XY];
  const top = all.reduce((a, b) => Math.max(a, b));
  const weights = all.map((l) => Math.exp(l - top));
  const total = weights.reduce((a, b) => a + b, 0);
  const chances = weights.map((w) => w / total);
  const bySex = { XX: chances.slice(0, logs.XX.length), XY: chances.slice(logs.XX.length) };
  const genotypes = locus.inheritance === "autosomal" ? bySex.XX.map((w, g) => w + (bySex.XY[g] ?? 0)) : chances;
  return { genotypes, bySex, xx: bySex.XX.reduce((a, b) => a + b, 0) };
}

const impossible = (pairs: readonly AllelePair[]): number[] => pairs.map(() => Number.NEGATIVE_INFINITY);

import { allelePairs, type Locus } from "../locus.ts";
import { CHROMOSOMAL_SEXES } from "../vocabulary.ts";
import type { GenotypeBelief } from "./genotype-answer.ts";
import { logSaid } from "./genotype-network.ts";
import type { Evidence } from "../pedigree/pedigree-problem.ts";
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
  const [females, males] = [allelePairs(locus, "XX").length, allelePairs(locus, "XY").length];
  const chances = Array.from({ length: females + males }, () => Number.NEGATIVE_INFINITY);
  const from = { XX: 0, XY: females };
  const logSex = { XX: Math.log(own.xx), XY: Math.log(1 - own.xx) };
  let top = Number.NEGATIVE_INFINITY;
  space.states.forEach(({ sex: only, within }, at) => {
    for (const sex of CHROMOSOMAL_SEXES) {
      if (only !== undefined && only !== sex) continue;
      const log = (logCavity[at] ?? Number.NEGATIVE_INFINITY) + logSex[sex] + logSaid(own.evidence, sex, within);
      chances[from[sex] + within] = log;
      top = Math.max(top, log);
    }
  });
  let total = 0;
  for (let i = 0; i < chances.length; i++) {
    const weight = Math.exp((chances[i] ?? top) - top);
    chances[i] = weight;
    total += weight;
  }
  for (let i = 0; i < chances.length; i++) chances[i] = (chances[i] ?? 0) / total;
  const bySex = { XX: chances.slice(0, females), XY: chances.slice(females) };
  const genotypes = locus.inheritance === "autosomal" ? bySex.XX.map((w, g) => w + (bySex.XY[g] ?? 0)) : chances;
  return { genotypes, bySex, xx: bySex.XX.reduce((a, b) => a + b, 0) };
}

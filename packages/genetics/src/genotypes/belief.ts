import { allelePairs, type Locus } from "../locus.ts";
import { f64, item } from "../inference/cell.ts";
import { CHROMOSOMAL_SEXES } from "../vocabulary.ts";
import type { GenotypeBelief } from "./genotype-answer.ts";
import { logSaid } from "./own-evidence.ts";
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
  const females = allelePairs(locus, "XX").length;
  const chances = new Float64Array(females + allelePairs(locus, "XY").length).fill(Number.NEGATIVE_INFINITY);
  let top = Number.NEGATIVE_INFINITY;
  for (const sex of CHROMOSOMAL_SEXES) {
    const logSex = Math.log(sex === "XX" ? own.xx : 1 - own.xx);
    if (logSex === Number.NEGATIVE_INFINITY) continue;
    const from = sex === "XX" ? 0 : females;
    for (let at = 0; at < space.states.length; at++) {
      const state = item(space.states, at);
      if (state.sex !== undefined && state.sex !== sex) continue;
      const log = f64(logCavity, at) + logSex + logSaid(own.evidence, sex, state.within);
      chances[from + state.within] = log;
      if (log > top) top = log;
    }
  }
  let total = 0;
  for (let i = 0; i < chances.length; i++) total += chances[i] = Math.exp(f64(chances, i) - top);
  for (let i = 0; i < chances.length; i++) chances[i] = f64(chances, i) / total;
  const bySex = { XX: [...chances.subarray(0, females)], XY: [...chances.subarray(females)] };
  let xx = 0;
  for (const w of bySex.XX) xx += w;
  const genotypes =
    locus.inheritance === "autosomal" ? bySex.XX.map((w, g) => w + f64(chances, females + g)) : [...chances];
  return { genotypes, bySex, xx };
}

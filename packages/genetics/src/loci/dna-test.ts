import { err, ok, type Result, type Sourced } from "@pollard/base";
import { allelePairs, type Locus } from "../locus.ts";
import { CHROMOSOMAL_SEXES, type ChromosomalSex } from "../vocabulary.ts";
import type { Evidence } from "../pedigree/pedigree-problem.ts";

/**
 * How often a laboratory's result is not the animal's genotype: sample mixed up, wrong animal, failed reaction. Our
 * judgement; older tests of the polled locus can fail more often than that [szatkowska2024].
 */
export const DNA_TEST_ERROR: Sourced<number> = { value: 0.005, source: "judgement", checked: "judgement" };

/** Why a reported result cannot be read at a locus. */
export type DnaTestProblem =
  | { readonly code: "unknown-allele"; readonly got: string; readonly allowed: readonly string[] }
  | { readonly code: "not-one-or-two-alleles"; readonly got: number };

/**
 * What a laboratory's result says of an animal's genotype.
 *
 * A wrong result is taken to fall on each other genotype of the same sex alike.
 *
 * Shape:  `alleles` in any order; one allele alone is a result for an animal with one X, or for two equal ones.
 * Errors: an allele the locus does not have, or not one or two of them.
 */
export function dnaTestLikelihood(
  locus: Locus,
  alleles: readonly string[],
  error: number = DNA_TEST_ERROR.value,
): Result<Evidence["likelihood"], DnaTestProblem> {
  const strange = alleles.find((a) => !locus.alleles.includes(a));
  if (strange !== undefined) return err({ code: "unknown-allele", got: strange, allowed: locus.alleles });
  if (alleles.length !== 1 && alleles.length !== 2) return err({ code: "not-one-or-two-alleles", got: alleles.length });
  const seen = new Set(alleles.map((a) => locus.alleles.indexOf(a)));
  const row = (sex: ChromosomalSex): readonly number[] => {
    const pairs = allelePairs(locus, sex);
    const matches = pairs.map((pair) => {
      const own = new Set<number>(pair);
      return own.size === seen.size && [...own].every((a) => seen.has(a));
    });
    const hits = matches.filter(Boolean).length;
    return matches.map((m) => (m ? 1 - error : error / Math.max(1, pairs.length - hits)));
  };
  const [XX, XY] = CHROMOSOMAL_SEXES.map(row);
  return ok({ XX: XX ?? [], XY: XY ?? [] });
}

import { err, ok, type Result, type Sourced } from "@pollard/base";
import { type AllelePair, allelePairs, type Locus, type LocusAmount, type LocusTrait } from "../locus.ts";
import type { Evidence } from "../pedigree/pedigree-problem.ts";
import { CHROMOSOMAL_SEXES } from "../vocabulary.ts";

/** How often a trait is written down wrongly, where nothing better is known. Our judgement. */
export const TRAIT_ERROR: Sourced<number> = { value: 0.01, source: "judgement", checked: "judgement" };

/** Copies of an allele in a genotype. */
const copies = (pair: AllelePair, allele: number): number => pair.filter((a) => a === allele).length;

/**
 * Phenotypes that follow from the number of copies of one allele.
 *
 * Shape: `of` gives the phenotype of none, one and two copies; an animal with one X shows what two copies show.
 */
export function byCopies<P extends string>(
  locus: Pick<Locus, "alleles" | "inheritance">,
  allele: string,
  phenotypes: readonly P[],
  of: readonly [P, P, P],
): LocusTrait["expression"]["value"] {
  const at = locus.alleles.indexOf(allele);
  const rows = (sex: "XX" | "XY") =>
    allelePairs({ ...locus, id: "", name: "", founders: NO_FOUNDERS }, sex).map((pair) => {
      const shown = of[pair.length === 1 ? 2 * copies(pair, at) : copies(pair, at)] ?? of[0];
      return phenotypes.map((p) => (p === shown ? 1 : 0));
    });
  return { XX: rows("XX"), XY: rows("XY") };
}

const NO_FOUNDERS = { default: { value: [], source: "judgement", checked: "judgement" }, breeds: {} } as const;

/** Why a trait as seen is no evidence at a locus. */
export type TraitSeenProblem =
  | { readonly code: "unknown-trait"; readonly got: string; readonly allowed: readonly string[] }
  | { readonly code: "unknown-phenotype"; readonly got: string; readonly allowed: readonly string[] };

/**
 * What a trait as seen says of the genotype. A wrong note falls on each other phenotype alike.
 *
 * Where a locus has several views of one trait (sources disagree), the first is taken, or the one whose source is named.
 *
 * Errors: a trait or phenotype that the locus does not have.
 */
export function traitLikelihood(
  locus: Locus,
  seen: { readonly trait: string; readonly phenotype: string; readonly view?: string },
  error: number = TRAIT_ERROR.value,
): Result<Evidence["likelihood"], TraitSeenProblem> {
  const traits = locus.traits ?? [];
  const trait = traits.find(
    (t) => t.id === seen.trait && (seen.view === undefined || t.expression.source === seen.view),
  );
  if (!trait) return err({ code: "unknown-trait", got: seen.trait, allowed: traits.map((t) => t.id) });
  const at = trait.phenotypes.indexOf(seen.phenotype);
  if (at < 0) return err({ code: "unknown-phenotype", got: seen.phenotype, allowed: trait.phenotypes });
  const others = Math.max(1, trait.phenotypes.length - 1);
  const row = (chances: readonly number[]): number =>
    chances.reduce((sum, p, k) => sum + p * (k === at ? 1 - error : error / others), 0);
  const { XX, XY } = trait.expression.value;
  return ok({ XX: XX.map(row), XY: XY.map(row) });
}

/**
 * The expected amount for a belief about the genotype, and for each genotype by itself.
 *
 * Units: those of the amount.
 * Shape: `genotypes` over `genotypesOf(locus)`.
 */
export function expectedAmount(locus: Locus, amount: LocusAmount, genotypes: readonly number[]): number {
  return amountsOf(locus, amount).reduce((sum, a, g) => sum + a * (genotypes[g] ?? 0), 0);
}

/** The amount that goes with each genotype: the sum over its alleles. */
export const amountsOf = (locus: Locus, amount: LocusAmount): readonly number[] =>
  allelePairs(locus).map((pair) => pair.reduce((sum, a) => sum + (amount.perCopy.value[a] ?? 0), 0));

/** The chances of each phenotype for a belief about genotype and sex. */
export const phenotypeChances = (
  trait: LocusTrait,
  bySex: Readonly<Record<"XX" | "XY", readonly number[]>>,
): readonly number[] =>
  trait.phenotypes.map((_, k) =>
    CHROMOSOMAL_SEXES.reduce(
      (sum, sex) =>
        sum + trait.expression.value[sex].reduce((s, row, g) => s + (row[k] ?? 0) * (bySex[sex][g] ?? 0), 0),
      0,
    ),
  );

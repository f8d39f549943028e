import type { Random } from "@pollard/base";
import { INTERSEX_LOOKS, PP_BUCK_FERTILITY } from "@pollard/genetics";

/** A simulated kid. Genotype by its place in `POLLED_GENOTYPES`: 0 PP, 1 Pp, 2 pp. */
export interface DrawnKid {
  readonly genotype: number;
  readonly xx: "yes" | "no";
  /** What it is taken for at birth. */
  readonly look: "doe" | "buck" | "intersex";
  /** XX and PP, or intersex for another reason. */
  readonly intersex: "yes" | "no";
  readonly fertile: "yes" | "no";
}

/**
 * One kid of two parents, by Mendel's draw of one allele from each.
 *
 * Always six draws, whatever comes of them, so that the next kid's draws stay the same.
 *
 * Source: [mendel1866]; looks and fertility as in rules GE-11, GE-12.
 */
export function drawKid(random: Random, sire: number, dam: number): DrawnKid {
  const fromSire = hornedAllele(sire, random.next());
  const fromDam = hornedAllele(dam, random.next());
  const xx = random.next() < 0.5;
  const [seen, like, able] = [random.next(), random.next(), random.next()];
  const genotype = fromSire + fromDam;
  const reversed = xx && genotype === 0;
  const { recognised, doeLike, otherIntersex } = INTERSEX_LOOKS;
  if (reversed) {
    const look = seen < recognised.value ? "intersex" : like < doeLike.value ? "doe" : "buck";
    return { genotype, xx: "yes", look, intersex: "yes", fertile: "no" };
  }
  const other = seen < otherIntersex.value;
  const fertile = other || (genotype === 0 && able >= PP_BUCK_FERTILITY.value) ? "no" : "yes";
  const look = other ? "intersex" : xx ? "doe" : "buck";
  return { genotype, xx: xx ? "yes" : "no", look, intersex: other ? "yes" : "no", fertile };
}

/** 1 if the parent hands on `p`, 0 if `P`. */
const hornedAllele = (genotype: number, draw: number): number =>
  genotype === 0 ? 0 : genotype === 2 ? 1 : draw < 0.5 ? 1 : 0;

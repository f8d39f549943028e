import type { Sourced } from "@pollard/base";
import type { Locus, LocusTrait, Standing } from "../locus.ts";
import { POLLED } from "./polled.ts";
import { byCopies } from "./trait.ts";

const read = <T>(value: T, source: string): Sourced<T> => ({ value, source, checked: "read-in-source" });
const judged = <T>(value: T): Sourced<T> => ({ value, source: "judgement", checked: "judgement" });
const said = <T>(value: T): Sourced<T> => ({ value, source: "common-practice", checked: "common-practice" });
/** Frequencies of two alleles from that of the second. */
const two = (q: number): readonly number[] => [1 - q, q];

function shownBy<P extends string>(
  locus: Pick<Locus, "alleles" | "inheritance">,
  id: string,
  standing: Standing,
  how: { readonly allele: string; readonly phenotypes: readonly P[]; readonly of: readonly [P, P, P] },
  sourced: <T>(value: T) => Sourced<T>,
): LocusTrait {
  return {
    id,
    standing,
    phenotypes: how.phenotypes,
    expression: sourced(byCopies(locus, how.allele, how.phenotypes, how.of)),
  };
}

const twoAlleles = <A extends string, B extends string>(a: A, b: B) =>
  ({ alleles: [a, b], inheritance: "autosomal" }) as const;

const wattles = twoAlleles("W", "w");
/**
 * Skin tassels at the throat: dominant.
 *
 * Source: [reber2015]; frequencies of the allele for none from does without wattles [ricordeau1967-wattles]; default judged.
 */
export const WATTLES: Locus = {
  ...wattles,
  id: "wattles",
  name: "Wattles",
  founders: {
    default: judged(two(0.75)),
    breeds: {
      saanen: read(two(0.81), "ricordeau1967-wattles"),
      poitevine: read(two(0.718), "ricordeau1967-wattles"),
      chamoisee: read(two(0.638), "ricordeau1967-wattles"),
      alpine: read(two(0.638), "ricordeau1967-wattles"),
      "alpine chamoisee": read(two(0.638), "ricordeau1967-wattles"),
    },
  },
  traits: [
    shownBy(
      wattles,
      "wattles",
      "established",
      { allele: "W", phenotypes: ["present", "absent"], of: ["absent", "present", "present"] },
      (v) => read(v, "reber2015"),
    ),
  ],
};

/**
 * Alpha-s1-casein of the milk: alleles add up. A and B stand for the strong ones, E intermediate, F weak, O none.
 *
 * Source: [dst2010-casein], grams per litre and copy; [omia-000852], its number. Founder frequencies: judged; E and F
 *         together are 0.47 to 0.79 in Saanen, Alpine and Toggenburg [torres-vazquez2008]; a herd's own tests are better.
 */
export const ALPHA_S1_CASEIN: Locus = {
  id: "alpha-s1-casein",
  name: "Alpha-s1-casein",
  omia: "OMIA:000852-9925",
  alleles: ["A", "B", "E", "F", "O"],
  inheritance: "autosomal",
  founders: { default: judged([0.2, 0.15, 0.35, 0.25, 0.05]), breeds: {} },
  amounts: [{ id: "alpha-s1-casein", unit: "g/l", perCopy: read([3.5, 3.5, 1.1, 0.45, 0], "dst2010-casein") }],
};

const storage = twoAlleles("N", "g");
/**
 * Mucopolysaccharidosis IIID of Nubians and their crosses: recessive; two carriers have one affected kid in four.
 *
 * Source: [mps-policy2016] (74.2, 23.9 and 1.9 % of US Nubians), [colima2024] (8 carriers of 158), [gedik-kavuncu] (none of
 *         120 of 13 Turkish breeds: half an allele added, 0.5 in 241).
 */
export const MPS_IIID: Locus = {
  ...storage,
  id: "mps-iiid",
  name: "Mucopolysaccharidosis IIID",
  founders: {
    default: read(two(0.5 / 241), "gedik-kavuncu"),
    breeds: {
      nubian: read(two(0.1385), "mps-policy2016"),
      "anglo-nubian": read(two(0.1385), "mps-policy2016"),
      "mexican nubian": read(two(8 / 316), "colima2024"),
    },
  },
  traits: [
    shownBy(
      storage,
      "affected",
      "established",
      { allele: "g", phenotypes: ["healthy", "affected"], of: ["healthy", "healthy", "affected"] },
      (v) => read(v, "mps-policy2016"),
    ),
  ],
};

/**
 * How common an allele is among founders where a share of animals has it once beside another allele: the smaller root of
 * 2q(rest - q) = share. Where more have it than chance meetings ever give, the frequency of which most do.
 *
 * Assumes: alleles met by chance, as the inference does; `rest` is what both alleles together have.
 */
const frequencyFrom = (share: number, rest = 1): number => (rest - Math.sqrt(Math.max(0, rest ** 2 - 2 * share))) / 2;

const codon222 = (qk: number) => read(two(frequencyFrom(qk)), "zeineldin2021");
/**
 * Codon 222 of the prion protein gene: K protects against classical scrapie.
 *
 * Source: [efsa2017], [zeineldin2021] (shares of QK among 6,029 US goats).
 */
export const PRNP_222: Locus = {
  id: "prnp-222",
  name: "Scrapie, codon 222",
  alleles: ["Q", "K"],
  inheritance: "autosomal",
  founders: {
    default: codon222(0.006),
    breeds: { oberhasli: codon222(0.231), toggenburg: codon222(0.22) },
  },
};

/** D was not printed in that survey's summary and is given one in a thousand: our judgement. */
const D_146 = 0.001;
/** Frequencies of N, S and D at codon 146 from the share of NS. */
const codon146 = (ns: number) => {
  const s = frequencyFrom(ns, 1 - D_146);
  return read([1 - s - D_146, s, D_146], "zeineldin2021");
};
/** Codon 146 of the prion protein gene: S and D protect against classical scrapie. Source: [efsa2017], [zeineldin2021]. */
export const PRNP_146: Locus = {
  id: "prnp-146",
  name: "Scrapie, codon 146",
  alleles: ["N", "S", "D"],
  inheritance: "autosomal",
  founders: {
    default: codon146(0.22),
    breeds: {
      savanna: codon146(0.655),
      boer: codon146(0.367),
      nubian: codon146(0.363),
      lamancha: codon146(0.356),
    },
  },
};

const ears = twoAlleles("S", "s");
const EARS = ["gopher", "elf", "erect"] as const;
/**
 * Short ears. Breeders: two copies gopher, one elf, none erect ears; an encyclopaedia calls earlessness recessive. No study
 * of the gene was found, so both views are kept.
 */
export const SHORT_EARS: Locus = {
  ...ears,
  id: "short-ears",
  name: "Short ears",
  founders: { default: judged([0.01, 0.99]), breeds: { lamancha: judged([0.9, 0.1]) } },
  traits: [
    shownBy(ears, "ears", "belief", { allele: "S", phenotypes: EARS, of: ["erect", "elf", "gopher"] }, said),
    shownBy(ears, "ears", "disputed", { allele: "S", phenotypes: EARS, of: ["erect", "erect", "gopher"] }, (v) =>
      read(v, "encyclopaedia-inheritance"),
    ),
  ],
};

const eyes = twoAlleles("B", "b");
/** Blue eyes: breeders say dominant, and also tell of skipped generations. No study and no gene were found. */
export const BLUE_EYES: Locus = {
  ...eyes,
  id: "blue-eyes",
  name: "Blue eyes",
  founders: { default: judged([0.1, 0.9]), breeds: {} },
  traits: [
    shownBy(
      eyes,
      "eyes",
      "belief",
      { allele: "B", phenotypes: ["blue", "brown"], of: ["brown", "blue", "blue"] },
      said,
    ),
  ],
};

const stiff = twoAlleles("N", "m");
const STIFFNESS = ["normal", "myotonic"] as const;
/**
 * Myotonia of goats that stiffen when startled. The catalogue of traits calls it dominant, two laboratories recessive; both
 * views are kept.
 *
 * Source: OMIA 000698, [beck1996] (the change in CLCN1), [vgl-myotonia]. Founder frequencies: judged.
 */
export const MYOTONIA: Locus = {
  ...stiff,
  id: "myotonia",
  name: "Myotonia",
  omia: "OMIA:000698-9925",
  founders: {
    default: judged(two(0.001)),
    breeds: { myotonic: judged(two(0.9)), "tennessee fainting": judged(two(0.9)) },
  },
  traits: [
    shownBy(
      stiff,
      "stiffness",
      "disputed",
      { allele: "m", phenotypes: STIFFNESS, of: ["normal", "myotonic", "myotonic"] },
      (v) => read(v, "omia-000698"),
    ),
    shownBy(
      stiff,
      "stiffness",
      "disputed",
      { allele: "m", phenotypes: STIFFNESS, of: ["normal", "normal", "myotonic"] },
      (v) => read(v, "vgl-myotonia"),
    ),
  ],
};

/** Every locus that comes with the program. */
export const SHIPPED_LOCI: readonly Locus[] = [
  POLLED,
  WATTLES,
  ALPHA_S1_CASEIN,
  MPS_IIID,
  PRNP_222,
  PRNP_146,
  SHORT_EARS,
  BLUE_EYES,
  MYOTONIA,
];

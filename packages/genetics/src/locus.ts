import { oncePer, type Sourced } from "@pollard/base";
import type { ChromosomalSex } from "./vocabulary.ts";

/** How common each allele is among animals whose parents are unknown. One number per allele, in the locus's order. */
export interface FounderFrequencies {
  /** Used for a breed that is not listed, and where the breed is not known. */
  readonly default: Sourced<readonly number[]>;
  /** By breed; keys in the form `breedKey` gives. */
  readonly breeds: Readonly<Record<string, Sourced<readonly number[]>>>;
}

/**
 * How sure it is that a locus makes a trait: read in studies, said differently by different sources, or only believed by
 * people who keep goats.
 */
export type Standing = "established" | "disputed" | "belief";

/** What can be seen of a genotype. Where sources disagree a locus carries one trait for each view. */
export interface LocusTrait {
  readonly id: string;
  readonly standing: Standing;
  readonly phenotypes: readonly string[];
  /** Chance of each phenotype, by sex and genotype (order of `genotypesOf(locus, sex)`). Rows sum to 1. */
  readonly expression: Sourced<Readonly<Record<ChromosomalSex, readonly (readonly number[])[]>>>;
}

/** An amount to which each copy of an allele adds its part. */
export interface LocusAmount {
  readonly id: string;
  readonly unit: string;
  /** Per allele, in the locus's order. */
  readonly perCopy: Sourced<readonly number[]>;
}

/** One place on the chromosomes that can carry different alleles. Loci are data: the engine knows none by name. */
export interface Locus {
  readonly id: string;
  /** What a keeper calls it. */
  readonly name: string;
  /** As breeders write them. Genotypes are ordered by this order. */
  readonly alleles: readonly string[];
  readonly inheritance: "autosomal" | "x-linked";
  /** Number in the catalogue of inherited traits in animals. */
  readonly omia?: string;
  readonly founders: FounderFrequencies;
  readonly traits?: readonly LocusTrait[];
  readonly amounts?: readonly LocusAmount[];
}

/** The alleles of one genotype, as positions in the locus's list: two, or one where there is one X only. */
export type AllelePair = readonly [number, number] | readonly [number];

/**
 * Every genotype an animal can have at a locus, by its alleles.
 *
 * Shape: autosomal, and X-linked in XX: all unordered pairs, first allele's pairs first. X-linked in XY: each allele once.
 *        X-linked without a sex: the XX ones, then the XY ones.
 */
export function allelePairs(locus: Locus, sex?: ChromosomalSex): readonly AllelePair[] {
  const known = pairsBySex(locus);
  const pairs = known.get(sex) ?? listedPairs(locus, sex);
  known.set(sex, pairs);
  return pairs;
}

/** Lists already made: every animal asks for the same few. */
const pairsBySex = oncePer<Locus, Map<ChromosomalSex | undefined, readonly AllelePair[]>>(() => new Map());

function listedPairs(locus: Locus, sex: ChromosomalSex | undefined): readonly AllelePair[] {
  const one = locus.alleles.map((_, a): AllelePair => [a]);
  if (locus.inheritance === "x-linked" && sex === "XY") return one;
  const two = locus.alleles.flatMap((_, a) => locus.alleles.slice(a).map((_, b): AllelePair => [a, a + b]));
  return locus.inheritance === "x-linked" && sex === undefined ? [...two, ...one] : two;
}

/**
 * The genotypes at a locus as breeders write them, in the order of every list of chances about it.
 *
 * Single-letter alleles are written together; longer names with a stroke. One X only is written `A/Y`.
 *
 * @example
 * genotypesOf(POLLED); // ["PP", "Pp", "pp"]
 */
export function genotypesOf(locus: Locus, sex?: ChromosomalSex): readonly string[] {
  const short = locus.alleles.every((a) => a.length === 1);
  const name = (a: number): string => locus.alleles[a] ?? "";
  return allelePairs(locus, sex).map((pair) =>
    pair.length === 1 ? `${name(pair[0])}/Y` : `${name(pair[0])}${short ? "" : "/"}${name(pair[1])}`,
  );
}

/** The form in which a breed's name is looked up: case, accents and outer blanks make no difference. */
export const breedKey = (breed: string): string =>
  breed.normalize("NFD").replaceAll(/\p{M}/gu, "").trim().toLowerCase().replaceAll(/\s+/gu, " ");

/** The allele frequencies to assume for an animal of this breed whose parents are unknown. */
export function founderFrequencies(
  founders: FounderFrequencies,
  breed: string | undefined,
): Sourced<readonly number[]> {
  const key = breed === undefined ? undefined : breedKey(breed);
  return key !== undefined && Object.hasOwn(founders.breeds, key)
    ? (founders.breeds[key] ?? founders.default)
    : founders.default;
}

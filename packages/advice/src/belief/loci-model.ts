import { breedKey, founderFrequencies, type Locus, POLLED } from "@pollard/genetics";
import type { Herd } from "@pollard/records";
import { outOfHundred } from "../counted.ts";
import { herdBreedOf } from "../settings.ts";
import { herdLoci, LOCUS_SETTING, type LocusSettingProblem, ownFrequencies } from "./herd-loci.ts";

/** One locus as the herd has it. */
export interface LocusLine {
  readonly locus: Locus;
  /** Comes with the program, or described by the keeper. */
  readonly from: "pollard" | "keeper";
  /** Animals with a test of it, or with something seen that it makes. */
  readonly recorded: number;
  /** How many in 100 alleles of unknown parents are of each allele, in the locus's order; they sum to 100. */
  readonly inHundred: readonly number[];
  /** The same as shares, not rounded. */
  readonly shares: readonly number[];
  /** Whether the keeper set that, for the breed asked about or, without one, for every breed. */
  readonly isOwnFrequency: boolean;
}

/** The loci of a herd for a screen: those that come with the program, the keeper's own, and descriptions that cannot be used. */
export interface LociModel {
  readonly lines: readonly LocusLine[];
  readonly problems: readonly { readonly locus: string; readonly problem: LocusSettingProblem }[];
  /** Whose founders' frequencies stand in the lines; every breed's without it. */
  readonly breed: string | undefined;
  /** The breeds of the herd, each as it was first written. */
  readonly breeds: readonly string[];
}

/**
 * The loci a herd looks at, with their founders' frequencies, what was found, and what is wrong with a keeper's own.
 *
 * `breed`: whose founders' frequencies are given; without it those of the herd's breed, or what is set for every breed.
 */
export function lociModel(herd: Herd, breed?: string): LociModel {
  const { loci, problems } = herdLoci(herd);
  const usual = breed ?? herdBreedOf(herd);
  const animals = [...herd.animals.values()];
  const lines = loci.map((locus): LocusLine => {
    const seen = new Set((locus.traits ?? []).map(({ id }) => id));
    const own = ownFrequencies(herd, locus, breed);
    const isRecorded = ({ tests, traits, head }: (typeof animals)[number]): boolean =>
      (locus.id === POLLED.id && head !== undefined) ||
      tests.some((test) => test.locus === locus.id) ||
      traits.some(({ trait }) => seen.has(trait));
    const shares = own ?? ownFrequencies(herd, locus) ?? founderFrequencies(locus.founders, usual).value;
    return {
      locus,
      from: herd.settings.has(`${LOCUS_SETTING}${locus.id}`) ? "keeper" : "pollard",
      recorded: animals.filter(isRecorded).length,
      inHundred: outOfHundred(shares),
      shares,
      isOwnFrequency: own !== undefined,
    };
  });
  return { lines, problems, breed, breeds: breedsOf(herd) };
}

function breedsOf(herd: Herd): readonly string[] {
  const named = [herdBreedOf(herd), ...[...herd.animals.values()].map(({ breed }) => breed)];
  const byKey = new Map<string, string>();
  for (const breed of named)
    if (breed !== undefined && !byKey.has(breedKey(breed))) byKey.set(breedKey(breed), breed.trim());
  return [...byKey.values()].sort((a, b) => (breedKey(a) < breedKey(b) ? -1 : 1));
}

/** Fewest in 100 that an allele may be set to: what is never there could not be found. */
const FEWEST = 1;
/** Figures of a share that count. */
const DIGITS = 6;

/**
 * What a locus's founder frequencies are set to when one allele is to make up so many in 100: the others keep their
 * proportions to one another.
 *
 * Units: `inHundred` from 1 to 99; what is outside is taken for the nearest.
 *
 * @example
 * frequencyValue([0.2, 0.15, 0.35, 0.25, 0.05], 0, 60); // "60 7.5 17.5 12.5 2.5"
 */
export function frequencyValue(shares: readonly number[], at: number, inHundred: number): number | string {
  const own = Math.min(100 - FEWEST, Math.max(FEWEST, inHundred));
  if (shares.length === 2) return at === 0 ? own : 100 - own;
  const rest = shares.reduce((sum, share, i) => (i === at ? sum : sum + share), 0);
  const others = (share: number): number => (100 - own) * (rest > 0 ? share / rest : 1 / (shares.length - 1));
  return shares.map((share, i) => Number((i === at ? own : others(share)).toPrecision(DIGITS))).join(" ");
}
/** The setting that keeps a keeper's own locus. */
export const locusKey = (id: string): string => `${LOCUS_SETTING}${id}`;

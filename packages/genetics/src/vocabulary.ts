import type { Brand, Probability } from "@pollard/base";

/** Names one goat, for ever. Opaque text: tags and names may change, this does not. */
export type AnimalId = Brand<string, "AnimalId">;

/** An id as it stands in a file or a test. Any text is an id; what makes no sense is caught where records are read. */
export const animalId = (text: string): AnimalId => text as AnimalId;

/** The sex chromosomes, which what the animal looks like does not always tell. */
export const CHROMOSOMAL_SEXES = ["XX", "XY"] as const;
export type ChromosomalSex = (typeof CHROMOSOMAL_SEXES)[number];

/** The two alleles a goat carries at the polled locus, as breeders write them. Order of every three-number belief. */
export const POLLED_GENOTYPES = ["PP", "Pp", "pp"] as const;
export type PolledGenotype = (typeof POLLED_GENOTYPES)[number];

/** What we believe of one goat's polled genotype: three chances that sum to 1. */
export type PolledBelief = Readonly<Record<PolledGenotype, Probability>>;

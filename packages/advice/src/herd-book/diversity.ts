import {
  type AnimalId,
  completeGenerations,
  effectiveFounders,
  effectiveSizeFromInbreeding,
  founderGenomes,
  founderShares,
  inbreeding,
  type Inbreeding,
  marginalAncestors,
  meanKinship,
  numberedPedigree,
} from "@pollard/genetics";
import { animalRef } from "../animal-ref.ts";
import type { AnimalRef } from "../animal-ref.ts";
import type { Situation } from "../situation.ts";

/** A founder or an ancestor, and its share of a group's genes. */
export interface GeneShare<Who> {
  readonly who: Who;
  readonly share: number;
}

/** How much of what once came into a group of animals is still in it, and how kin they are. */
export interface Diversity<Who = AnimalId> {
  /** How many animals the group has. */
  readonly animals: number;
  /** Those with a share, largest first. */
  readonly founders: readonly GeneShare<Who>[];
  readonly effectiveFounders: number;
  /** One after the other, each with what it adds; the group's own animals are none. */
  readonly ancestors: readonly GeneShare<Who>[];
  readonly effectiveAncestors: number;
  readonly founderGenomes: number;
  /** Every animal with itself included. */
  readonly meanKinship: number;
  readonly meanInbreeding: number;
  /** How many generations back the pedigree is known, on average. */
  readonly completeGenerations: number;
  /** `undefined` where nobody is inbred, or no pedigree is known more than one generation back. */
  readonly effectiveSize: number | undefined;
}

/**
 * Founders, ancestors and effective numbers of a group of a pedigree; `undefined` for a group without animals.
 *
 * Shape:  the group by position.
 * Source: genetics' GE-21, GE-22; rule AD-55.
 */
export function diversityOf(known: Inbreeding, group: readonly number[]): Diversity | undefined {
  if (group.length === 0) return undefined;
  const { pedigree, f } = known;
  const idOf = (at: number): AnimalId | undefined => pedigree.ids[at];
  const shares = founderShares(pedigree, group);
  const founders = [...shares]
    .flatMap((share, at) => {
      const who = idOf(at);
      return share > 0 && who !== undefined ? [{ who, share }] : [];
    })
    .sort((a, b) => b.share - a.share);
  const chosen = marginalAncestors(pedigree, group);
  const depth = completeGenerations(pedigree);
  const mean = (of: ArrayLike<number>): number => group.reduce((sum, at) => sum + (of[at] ?? 0), 0) / group.length;
  return {
    animals: group.length,
    founders,
    effectiveFounders: effectiveFounders(ofKnown(shares)),
    ancestors: chosen.flatMap(({ ancestor, share }) => {
      const who = idOf(ancestor);
      return who === undefined ? [] : [{ who, share }];
    }),
    effectiveAncestors: effectiveFounders(ofKnown(Float64Array.from(chosen, ({ share }) => share))),
    founderGenomes: founderGenomes(known, group),
    meanKinship: meanKinship(known, group),
    meanInbreeding: mean(f),
    completeGenerations: mean(depth),
    effectiveSize: effectiveSizeFromInbreeding(known, group),
  };
}

/** Shares of what is known alone: where a parent is unknown they would not sum to 1, and seem more even than they are. */
function ofKnown(shares: Float64Array): Float64Array {
  const sum = shares.reduce((a, b) => a + b, 0);
  return sum > 0 ? shares.map((share) => share / sum) : shares;
}

/** Chance of a buck nobody wrote down from which a kid's sire counts as unknown. */
const STRANGER = 0.5;

/**
 * The same of the young of the herd: goats that are here and have no kids yet. Each kid's likeliest sire counts as its sire.
 *
 * Shape:  `undefined` where no young goat has a known parent.
 * Source: rule AD-55.
 */
export function herdDiversity(situation: Situation): Diversity<AnimalRef> | undefined {
  const { herd, beliefs } = situation;
  const rows = [...herd.animals.values()].map(({ id, dam }) => {
    const [likeliest] = beliefs.sires(id);
    return { id, dam, sire: likeliest !== undefined && likeliest[1] >= STRANGER ? likeliest[0] : undefined };
  });
  const { pedigree } = numberedPedigree(rows);
  const young = [...herd.animals.values()].filter(
    ({ id, departure, bornAs, dam, sires }) =>
      departure === undefined &&
      bornAs !== "dead" &&
      situation.kidsOf(id).length === 0 &&
      (dam ?? sires[0]) !== undefined,
  );
  const group = young.flatMap(({ id }) => pedigree.positions.get(id) ?? []);
  const found = diversityOf(inbreeding(pedigree), group);
  if (found === undefined) return undefined;
  const named = ({ who, share }: GeneShare<AnimalId>) => ({ who: animalRef(herd, who), share });
  return { ...found, founders: found.founders.map(named), ancestors: found.ancestors.map(named) };
}

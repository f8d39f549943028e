import { oncePer, present } from "@pollard/base";
import { f64 } from "../inference/cell.ts";
import { type AllelePair, allelePairs, type Locus } from "../locus.ts";
import { CHROMOSOMAL_SEXES, type ChromosomalSex } from "../vocabulary.ts";

/** One thing an animal can be: a genotype, with its chromosomal sex where that has a say. */
export interface State {
  readonly sex: ChromosomalSex | undefined;
  /** Position in `genotypesOf(locus)`, and in `genotypesOf(locus, sex)` for each sex. */
  readonly genotype: number;
  readonly within: number;
  /** Position among all states of its kind of space. */
  readonly place: number;
  readonly alleles: AllelePair;
}

/** All that an animal can be. `key` names the space: animals of equal key have equal states. */
export interface StateSpace {
  readonly kind: SpaceKind;
  readonly key: string;
  readonly states: readonly State[];
}

/** How sex enters the states: left out, one sex only, or each genotype with its sex. */
export type SpaceKind = "merged" | "XX" | "XY" | "sexed";

/**
 * The spaces a locus needs.
 *
 * Away from the sex chromosomes a parent of either sex hands on its alleles alike, so sex is left out (`merged`) and
 * worked out afterwards from the genotype. It stays in (`sexed`, or one sex only) at an X-linked locus, and for an
 * animal of doubtful sex that is one of several possible sires: were it XX, it could not be the one.
 */
export const stateSpaces = oncePer((locus: Locus): StateSpaces => {
  const autosomal = locus.inheritance === "autosomal";
  const xxCount = allelePairs(locus, "XX").length;
  const of = (kind: SpaceKind, ...sexes: readonly (ChromosomalSex | undefined)[]): StateSpace => ({
    kind,
    key: kind,
    states: sexes
      .flatMap((sex) => allelePairs(locus, sex).map((alleles, within) => ({ sex, within, alleles })))
      .map(({ sex, within, alleles }, place) => ({
        sex,
        within,
        place,
        genotype: !autosomal && sex === "XY" ? xxCount + within : within,
        alleles,
      })),
  });
  return {
    merged: of("merged", undefined),
    XX: of("XX", "XX"),
    XY: of("XY", "XY"),
    sexed: of("sexed", ...CHROMOSOMAL_SEXES),
  };
});

export type StateSpaces = Readonly<Record<SpaceKind, StateSpace>>;

/** The states for which `isPossible` holds, by their place; the space itself if all or none are. */
export function narrowed(space: StateSpace, isPossible: (at: number) => boolean): StateSpace {
  const kept = space.states.filter((_, at) => isPossible(at));
  if (kept.length === 0 || kept.length === space.states.length) return space;
  const mask = space.states.map((_, at) => (isPossible(at) ? "1" : "0")).join("");
  return { kind: space.kind, key: `${space.key} ${mask}`, states: kept };
}

/** Of a list of something about all states of a kind of space: what is about the states of one of that kind. */
export const ofStates = ({ states }: StateSpace, list: Float64Array): Float64Array =>
  Float64Array.from(states, ({ place }) => f64(list, place));

/** The chances of each allele in what a parent hands on, one row per state of the parent; all 0 = cannot be that parent. */
export type Gametes = readonly (readonly number[])[];

const oneHot = (length: number, at: number): number[] => Array.from({ length }, (_, i) => (i === at ? 1 : 0));

/**
 * What a parent of each state hands on.
 *
 * A sire with one X hands that allele to daughters and a Y to sons; his row says which allele the daughters get.
 */
export function gametesOf(space: StateSpace, role: "dam" | "sire", alleles: number): Gametes {
  const barred: ChromosomalSex = role === "dam" ? "XY" : "XX";
  return space.states.map(({ sex, alleles: pair }) => {
    if (sex === barred) return oneHot(alleles, -1);
    const [a, b] = pair.length === 1 ? [pair[0], pair[0]] : pair;
    return Array.from({ length: alleles }, (_, i) => (i === a ? 0.5 : 0) + (i === b ? 0.5 : 0));
  });
}

/** What is handed on when the allele itself is the variable. */
export const gametesOfAllele = (alleles: number): Gametes =>
  Array.from({ length: alleles }, (_, a) => oneHot(alleles, a));

/**
 * P(kid's genotype | dam, sire, kid's sex), for every state of the three.
 *
 * Shape: row-major over dam's rows, sire's rows, kid's states. A kid of one X gets it from its dam.
 */
export function transmissionTable(dam: Gametes, sire: Gametes, kid: StateSpace): Float64Array {
  const table = new Float64Array(dam.length * sire.length * kid.states.length);
  let at = 0;
  for (const d of dam)
    for (const s of sire) {
      const total = s.reduce((x, y) => x + y, 0);
      const get = (row: readonly number[], allele: number): number => present(row[allele], "an allele of the locus");
      for (const { alleles: pair } of kid.states) {
        const [a, b] = pair;
        if (b === undefined) table[at++] = get(d, a) * total;
        else table[at++] = get(d, a) * get(s, b) + (a === b ? 0 : get(d, b) * get(s, a));
      }
    }
  return table;
}

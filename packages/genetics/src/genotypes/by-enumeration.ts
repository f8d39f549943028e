import { present } from "@pollard/base";
import { allelePairs, founderFrequencies, genotypesOf } from "../locus.ts";
import { type AnimalId, CHROMOSOMAL_SEXES, type ChromosomalSex } from "../vocabulary.ts";
import type { Member, PedigreeProblem } from "../pedigree/pedigree-problem.ts";

/** What the slow way finds. Weights are not divided by `total`, so an impossible problem shows as 0. */
export interface Enumeration {
  readonly total: number;
  /** Per animal: weight of each genotype within each sex. */
  readonly bySex: ReadonlyMap<AnimalId, Readonly<Record<ChromosomalSex, number[]>>>;
  /** Per animal: weight of each candidate sire, in the order given. */
  readonly sires: ReadonlyMap<AnimalId, number[]>;
  /** Weight of every combination of genotypes (of `genotypesOf(locus)`), by the genotypes' names in order of members. */
  readonly combinations: ReadonlyMap<string, number>;
}

interface Choice {
  readonly sex: ChromosomalSex;
  /** Letters, two or one. */
  readonly alleles: readonly number[];
  readonly within: number;
  readonly sire: number;
}

/** What a litter was found to be: all by one of its possible sires, or each kid by its own. */
type Pattern = number | "mixed";

/** Kids that may have one sire: of one litter, with the same candidates at the same weights. */
const litterKey = ({ litter, sires }: Member): string | undefined =>
  litter && JSON.stringify([litter, sires.map(({ sire, weight }) => [sire ?? null, weight])]);

/**
 * The slow twin of `inferGenotypes`: every combination of sex, genotype and sire of all animals, one by one.
 *
 * Assumes: the problem has no issues, and every parent stands before its kids.
 * Cost:    exponential in the number of animals; for tests and the bench.
 */
export function byEnumeration(problem: PedigreeProblem): Enumeration {
  const { locus, members } = problem;
  const dams = new Set(members.map((m) => m.dam));
  const likelySires = new Set(
    members.flatMap(({ sires }) => {
      const total = sires.reduce((s, c) => s + c.weight, 0);
      return sires.filter((c) => c.weight > total / 2).map((c) => c.sire);
    }),
  );
  const bySex = new Map(
    members.map((m) => [
      m.id,
      { XX: genotypesOf(locus, "XX").map(() => 0), XY: genotypesOf(locus, "XY").map(() => 0) },
    ]),
  );
  const sires = new Map(members.map((m) => [m.id, m.sires.map(() => 0)]));
  const combinations = new Map<string, number>();
  const names = { XX: genotypesOf(locus, "XX"), XY: genotypesOf(locus, "XY") };
  const nameOf = ({ sex, within }: Choice): string => present(names[sex][within], "a genotype");
  const pairs = { XX: allelePairs(locus, "XX"), XY: allelePairs(locus, "XY") };
  let total = 0;

  const chosen = new Map<AnimalId, Choice>();
  const patterns = new Map<string, Pattern>();
  const visit = (at: number, weight: number): void => {
    if (weight === 0) return;
    const m = members[at];
    if (!m) {
      total += weight;
      for (const [id, { sex, within, sire }] of chosen) {
        const row = present(bySex.get(id), "an animal")[sex];
        row[within] = present(row[within], "a genotype") + weight;
        const candidates = present(sires.get(id), "an animal");
        if (sire >= 0) candidates[sire] = present(candidates[sire], "a candidate") + weight;
      }
      const key = members.map((x) => nameOf(present(chosen.get(x.id), "a choice"))).join();
      combinations.set(key, (combinations.get(key) ?? 0) + weight);
      return;
    }
    const xx = dams.has(m.id) ? 1 : likelySires.has(m.id) ? 0 : m.xx;
    for (const sex of CHROMOSOMAL_SEXES)
      pairs[sex].forEach((alleles, within) => {
        const own = (sex === "XX" ? xx : 1 - xx) * m.evidence.reduce((p, e) => p * (e.likelihood[sex][within] ?? 0), 1);
        if (own === 0) return;
        for (const way of waysOf(m, patterns)) {
          const dam = m.dam === undefined ? undefined : chosen.get(m.dam);
          const sire = way.sire === undefined ? undefined : chosen.get(way.sire);
          const key = litterKey(m);
          const before = key === undefined ? undefined : patterns.get(key);
          chosen.set(m.id, { sex, alleles, within, sire: way.at });
          if (key !== undefined && way.pattern !== undefined) patterns.set(key, way.pattern);
          visit(at + 1, weight * own * way.weight * originChance(problem, m, { sex, alleles, within }, dam, sire));
          chosen.delete(m.id);
          if (key !== undefined && before === undefined) patterns.delete(key);
        }
      });
  };
  visit(0, 1);
  return { total, bySex, sires, combinations };
}

interface Way {
  readonly sire: AnimalId | undefined;
  readonly weight: number;
  readonly at: number;
  /** What the kid's litter was found to be, if it has one. */
  readonly pattern: Pattern | undefined;
}

/** Every way who an animal's sire may be; the first kid of a litter settles with it what the litter is. */
function waysOf(m: Member, patterns: ReadonlyMap<string, Pattern>): readonly Way[] {
  if (m.sires.length === 0) return [{ sire: undefined, weight: 1, at: -1, pattern: undefined }];
  const total = m.sires.reduce((s, c) => s + c.weight, 0);
  const own = m.sires.map((c, at) => ({
    ...c,
    at,
    weight: c.weight / total,
    said: m.sires.length > 1 ? (c.said ?? 1) : 1,
  }));
  const key = litterKey(m);
  if (key === undefined || m.litter === undefined)
    return own.map((c) => ({ ...c, weight: c.weight * c.said, pattern: undefined }));
  const known = patterns.get(key);
  const { mixed } = m.litter;
  const forAll = known === "mixed" ? [] : own.filter((c) => known === undefined || c.at === known);
  return [
    ...forAll.map((c) => ({
      ...c,
      weight: known === undefined ? (1 - mixed) * c.weight * c.said : c.said,
      pattern: c.at,
    })),
    ...(known === undefined || known === "mixed" ? own : []).map(
      (c): Way => ({ ...c, weight: (known === undefined ? mixed : 1) * c.weight * c.said, pattern: "mixed" }),
    ),
  ];
}

function originChance(
  problem: PedigreeProblem,
  m: Member,
  kid: { readonly sex: ChromosomalSex; readonly alleles: readonly number[]; readonly within: number },
  dam: Choice | undefined,
  sire: Choice | undefined,
): number {
  const { locus } = problem;
  if (dam === undefined && m.sires.length === 0 && m.founderPrior !== undefined) {
    const before = locus.inheritance === "x-linked" && kid.sex === "XY" ? genotypesOf(locus, "XX").length : 0;
    return m.founderPrior[before + kid.within] ?? 0;
  }
  if (dam?.sex === "XY" || sire?.sex === "XX") return 0;
  const founders = problem.frequencies?.default ?? founderFrequencies(locus.founders, m.breed).value;
  const handsOn = (parent: Choice | undefined, allele: number): number =>
    parent === undefined
      ? (founders[allele] ?? 0)
      : parent.alleles.filter((a) => a === allele).length / parent.alleles.length;
  const [a, b] = kid.alleles;
  if (a === undefined) return 0;
  if (b === undefined) return handsOn(dam, a);
  return handsOn(dam, a) * handsOn(sire, b) + (a === b ? 0 : handsOn(dam, b) * handsOn(sire, a));
}

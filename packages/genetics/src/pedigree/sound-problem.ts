import { present } from "@pollard/base";
import { allelePairs, breedKey, founderFrequencies, genotypesOf, type Locus } from "../locus.ts";
import { type AnimalId, CHROMOSOMAL_SEXES, type ChromosomalSex } from "../vocabulary.ts";
import { littersOf, siresOfLitter } from "./litters.ts";
import type { BirthLitter, Evidence, Member, PedigreeProblem } from "./pedigree-problem.ts";

/** What is wrong with a problem as it was given, and how the engine goes on. */
export type GenotypeProblemIssue =
  /** Nothing can be inferred at all. */
  | { readonly code: "locus-without-alleles"; readonly locus: string }
  | { readonly code: "allele-twice"; readonly locus: string; readonly allele: string }
  /** Not one number from 0 to 1 per allele, or they do not sum to 1: the next default is taken. */
  | { readonly code: "bad-frequencies"; readonly breed: string | undefined; readonly got: readonly number[] }
  /** The first of the two is kept. */
  | { readonly code: "duplicate-id"; readonly animal: AnimalId }
  /** The parent is taken as unknown. */
  | { readonly code: "missing-dam"; readonly animal: AnimalId; readonly parent: AnimalId }
  | { readonly code: "missing-sire"; readonly animal: AnimalId; readonly parent: AnimalId }
  /** The link from `animal` to `parent` closed a ring and is left out. */
  | { readonly code: "own-ancestor"; readonly animal: AnimalId; readonly parent: AnimalId }
  /** `parent` has kidded, so it is left out as a sire of `animal`. */
  | { readonly code: "dam-used-as-sire"; readonly animal: AnimalId; readonly parent: AnimalId }
  /** The sex chance given is 0 or 1 against what the animal has done; what it has done is taken, if that is certain. */
  | { readonly code: "sex-against-role"; readonly animal: AnimalId; readonly role: "dam" | "sire" }
  /** The weight counts as 0. */
  | {
      readonly code: "bad-weight";
      readonly animal: AnimalId;
      readonly parent: AnimalId | undefined;
      readonly got: number;
    }
  /** The chance of a mixed litter is none: each kid draws its own sire. */
  | { readonly code: "bad-litter"; readonly animal: AnimalId; readonly got: number }
  /** What is known elsewhere leaves the kid, or its litter, no sire: it is left out. */
  | { readonly code: "no-sire-left"; readonly animal: AnimalId }
  /** One half is taken. */
  | { readonly code: "bad-sex-chance"; readonly animal: AnimalId; readonly got: number }
  /** The fact is left out. */
  | { readonly code: "bad-likelihood"; readonly animal: AnimalId; readonly fact: string; readonly sex: ChromosomalSex }
  /** Hardy-Weinberg is taken. */
  | { readonly code: "bad-founder-prior"; readonly animal: AnimalId }
  /** The animal has a known parent, so its prior comes from there. */
  | { readonly code: "founder-prior-unused"; readonly animal: AnimalId };

/** A candidate sire by position; -1 is the unknown buck. Weights of one kid sum to 1; `said` is a likelihood. */
export interface SoundSire {
  readonly sire: number;
  readonly weight: number;
  readonly said: number;
}

/** A member whose every link and number holds. */
export interface SoundMember {
  readonly id: AnimalId;
  /** Position of the dam, -1 if unknown. */
  readonly dam: number;
  /** Empty, or of weights above 0. A lone unknown buck is given as empty. */
  readonly sires: readonly SoundSire[];
  readonly litter: BirthLitter | undefined;
  /** Chance of XX chromosomes: 1 for a dam, 0 for a likely sire, else `priorXx`. */
  readonly xx: number;
  readonly priorXx: number;
  readonly frequencies: readonly number[];
  readonly founderPrior: readonly number[] | undefined;
  readonly evidence: readonly Evidence[];
}

/** A problem that the engine can take as it stands. No member stands among its own ancestors. */
export interface SoundProblem {
  readonly locus: Locus;
  readonly members: readonly SoundMember[];
  readonly positions: ReadonlyMap<AnimalId, number>;
  /** Allele frequencies of the founders of a breed. */
  frequenciesOf(breed: string | undefined): readonly number[];
  readonly issues: readonly GenotypeProblemIssue[];
}

/** Everything that is wrong with a problem's structure and numbers; empty if it can be taken as it stands. */
export const checkProblem = (problem: PedigreeProblem): readonly GenotypeProblemIssue[] => soundProblem(problem).issues;

/** How far from 1 a given distribution may add up, from printed decimals alone. */
const SUM_SLACK = 1e-6;

const isWeight = (x: number): boolean => Number.isFinite(x) && x >= 0;
const sum = (xs: readonly number[]): number => xs.reduce((a, b) => a + b, 0);
const isDistribution = (xs: readonly number[], length: number): boolean =>
  xs.length === length && xs.every(isWeight) && Math.abs(sum(xs) - 1) <= SUM_SLACK;

/** The problem with every broken link and number mended, and what was mended. Never fails. */
export function soundProblem(problem: PedigreeProblem): SoundProblem {
  const { locus } = problem;
  const issues: GenotypeProblemIssue[] = checkLocus(locus);
  const kept = new Map<AnimalId, Member>();
  for (const m of problem.members) {
    if (kept.has(m.id)) issues.push({ code: "duplicate-id", animal: m.id });
    else kept.set(m.id, m);
  }
  const given = [...kept.values()];
  const positions = new Map(given.map((m, i) => [m.id, i]));
  const links = linksOf(given, positions, issues);
  const roles = rolesOf(links);
  const frequencies = frequencyLookup(problem, issues);
  if (locus.alleles.length > 0) frequencies(undefined);
  const members = given.map((m, i): SoundMember => {
    const { dam, sires } = present(links[i], "links of a member");
    return {
      id: m.id,
      dam,
      sires,
      litter: soundLitter(m, issues),
      ...sexChance(m, roles.get(i), issues),
      frequencies: frequencies(m.breed),
      founderPrior: founderPrior(m, locus, dam < 0 && sires.length === 0, issues),
      evidence: soundFindings(m, locus, issues),
    };
  });
  return { locus, members: withSireLeft(members, issues), positions, frequenciesOf: frequencies, issues };
}

function soundLitter({ id, litter }: Member, issues: GenotypeProblemIssue[]): BirthLitter | undefined {
  if (litter === undefined || (litter.mixed >= 0 && litter.mixed <= 1)) return litter;
  issues.push({ code: "bad-litter", animal: id, got: litter.mixed });
  return undefined;
}

/** The members without what is said of sires where it leaves a litter none. */
function withSireLeft(members: readonly SoundMember[], issues: GenotypeProblemIssue[]): readonly SoundMember[] {
  const toldOf = [...members.keys()].filter((i) => members[i]?.sires.some(({ said }) => said !== 1));
  if (toldOf.length === 0) return members;
  const mended = members.slice();
  for (const litter of littersOf(members, [...members.keys()])) {
    const kids = litter.kids.map((i) => present(members[i], "a kid"));
    const said = kids.map(({ sires }) => sires.map((s) => s.said));
    if (siresOfLitter(litter, said) !== undefined) continue;
    litter.kids.forEach((i, at) => {
      const kid = present(kids[at], "a kid");
      issues.push({ code: "no-sire-left", animal: kid.id });
      mended[i] = { ...kid, sires: kid.sires.map((s) => ({ ...s, said: 1 })) };
    });
  }
  return mended;
}

function checkLocus(locus: Locus): GenotypeProblemIssue[] {
  const twice = locus.alleles.filter((a, i) => locus.alleles.indexOf(a) !== i);
  return [
    ...(locus.alleles.length === 0 ? [{ code: "locus-without-alleles", locus: locus.id } as const] : []),
    ...twice.map((allele) => ({ code: "allele-twice", locus: locus.id, allele }) as const),
  ];
}

/** Allele frequencies by breed: those set by hand, then the locus's own, then even ones; the first that make sense. */
function frequencyLookup(
  problem: PedigreeProblem,
  issues: GenotypeProblemIssue[],
): (breed: string | undefined) => readonly number[] {
  const { locus, frequencies } = problem;
  const alleles = locus.alleles.length;
  const byHand = new Map(Object.entries(frequencies?.breeds ?? {}).map(([breed, f]) => [breedKey(breed), f]));
  const settled = new Map<string | undefined, readonly number[]>();
  const reported = new Set<readonly number[]>();
  const choose = (breed: string | undefined): readonly number[] => {
    const choices = [
      breed === undefined ? undefined : byHand.get(breed),
      frequencies?.default,
      founderFrequencies(locus.founders, breed).value,
    ];
    for (const got of choices) {
      if (got === undefined) continue;
      if (isDistribution(got, alleles)) return got;
      if (!reported.has(got)) issues.push({ code: "bad-frequencies", breed, got });
      reported.add(got);
    }
    return locus.alleles.map(() => 1 / alleles);
  };
  return (breed) => {
    const key = breed === undefined ? undefined : breedKey(breed);
    const known = settled.get(key) ?? choose(key);
    settled.set(key, known);
    return known;
  };
}

interface Links {
  dam: number;
  sires: SoundSire[];
}

function linksOf(
  given: readonly Member[],
  positions: ReadonlyMap<AnimalId, number>,
  issues: GenotypeProblemIssue[],
): readonly Links[] {
  const links = given.map((m): Links => {
    const dam = m.dam === undefined ? -1 : positions.get(m.dam);
    if (dam === undefined && m.dam !== undefined) issues.push({ code: "missing-dam", animal: m.id, parent: m.dam });
    return { dam: dam ?? -1, sires: [] };
  });
  const dams = new Set(links.map((l) => l.dam));
  given.forEach((m, i) => {
    const weights = new Map<number, Weighed>();
    for (const { sire, weight, said = 1 } of m.sires) {
      if (!isWeight(weight) || !isWeight(said)) {
        issues.push({ code: "bad-weight", animal: m.id, parent: sire, got: isWeight(weight) ? said : weight });
        continue;
      }
      const at = sire === undefined ? -1 : positions.get(sire);
      if (at === undefined && sire !== undefined) issues.push({ code: "missing-sire", animal: m.id, parent: sire });
      if (at !== undefined && at >= 0 && dams.has(at) && sire !== undefined)
        issues.push({ code: "dam-used-as-sire", animal: m.id, parent: sire });
      const isDoe = at !== undefined && m.sires.length > 1 && given[at]?.xx === 1;
      if (isDoe) issues.push({ code: "sex-against-role", animal: given[at]?.id ?? m.id, role: "sire" });
      const usable = at === undefined || dams.has(at) || isDoe ? -1 : at;
      addSire(weights, usable, { weight, said });
    }
    present(links[i], "links of a member").sires = normalised(weights);
  });
  cutRings(given, links, issues);
  return links;
}

type Weighed = Omit<SoundSire, "sire">;

/** Adds a candidate to those there are; what is said of two who count as one is what it comes to on the average. */
export function addSire(weights: Map<number, Weighed>, sire: number, { weight, said }: Weighed): void {
  const before = weights.get(sire) ?? { weight: 0, said: 1 };
  const both = before.weight + weight;
  weights.set(sire, { weight: both, said: both > 0 ? (before.weight * before.said + weight * said) / both : 1 });
}

/** Weights that sum to 1, of a kid whose sire is not in doubt without anything said of him. */
function normalised(weights: ReadonlyMap<number, Weighed>): SoundSire[] {
  const total = sum([...weights.values()].map(({ weight }) => weight));
  const sires = [...weights]
    .filter(([, { weight }]) => weight > 0)
    .map(([sire, { weight, said }]) => ({ sire, weight: weight / total, said }));
  if (sires.every((s) => s.sire < 0)) return [];
  return sires.length > 1 ? sires : sires.map((s) => ({ ...s, said: 1 }));
}

/** Leaves out the links that make an animal its own ancestor: depth first, each link that leads back into the line. */
function cutRings(given: readonly Member[], links: readonly Links[], issues: GenotypeProblemIssue[]): void {
  const state = given.map((): "new" | "open" | "done" => "new");
  const idOf = (i: number): AnimalId => present(given[i], "a member").id;
  const parents = (i: number): number[] => {
    const { dam, sires } = present(links[i], "links of a member");
    return [dam, ...sires.map((s) => s.sire)].filter((p) => p >= 0);
  };
  for (let start = 0; start < given.length; start++) {
    if (state[start] !== "new") continue;
    state[start] = "open";
    const line = [{ at: start, left: parents(start) }];
    for (let top = line.at(-1); top; top = line.at(-1)) {
      const parent = top.left.pop();
      if (parent === undefined) {
        state[top.at] = "done";
        line.pop();
      } else if (state[parent] === "open") {
        issues.push({ code: "own-ancestor", animal: idOf(top.at), parent: idOf(parent) });
        cut(present(links[top.at], "links of a member"), parent);
      } else if (state[parent] === "new") {
        state[parent] = "open";
        line.push({ at: parent, left: parents(parent) });
      }
    }
  }
}

function cut(link: Links, parent: number): void {
  if (link.dam === parent) link.dam = -1;
  const weights = new Map<number, Weighed>();
  for (const { sire, ...weighed } of link.sires) addSire(weights, sire === parent ? -1 : sire, weighed);
  link.sires = normalised(weights);
}

/**
 * Whether a candidate is more likely than not the sire, which is enough to take him for XY: a written sire with a little
 * doubt about the record. Of several bucks in one pen each may be the one that can sire nothing.
 */
export const isSurelySire = ({ sire, weight }: SoundSire): boolean => sire >= 0 && weight > 0.5;

/** Who has kidded, and who is more likely than not the sire of somebody. */
function rolesOf(links: readonly Links[]): ReadonlyMap<number, "dam" | "sire"> {
  const roles = new Map<number, "dam" | "sire">();
  for (const { sires } of links) for (const s of sires) if (isSurelySire(s)) roles.set(s.sire, "sire");
  for (const { dam } of links) if (dam >= 0) roles.set(dam, "dam");
  return roles;
}

function sexChance(
  m: Member,
  role: "dam" | "sire" | undefined,
  issues: GenotypeProblemIssue[],
): { readonly xx: number; readonly priorXx: number } {
  const isChance = m.xx >= 0 && m.xx <= 1;
  if (!isChance) issues.push({ code: "bad-sex-chance", animal: m.id, got: m.xx });
  else if ((role === "dam" && m.xx === 0) || (role === "sire" && m.xx === 1))
    issues.push({ code: "sex-against-role", animal: m.id, role });
  const priorXx = isChance ? m.xx : 0.5;
  return { priorXx, xx: role === undefined ? priorXx : role === "dam" ? 1 : 0 };
}

function founderPrior(
  m: Member,
  locus: Locus,
  isFounder: boolean,
  issues: GenotypeProblemIssue[],
): readonly number[] | undefined {
  const prior = m.founderPrior;
  if (prior === undefined) return undefined;
  if (!isFounder) {
    issues.push({ code: "founder-prior-unused", animal: m.id });
    return undefined;
  }
  const parts =
    locus.inheritance === "autosomal" ? [genotypesOf(locus)] : CHROMOSOMAL_SEXES.map((s) => genotypesOf(locus, s));
  let from = 0;
  for (const part of parts) {
    if (!isDistribution(prior.slice(from, from + part.length), part.length)) from = Number.NaN;
    from += part.length;
  }
  if (from === prior.length) return prior;
  issues.push({ code: "bad-founder-prior", animal: m.id });
  return undefined;
}

/** What is known of a member, without what cannot be a likelihood. */
export function soundFindings(m: Member, locus: Locus, issues: GenotypeProblemIssue[] = []): readonly Evidence[] {
  return m.evidence.filter(({ fact, likelihood }) => {
    const wrong = CHROMOSOMAL_SEXES.find((sex) => {
      const row = likelihood[sex];
      return row.length !== allelePairs(locus, sex).length || !row.every(isWeight);
    });
    if (wrong !== undefined) issues.push({ code: "bad-likelihood", animal: m.id, fact, sex: wrong });
    return wrong === undefined;
  });
}

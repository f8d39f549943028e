import { present } from "@pollard/base";
import { bestStates } from "../inference/whole-states.ts";
import { layoutMemory } from "../inference/layout-memory.ts";
import { allelePairs, genotypesOf } from "../locus.ts";
import type { AnimalId } from "../vocabulary.ts";
import { familiesOf } from "../pedigree/families.ts";
import type { GenotypeAnswer } from "../genotypes/genotype-answer.ts";
import { genotypeNetwork } from "../genotypes/genotype-network.ts";
import { inferGenotypes } from "../genotypes/infer-genotypes.ts";
import { familiesAround, logEvidence } from "./log-evidence.ts";
import type { Evidence, FrequencyOverride, PedigreeProblem } from "../pedigree/pedigree-problem.ts";
import { soundProblem } from "../pedigree/sound-problem.ts";

/** The problem without some facts, as if they had not been written down. */
export const withoutFacts = (problem: PedigreeProblem, facts: ReadonlySet<string>): PedigreeProblem => ({
  ...problem,
  members: problem.members.map((m) => ({ ...m, evidence: m.evidence.filter((e) => !facts.has(e.fact)) })),
});

/** A problem whose facts do not contradict each other: those that `answer` set aside are left out. */
const consistent = (problem: PedigreeProblem, answer: GenotypeAnswer): PedigreeProblem =>
  withoutFacts(problem, new Set(answer.conflicts.flatMap((c) => c.setAside)));

/**
 * The chance that all of some animals have one of the genotypes wanted of them: "all three does are carriers".
 *
 * Shape:  `wanted` names genotypes as `genotypesOf(locus)` writes them.
 * Cost:   two likelihoods of the families, whatever the number of animals.
 * Source: rule GE-31.
 */
export function chanceOfAll(
  problem: PedigreeProblem,
  answer: GenotypeAnswer,
  wanted: ReadonlyMap<AnimalId, readonly string[]>,
): number {
  const sound = consistent(problem, answer);
  const around = familiesAround(sound, new Set(wanted.keys()));
  const layouts = layoutMemory();
  const members = sound.members.map((m) => {
    const names = wanted.get(m.id);
    return names ? { ...m, evidence: [...m.evidence, isOneOf(problem, names)] } : m;
  });
  return Math.exp(logEvidence({ ...sound, members }, around, layouts) - logEvidence(sound, around, layouts));
}

function isOneOf({ locus }: PedigreeProblem, names: readonly string[]): Evidence {
  const row = (sex: "XX" | "XY") => genotypesOf(locus, sex).map((g) => (names.includes(g) ? 1 : 0));
  return { fact: "", likelihood: { XX: row("XX"), XY: row("XY") } };
}

/** The single most probable way things may be, of all animals at once. */
export interface MostProbable {
  /** As `genotypesOf(locus)` writes them. */
  readonly genotypes: ReadonlyMap<AnimalId, string>;
  /** Its chance among all ways: small in a large herd, even where each animal by itself is nearly sure. */
  readonly chance: number;
}

/** Cells of the search for it. */
const CELLS = 1 << 22;

/**
 * The most probable genotypes of the whole herd together. They need not be each animal's own most probable one, but unlike
 * those they fit each other.
 *
 * Shape:   `undefined` where a family is too entangled.
 * Assumes: where one of several bucks is the sire, the most probable buck is meant along with the genotypes, and of litter
 *          mates whether their litter has one sire.
 * Source:  [dawid1992]; rule GE-31.
 */
export function mostProbable(problem: PedigreeProblem, answer: GenotypeAnswer): MostProbable | undefined {
  const { locus, members } = soundProblem(consistent(problem, answer));
  const names = genotypesOf(locus);
  const genotypes = new Map<AnimalId, string>();
  let log = 0;
  for (const family of familiesOf(members)) {
    const network = genotypeNetwork(locus, members, family);
    const best = bestStates(network.graph, CELLS);
    if (!best) return undefined;
    log += best.log;
    for (const i of family) {
      const at = present(best.states[present(network.variables.get(i), "a variable")], "a state");
      const state = present(network.spaces.get(i)?.states[at], "a state of the space");
      genotypes.set(present(members[i], "a member").id, present(names[state.genotype], "a genotype"));
    }
  }
  return { genotypes, chance: Math.exp(log - answer.logLikelihood) };
}

/** What one fact does to the belief about an animal. */
export interface Influence {
  readonly fact: string;
  /** Of whom the fact is. */
  readonly of: AnimalId;
  /** What would be believed without it (order of `genotypesOf`). */
  readonly without: readonly number[];
  /** By how much of chance the belief would move: half the sum of the differences. */
  readonly shift: number;
}

/** Steps of parentage within which facts are tried, if none are named: parents, kids, litter mates, mates. */
const NEAR = 2;

/**
 * What the belief about an animal rests on: "without this reading: …", the fact of most influence first.
 *
 * Cost:   one inference per fact, with the layout kept. By default the facts of the animal and of those within two steps.
 * Source: rule GE-31.
 */
export function influences(
  problem: PedigreeProblem,
  answer: GenotypeAnswer,
  animal: AnimalId,
  facts?: ReadonlySet<string>,
): readonly Influence[] {
  const sound = consistent(problem, answer);
  const around = familiesAround(sound, new Set([animal]));
  const family = { ...sound, members: sound.members.filter((m) => around.has(m.id)) };
  const near = neighbourhood(family, animal, NEAR);
  const layouts = layoutMemory();
  const now = answer.belief(animal).genotypes;
  const tried = family.members.flatMap((m) =>
    m.evidence.filter((e) => (facts ? facts.has(e.fact) : near.has(m.id))).map((e) => ({ of: m.id, fact: e.fact })),
  );
  return tried
    .map(({ of, fact }): Influence => {
      const without = inferGenotypes(withoutFacts(family, new Set([fact])), { layouts }).belief(animal).genotypes;
      const shift = without.reduce((sum, p, g) => sum + Math.abs(p - (now[g] ?? 0)), 0) / 2;
      return { fact, of, without, shift };
    })
    .sort((a, b) => b.shift - a.shift);
}

function neighbourhood({ members }: PedigreeProblem, start: AnimalId, steps: number): ReadonlySet<AnimalId> {
  const near = new Set([start]);
  for (let k = 0; k < steps; k++) {
    const before = new Set(near);
    for (const m of members) {
      const parents = [m.dam, ...m.sires.map((s) => s.sire)].filter((p) => p !== undefined);
      if (before.has(m.id)) for (const p of parents) near.add(p);
      if (parents.some((p) => before.has(p))) near.add(m.id);
    }
  }
  return near;
}

/**
 * The belief about an animal for each of several founder frequencies: how much it leans on what is assumed of founders.
 *
 * Shape: in the order of `frequencies`; beliefs in the order of `genotypesOf(locus)`.
 */
export function beliefAcross(
  problem: PedigreeProblem,
  animal: AnimalId,
  frequencies: readonly FrequencyOverride[],
): readonly (readonly number[])[] {
  const layouts = layoutMemory();
  return frequencies.map((f) => inferGenotypes({ ...problem, frequencies: f }, { layouts }).belief(animal).genotypes);
}

/** Genotypes with at least one copy of an allele: "carries it", as `chanceOfAll` wants them named. */
export function genotypesWith(
  { locus }: PedigreeProblem,
  allele: string,
  copies: 1 | 2 | "any" = "any",
): readonly string[] {
  const at = locus.alleles.indexOf(allele);
  const pairs = allelePairs(locus);
  return genotypesOf(locus).filter((_, g) => {
    const count = present(pairs[g], "a genotype").filter((a) => a === at).length;
    return copies === "any" ? count > 0 : count === copies;
  });
}

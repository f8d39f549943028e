import { Bug, present } from "@pollard/base";
import { item } from "../inference/cell.ts";
import { peel } from "../inference/iterative-peeling.ts";
import { keepSent, type LayoutMemory } from "../inference/layout-memory.ts";
import { peeledBeliefs } from "../inference/peeled-beliefs.ts";
import { type Calibration, calibrate } from "../inference/propagation.ts";
import { chancesOf, peelingError } from "../inference/region.ts";
import type { Locus } from "../locus.ts";
import { type Conflict, hardFacts, resolveConflicts } from "./conflicts.ts";
import { type GenotypeNetwork, genotypeNetwork, ownEvidence, type SireDoubt, statesLeft } from "./genotype-network.ts";
import type { SoundMember } from "./sound-problem.ts";
import type { Evidence } from "./pedigree-problem.ts";
import { type StateSpace, stateSpaces } from "./state-space.ts";

/** What everything but an animal's own evidence says of its states: natural logs, the largest 0. */
export interface Cavity {
  readonly space: StateSpace;
  readonly logs: Float64Array;
}

/** One family worked out. Variables are those of `network`. */
export interface FamilyAnswer {
  readonly network: Pick<GenotypeNetwork, "variables" | "spaces">;
  /** The members with the facts of conflicts set aside. */
  readonly members: readonly SoundMember[];
  readonly method: "exact" | "approximate";
  /** 0 if exact, else the largest error of a chance that was found. */
  readonly error: number;
  readonly logLikelihood: number;
  readonly conflicts: readonly Conflict[];
  /** Of the states an animal's own evidence leaves possible. */
  cavity(animal: number): Cavity;
  /** Of the states that only a part of its own evidence leaves possible: all of them without any. */
  cavityWith(animal: number, evidence: readonly Evidence[]): Cavity;
  /** Chances of the candidate sires of an animal, in the order of its `sires`; `undefined` if there is no doubt. */
  sires(animal: number): readonly number[] | undefined;
  /** Joint weights of some variables, sum 1 or all 0; `logUnary` replaces own evidence of the asked variables. */
  joint(variables: readonly number[], logUnary: ReadonlyMap<number, Float64Array>): Float64Array;
}

/** What a family is worked out from. */
export interface FamilyTask {
  readonly locus: Locus;
  readonly members: readonly SoundMember[];
  /** Positions in `members`; parents of a member belong to it too. */
  readonly family: readonly number[];
  readonly cellBudget: number;
  readonly layouts: LayoutMemory;
}

/** A network worked out, and how. */
interface Solution {
  readonly network: GenotypeNetwork;
  readonly beliefs: Calibration;
  readonly method: FamilyAnswer["method"];
  readonly error: number;
}

/** Works one family out: exactly if the budget allows, else by iterative peeling. */
export function workOutFamily(task: FamilyTask, known: readonly Conflict[] = []): FamilyAnswer {
  const { locus, members, family } = task;
  const solution = solve(genotypeNetwork(locus, members, family), task);
  if (solution) return answerOf(task, solution, known);
  const found = someConflicts(task);
  const aside = new Set(found.flatMap((c) => c.setAside));
  const rest = members.map((m) => ({ ...m, evidence: m.evidence.filter((e) => !aside.has(e.fact)) }));
  return workOutFamily({ ...task, members: rest }, [...known, ...found]);
}

/** Animals whose surroundings are worked out exactly to see how far peeling is off: those it is least sure of. */
const COMPARED_ANIMALS = 24;
/** No smaller error is claimed than this: loops beyond the surroundings looked at stay uncounted. */
const LEAST_ERROR = 1e-6;

/** Nothing where the evidence contradicts itself. */
function solve(
  network: GenotypeNetwork,
  { cellBudget, layouts }: Pick<FamilyTask, "cellBudget" | "layouts">,
): Solution | undefined {
  const { graph, variables } = network;
  const shape = layouts.shapeOf(graph, cellBudget);
  if (shape.tree) {
    const beliefs = calibrate(shape.tree, graph, shape.sent, (sent) => keepSent(shape, sent));
    return beliefs && { network, beliefs, method: "exact", error: 0 };
  }
  const peeling = peel(graph);
  if (!peeling) return undefined;
  const compared = [...variables.values()]
    .map((v) => ({ v, sure: Math.max(...chancesOf(peeling.logCavity(v), item(graph.logUnary, v))) }))
    .sort((a, b) => a.sure - b.sure)
    .slice(0, COMPARED_ANIMALS)
    .map(({ v }) => v);
  const error = Math.max(LEAST_ERROR, peeling.unrest, peelingError(graph, peeling, compared, shape.regions));
  return { network, beliefs: peeledBeliefs(graph, peeling), method: "approximate", error };
}

/** The contradictions of a family that has some. What the search overlooks is set aside whole, so that an end is sure. */
function someConflicts({ locus, members, family }: FamilyTask): readonly Conflict[] {
  const found = resolveConflicts(locus, members, family);
  if (found.length > 0) return found;
  const facts = hardFacts(members, family);
  if (facts.length === 0) throw new Bug("a family without hard facts contradicts itself");
  return [{ facts, links: [], animals: [], setAside: facts }];
}

function answerOf(
  task: FamilyTask,
  { network, beliefs, method, error }: Solution,
  conflicts: readonly Conflict[],
): FamilyAnswer {
  const { locus, members, family } = task;
  const cavityIn = (from: GenotypeNetwork, given: Calibration, animal: number): Cavity => ({
    space: present(from.spaces.get(animal), "an animal's states"),
    logs: given.logCavity(present(from.variables.get(animal), "an animal's variable")),
  });
  const whole = new Map<number, Cavity>();
  return {
    network,
    members,
    method,
    error,
    logLikelihood: beliefs.logSum,
    conflicts,
    cavity: (animal) => cavityIn(network, beliefs, animal),
    cavityWith(animal, evidence) {
      const known = whole.get(animal);
      if (known) return known;
      const space = present(network.spaces.get(animal), "an animal's states");
      const all = stateSpaces(locus)[space.kind];
      const left = statesLeft(all, ownEvidence(all, present(members[animal], "a member").xx, evidence));
      if (left.key === space.key) return cavityIn(network, beliefs, animal);
      const wider = genotypeNetwork(locus, members, family, animal);
      const found = cavityIn(wider, present(solve(wider, task), "facts that hold").beliefs, animal);
      whole.set(animal, found);
      return found;
    },
    sires(animal) {
      const doubt = network.doubts.get(animal);
      return doubt && normalised(doubtWeights(network, beliefs, doubt));
    },
    joint: (variables, logUnary) => beliefs.joint(variables, logUnary),
  };
}

const normalised = (weights: readonly number[]): readonly number[] => {
  const total = weights.reduce((a, b) => a + b, 0);
  return weights.map((w) => w / total);
};

/** The weight of each candidate sire. */
function doubtWeights({ graph }: GenotypeNetwork, calibration: Calibration, doubt: SireDoubt): readonly number[] {
  if (doubt.kind === "choice") {
    const prior = present(graph.logUnary[doubt.variable], "the candidates' weights");
    const weights = calibration.logCavity(doubt.variable).map((l, k) => Math.exp(l + (prior[k] ?? 0)));
    const candidates = Array.from({ length: weights.length / doubt.alleles }, (_, k) => k * doubt.alleles);
    return candidates.map((from) => weights.slice(from, from + doubt.alleles).reduce((a, b) => a + b, 0));
  }
  const around = calibration.logAround(doubt.factor);
  return doubt.parts.map((part) => part.reduce((sum, p, at) => sum + p * Math.exp(around[at] ?? 0), 0));
}

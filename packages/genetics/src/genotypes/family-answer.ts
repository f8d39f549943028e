import { Bug, present } from "@pollard/base";
import { item } from "../inference/cell.ts";
import { peel, type Peeling } from "../inference/iterative-peeling.ts";
import { calibrateKept, type LayoutMemory, type Shape } from "../inference/layout-memory.ts";
import { peeledBeliefs } from "../inference/peeled-beliefs.ts";
import type { Calibration } from "../inference/propagation.ts";
import { peelingError } from "../inference/region.ts";
import type { Locus } from "../locus.ts";
import { comparedAnimals } from "./compared-animals.ts";
import { type Conflict, hardFacts, resolveConflicts } from "../questions/conflicts.ts";
import { type GenotypeNetwork, genotypeNetwork, networkAfter } from "./genotype-network.ts";
import { narrowedFamily } from "./narrowed-family.ts";
import type { SoundMember } from "../pedigree/sound-problem.ts";
import type { Evidence } from "../pedigree/pedigree-problem.ts";
import { sireChances, siresTogether } from "./sire-doubt.ts";
import { hasStatesLeft, ownEvidence } from "./own-evidence.ts";
import { type StateSpace, stateSpaces } from "./state-space.ts";

/** What everything but an animal's own evidence says of its states: natural logs, the largest 0. */
export interface Cavity {
  readonly space: StateSpace;
  readonly logs: Float64Array;
}

/** What a family was worked out in, to start from when something more was found. */
export interface Worked {
  readonly members: readonly SoundMember[];
  readonly network: GenotypeNetwork;
  readonly shape: Shape;
}

/** One family worked out. Variables are those of `network`. */
export interface FamilyAnswer {
  readonly network: Pick<GenotypeNetwork, "variables" | "spaces">;
  /** To start from when something more was found; not kept of several loci worked out as one. */
  readonly worked?: Worked;
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
  /** Of every combination of sires of some mates, the last one's fastest; `undefined` if they know nothing of each other's. */
  siresTogether(mates: readonly number[]): readonly number[] | undefined;
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
  readonly worked: Worked;
  readonly network: GenotypeNetwork;
  readonly beliefs: Calibration;
  readonly method: FamilyAnswer["method"];
  readonly error: number;
  /** Whether states of parents were left out. */
  readonly isNarrowed: boolean;
}

/**
 * Works one family out: exactly if the budget allows, else narrowed to what parents can be, else by iterative peeling.
 *
 * `before` is what the same family was worked out in last.
 */
export const workOutFamily = (task: FamilyTask, before?: Worked): FamilyAnswer => workOut(task, [], before);

function workOut(task: FamilyTask, known: readonly Conflict[], before?: Worked): FamilyAnswer {
  const { members } = task;
  const solution = solve(task, { before });
  if (solution) return answerOf(task, solution, known);
  const found = someConflicts(task);
  const aside = new Set(found.flatMap((c) => c.setAside));
  const rest = members.map((m) =>
    m.evidence.some((e) => aside.has(e.fact)) ? { ...m, evidence: m.evidence.filter((e) => !aside.has(e.fact)) } : m,
  );
  return workOut({ ...task, members: rest }, [...known, ...found], before);
}

/** No smaller error is claimed than this: loops beyond the surroundings looked at stay uncounted. */
const LEAST_ERROR = 1e-6;

/** Nothing where the evidence contradicts itself. `whole` names an animal that keeps all its states. */
function solve(
  task: FamilyTask,
  { whole, before }: { readonly whole?: number; readonly before?: Worked | undefined },
): Solution | undefined {
  const { locus, members, family, cellBudget, layouts } = task;
  const after = before && networkAfter(locus, family, before, { members, mayRuleOut: before.shape.tree !== undefined });
  const network = after ?? genotypeNetwork(locus, members, family, whole === undefined ? {} : { whole });
  const { graph } = network;
  const shape = after ? before.shape : layouts.shapeOf(graph, cellBudget);
  const worked = { members, network, shape };
  if (shape.tree) {
    const beliefs = calibrateKept(shape, shape.tree, graph);
    return beliefs && { worked, network, beliefs, method: "exact", error: 0, isNarrowed: false };
  }
  const peeling = peel(graph);
  if (!peeling) return undefined;
  const open = whole === undefined ? peeling : withoutOwn(network, peeling, whole);
  const narrow = open && narrowedFamily({ locus, members, family, network, peeling: open, whole, cellBudget, layouts });
  if (narrow) return { ...narrow, worked, method: "approximate", isNarrowed: true };
  const compared = comparedAnimals(network, peeling, members);
  const error = Math.max(LEAST_ERROR, peeling.unrest, peelingError(graph, peeling, compared, shape.regions));
  return { worked, network, beliefs: peeledBeliefs(graph, peeling), method: "approximate", error, isNarrowed: false };
}

/** What peeling has to say once an animal's own evidence is left out, which is what is asked of an animal kept whole. */
function withoutOwn({ variables, graph }: GenotypeNetwork, peeling: Peeling, animal: number): Peeling | undefined {
  const variable = present(variables.get(animal), "an animal's variable");
  return peeling.again(new Map([[variable, new Float64Array(item(graph.sizes, variable))]]));
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
  { worked, network, beliefs, method, error, isNarrowed }: Solution,
  conflicts: readonly Conflict[],
): FamilyAnswer {
  const { locus, members } = task;
  const cavityIn = (from: GenotypeNetwork, given: Calibration, animal: number): Cavity => ({
    space: present(from.spaces.get(animal), "an animal's states"),
    logs: given.logCavity(present(from.variables.get(animal), "an animal's variable")),
  });
  const whole = new Map<number, Cavity>();
  return {
    network,
    worked,
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
      const member = present(members[animal], "a member");
      const part = ownEvidence(all, member.xx, evidence);
      const rests = isNarrowed && restsOn(ownEvidence(all, member.xx, member.evidence), part);
      if (hasStatesLeft(space, part) && !rests) return cavityIn(network, beliefs, animal);
      const wider = present(solve(task, { whole: animal }), "facts that hold");
      const found = cavityIn(wider.network, wider.beliefs, animal);
      whole.set(animal, found);
      return found;
    },
    sires(animal) {
      const doubt = network.doubts.get(animal);
      return doubt && sireChances(network.graph, beliefs, doubt);
    },
    siresTogether: (mates) =>
      siresTogether(
        beliefs,
        mates.flatMap((i) => network.doubts.get(i) ?? []),
      ),
    joint: (variables, logUnary) => beliefs.joint(variables, logUnary),
  };
}

/** From how many times as likely on what an animal's own facts say of it is taken to have shaped what was left out of its kin. */
const MUCH = Math.log(10_000);

/** Whether a part of what is known of an animal says much less than the whole. */
function restsOn(whole: Float64Array, part: Float64Array): boolean {
  const said = whole.map((log, at) => log - (part[at] ?? 0)).filter((log) => log > Number.NEGATIVE_INFINITY);
  return Math.max(...said) - Math.min(...said) > MUCH;
}

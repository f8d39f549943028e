import { Bug, present } from "@pollard/base";
import { type ContractionTree, contractionTree } from "../inference/contraction-tree.ts";
import { type Calibration, calibrate } from "../inference/propagation.ts";
import type { Locus } from "../locus.ts";
import { type Conflict, hardFacts, resolveConflicts } from "./conflicts.ts";
import { type GenotypeNetwork, genotypeNetwork } from "./genotype-network.ts";
import type { SoundMember } from "./sound-problem.ts";
import type { StateSpace } from "./state-space.ts";

/** What everything but an animal's own evidence says of its states: natural logs, the largest 0. */
export interface Cavity {
  readonly space: StateSpace;
  readonly logs: Float64Array;
}

/** One family worked out. Variables are those of `network`. */
export interface FamilyAnswer {
  readonly network: GenotypeNetwork;
  /** The members with the facts of conflicts set aside. */
  readonly members: readonly SoundMember[];
  readonly logLikelihood: number;
  readonly conflicts: readonly Conflict[];
  /** Of the states an animal's own evidence leaves possible. */
  cavity(animal: number): Cavity;
  /** Of all states an animal could have without its own evidence. */
  wholeCavity(animal: number): Cavity;
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
}

/** Works one family out. */
export function workOutFamily(task: FamilyTask): FamilyAnswer {
  return present(exactFamily(task, []), "a family within the budget");
}

const treeOf = ({ graph }: GenotypeNetwork, cellBudget: number): ContractionTree | undefined =>
  contractionTree(
    graph.sizes,
    graph.factors.map((f) => f.scope),
    cellBudget,
  );

/** Works one family out exactly; nothing if that would need more than the budget. */
function exactFamily(task: FamilyTask, conflicts: readonly Conflict[]): FamilyAnswer | undefined {
  const { locus, members, family, cellBudget } = task;
  const network = genotypeNetwork(locus, members, family);
  const tree = treeOf(network, cellBudget);
  if (!tree) return undefined;
  const calibration = calibrate(tree, network.graph);
  if (calibration) return answerOf(task, { network, calibration }, conflicts);
  const found = someConflicts(task);
  const aside = new Set(found.flatMap((c) => c.setAside));
  const rest = members.map((m) => ({ ...m, evidence: m.evidence.filter((e) => !aside.has(e.fact)) }));
  return exactFamily({ ...task, members: rest }, [...conflicts, ...found]);
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
  { locus, members, family }: FamilyTask,
  { network, calibration }: { readonly network: GenotypeNetwork; readonly calibration: Calibration },
  conflicts: readonly Conflict[],
): FamilyAnswer {
  const variable = (animal: number): number => present(network.variables.get(animal), "an animal's variable");
  const cavity = (animal: number): Cavity => ({
    space: present(network.spaces.get(animal), "an animal's states"),
    logs: calibration.logCavity(variable(animal)),
  });
  const whole = new Map<number, Cavity>();
  return {
    network,
    members,
    logLikelihood: calibration.logSum,
    conflicts,
    cavity,
    wholeCavity(animal) {
      const known = whole.get(animal);
      if (known) return known;
      const wider = genotypeNetwork(locus, members, family, animal);
      const space = present(wider.spaces.get(animal), "an animal's states");
      if (space.states.length === cavity(animal).space.states.length) return cavity(animal);
      const tree = present(treeOf(wider, Number.POSITIVE_INFINITY), "a tree without a limit");
      const again = present(calibrate(tree, wider.graph), "facts that hold");
      const found = { space, logs: again.logCavity(present(wider.variables.get(animal), "an animal's variable")) };
      whole.set(animal, found);
      return found;
    },
    sires(animal) {
      const selector = network.selectors.get(animal);
      if (selector === undefined) return undefined;
      const prior = present(network.graph.logUnary[selector], "the candidates' weights");
      const weights = calibration.logCavity(selector).map((l, k) => Math.exp(l + (prior[k] ?? 0)));
      const total = weights.reduce((a, b) => a + b, 0);
      return [...weights.map((w) => w / total)];
    },
    joint: calibration.joint,
  };
}

import { present } from "@pollard/base";
import { item } from "../inference/cell.ts";
import type { Peeling } from "../inference/iterative-peeling.ts";
import { calibrateKept, type LayoutMemory } from "../inference/layout-memory.ts";
import type { Calibration } from "../inference/propagation.ts";
import { chancesOf } from "../inference/region.ts";
import type { Locus } from "../locus.ts";
import { type GenotypeNetwork, genotypeNetwork } from "./genotype-network.ts";
import type { SoundMember } from "../pedigree/sound-problem.ts";

/** A family worked out exactly but for states of parents that are as good as impossible. */
export interface NarrowedFamily {
  readonly network: GenotypeNetwork;
  readonly beliefs: Calibration;
  readonly error: number;
}

/** What is narrowed: a family whose tables are too large, and what iterative peeling has found about it. */
export interface TooLarge {
  readonly locus: Locus;
  readonly members: readonly SoundMember[];
  readonly family: readonly number[];
  readonly network: GenotypeNetwork;
  readonly peeling: Peeling;
  /** An animal that keeps all its states. */
  readonly whole: number | undefined;
  readonly cellBudget: number;
  readonly layouts: LayoutMemory;
}

/** Chances below which a parent's state is left out: no more than must be for the tables to fit. */
const LEVELS = [1e-10, 1e-9, 1e-8, 1e-7, 1e-6, 1e-5, 1e-4, 1e-3] as const;
/** Most that the chances left out may come to, all together. */
const MOST_LEFT_OUT = 3e-3;
/** Peeling that has not settled to this is no ground to leave anything out. */
const UNSETTLED = 1e-4;
/** The error named is so many times what is left out, for peeling is not exact about that either; and never less than the last. */
const CAUTION = 10;
const LEAST_ERROR = 1e-8;

/**
 * A family too entangled for the budget, without what is as good as impossible. A buck of twenty kids seldom leaves a doubt
 * of more than one in a thousand million about what he is, and it is the parents who stand in all the large tables.
 *
 * Everything else is exact. Leaving out states of a chance of m in all moves no other chance by more than about m; how much
 * m is comes from iterative peeling, which is off but hardly by its order of magnitude. The error is that of beliefs; in a
 * forecast without some fact it is larger by as much as that fact had said.
 *
 * Shape:  `undefined` where too much would have to be left out, or the rest contradicts itself.
 * Source: rule GE-60.
 */
export function narrowedFamily(task: TooLarge): NarrowedFamily | undefined {
  const { locus, members, family, network, peeling, whole, cellBudget, layouts } = task;
  if (peeling.unrest > UNSETTLED) return undefined;
  const { graph } = network;
  const parents = parentsOf(task);
  for (const level of LEVELS) {
    const sizes = graph.sizes.slice();
    let leftOut = 0;
    for (const { variable, chances } of parents) {
      sizes[variable] = chances.reduce((n, p) => (p < level ? n : n + 1), 0);
      leftOut += chances.reduce((sum, p) => (p < level ? sum + p : sum), 0);
    }
    if (leftOut > MOST_LEFT_OUT) return undefined;
    const shape = layouts.shapeOf({ ...graph, sizes }, cellBudget);
    if (!shape.tree) continue;
    const kept = new Map(parents.map(({ animal, chances }) => [animal, chances.map((p) => (p < level ? 0 : 1))]));
    const narrow = genotypeNetwork(locus, members, family, {
      ...(whole === undefined ? {} : { whole }),
      isKept: (animal, at) => kept.get(animal)?.[at] !== 0,
    });
    const beliefs = calibrateKept(shape, shape.tree, narrow.graph);
    return beliefs && { network: narrow, beliefs, error: Math.max(LEAST_ERROR, CAUTION * leftOut) };
  }
  return undefined;
}

interface Parent {
  readonly animal: number;
  readonly variable: number;
  /** Of each of its states, as peeling has it. */
  readonly chances: Float64Array;
}

/** All that have kids in the family, but for the one that keeps its states. */
function parentsOf({ members, family, network, peeling, whole }: TooLarge): readonly Parent[] {
  const parents = new Set<number>();
  for (const i of family) {
    const { dam, sires } = present(members[i], "a member");
    for (const parent of [dam, ...sires.map((s) => s.sire)]) if (parent >= 0 && parent !== whole) parents.add(parent);
  }
  return [...parents].map((animal) => {
    const variable = present(network.variables.get(animal), "a parent's variable");
    return {
      animal,
      variable,
      chances: chancesOf(peeling.logCavity(variable), item(network.graph.logUnary, variable)),
    };
  });
}

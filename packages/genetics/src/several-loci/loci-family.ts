import { present } from "@pollard/base";
import { item } from "../inference/cell.ts";
import { calibrateKept } from "../inference/layout-memory.ts";
import { type Calibration, calibrate } from "../inference/propagation.ts";
import { chancesOf } from "../inference/region.ts";
import type { Cavity, FamilyAnswer, FamilyTask } from "../genotypes/family-answer.ts";
import { genotypeNetwork } from "../genotypes/genotype-network.ts";
import { type LociNetwork, lociNetwork } from "./loci-network.ts";
import { ALL_STATES, type Narrowing } from "./narrowed-loci.ts";
import { jointSires, sireChances, siresTogether } from "../genotypes/sire-doubt.ts";
import { hasStatesLeft, ownEvidence } from "../genotypes/own-evidence.ts";
import { stateSpaces } from "../genotypes/state-space.ts";

/**
 * A family at several loci worked out as one: one answer per locus, each knowing what all say of the sires that they share.
 *
 * Exact where every doubtful sire is shared, but for the states left out. The sires that are not shared are each locus's own
 * matter.
 *
 * Shape:   in the order of the tasks, with the likelihood of each locus's own facts and the conflicts of `alone`.
 *          `too-large` beyond the cell budget; `impossible` where the loci leave no way who the sires may be.
 * Assumes: the facts of each locus by itself hold.
 */
export function workOutLoci(
  tasks: readonly FamilyTask[],
  alone: readonly Pick<FamilyAnswer, "logLikelihood" | "conflicts">[],
  shared: ReadonlySet<number>,
  narrowing: Narrowing = ALL_STATES,
): readonly FamilyAnswer[] | "too-large" | "impossible" {
  const joined = joinedNetwork(tasks, shared, narrowing);
  const { cellBudget, layouts, members } = present(tasks[0], "a locus");
  const shape = layouts.shapeOf(joined.graph, cellBudget * tasks.length);
  if (!shape.tree) return "too-large";
  const beliefs = calibrateKept(shape, shape.tree, joined.graph);
  if (!beliefs) return "impossible";
  return tasks.map((task, locus): FamilyAnswer => {
    const { logLikelihood, conflicts } = present(alone[locus], "the answer of a locus alone");
    const network = item(joined.parts, locus);
    const wider = new Map<number, Cavity>();
    return {
      network,
      members: task.members,
      method: narrowing.error > 0 ? "approximate" : "exact",
      error: narrowing.error,
      logLikelihood,
      conflicts,
      cavity: (animal) => cavityIn(joined, beliefs, locus, animal),
      cavityWith(animal, evidence) {
        const known = wider.get(animal);
        if (known) return known;
        const space = present(network.spaces.get(animal), "an animal's states");
        const all = stateSpaces(task.locus)[space.kind];
        const { xx } = present(members[animal], "a member");
        if (hasStatesLeft(space, ownEvidence(all, xx, evidence))) return cavityIn(joined, beliefs, locus, animal);
        const found = cavityIn(...widened(tasks, shared, narrowing, { locus, animal }), locus, animal);
        wider.set(animal, found);
        return found;
      },
      sires(animal) {
        const variable = joined.sires.get(animal);
        if (variable !== undefined)
          return [...chancesOf(beliefs.logCavity(variable), item(joined.graph.logUnary, variable))];
        const doubt = network.doubts.get(animal);
        return doubt && sireChances(joined.graph, beliefs, doubt);
      },
      siresTogether(mates) {
        const variables = mates.flatMap((i) => joined.sires.get(i) ?? []);
        if (variables.length < mates.length)
          return siresTogether(
            beliefs,
            mates.flatMap((i) => network.doubts.get(i) ?? []),
          );
        const candidates = item(joined.graph.sizes, present(variables[0], "a kid's sire"));
        return jointSires(
          beliefs,
          candidates,
          variables.map((variable) => ({ variable, copies: 1 })),
        );
      },
      joint: (variables, logUnary) => beliefs.joint(variables, logUnary),
    };
  });
}

/** An animal that keeps all its states at a locus. */
interface Whole {
  readonly locus: number;
  readonly animal: number;
}

function joinedNetwork(
  tasks: readonly FamilyTask[],
  shared: ReadonlySet<number>,
  narrowing: Narrowing,
  whole?: Whole,
): LociNetwork {
  const networks = tasks.map(({ locus, members, family }, l) =>
    genotypeNetwork(locus, members, family, {
      ...(l === whole?.locus ? { whole: whole.animal } : {}),
      isKept: (animal, at) => narrowing.isKept(l, animal, at),
    }),
  );
  return lociNetwork(networks, shared);
}

const cavityIn = (joined: LociNetwork, beliefs: Calibration, locus: number, animal: number): Cavity => {
  const { spaces, variables } = item(joined.parts, locus);
  return {
    space: present(spaces.get(animal), "an animal's states"),
    logs: beliefs.logCavity(present(variables.get(animal), "an animal's variable")),
  };
};

/** The family with all states of one animal at one locus, also those that its own evidence rules out. */
function widened(
  tasks: readonly FamilyTask[],
  shared: ReadonlySet<number>,
  narrowing: Narrowing,
  whole: Whole,
): readonly [LociNetwork, Calibration] {
  const joined = joinedNetwork(tasks, shared, narrowing, whole);
  // One animal's further states make some tables a few times as large; that much over the budget is let pass.
  const { tree } = present(tasks[0], "a locus").layouts.shapeOf(joined.graph, Number.POSITIVE_INFINITY);
  const beliefs = calibrate(present(tree, "a layout without a limit"), joined.graph);
  return [joined, present(beliefs, "facts that hold")];
}

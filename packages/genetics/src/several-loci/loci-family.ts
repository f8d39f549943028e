import { present } from "@pollard/base";
import { item } from "../inference/cell.ts";
import { calibrateKept } from "../inference/layout-memory.ts";
import { type Calibration, calibrate } from "../inference/propagation.ts";
import { chancesOf } from "../inference/region.ts";
import type { Cavity, FamilyAnswer, FamilyTask } from "../genotypes/family-answer.ts";
import { genotypeNetwork, ownEvidence, statesLeft } from "../genotypes/genotype-network.ts";
import { type LociNetwork, lociNetwork } from "./loci-network.ts";
import { stateSpaces } from "../genotypes/state-space.ts";

/**
 * A family at several loci worked out as one, exactly: one answer per locus, each knowing what all say of the sires.
 *
 * Shape:   in the order of the tasks, with the likelihood of each locus's own facts and the conflicts of `alone`.
 *          `too-large` beyond the cell budget; `impossible` where the loci leave no way who the sires may be.
 * Assumes: the facts of each locus by itself hold.
 */
export function workOutLoci(
  tasks: readonly FamilyTask[],
  alone: readonly Pick<FamilyAnswer, "logLikelihood" | "conflicts">[],
): readonly FamilyAnswer[] | "too-large" | "impossible" {
  const joined = joinedNetwork(tasks);
  const { cellBudget, layouts, members } = present(tasks[0], "a locus");
  const shape = layouts.shapeOf(joined.graph, cellBudget);
  if (!shape.tree) return "too-large";
  const beliefs = calibrateKept(shape, shape.tree, joined.graph);
  if (!beliefs) return "impossible";
  return tasks.map((task, locus): FamilyAnswer => {
    const { logLikelihood, conflicts } = present(alone[locus], "the answer of a locus alone");
    const network = item(joined.parts, locus);
    const widened = new Map<number, Cavity>();
    return {
      network,
      members: task.members,
      method: "exact",
      error: 0,
      logLikelihood,
      conflicts,
      cavity: (animal) => cavityIn(joined, beliefs, locus, animal),
      cavityWith(animal, evidence) {
        const known = widened.get(animal);
        if (known) return known;
        const space = present(network.spaces.get(animal), "an animal's states");
        const all = stateSpaces(task.locus)[space.kind];
        const { xx } = present(members[animal], "a member");
        if (statesLeft(all, ownEvidence(all, xx, evidence)).key === space.key)
          return cavityIn(joined, beliefs, locus, animal);
        const found = widenedCavity(tasks, locus, animal);
        widened.set(animal, found);
        return found;
      },
      sires(animal) {
        const variable = joined.sires.get(animal);
        return variable === undefined
          ? undefined
          : [...chancesOf(beliefs.logCavity(variable), item(joined.graph.logUnary, variable))];
      },
      joint: (variables, logUnary) => beliefs.joint(variables, logUnary),
    };
  });
}

const joinedNetwork = (tasks: readonly FamilyTask[], at?: number, whole?: number): LociNetwork =>
  lociNetwork(
    tasks.map(({ locus, members, family }, l) =>
      genotypeNetwork(locus, members, family, l === at && whole !== undefined ? { whole } : {}),
    ),
    present(tasks[0], "a locus").members,
  );

const cavityIn = (joined: LociNetwork, beliefs: Calibration, locus: number, animal: number): Cavity => {
  const { spaces, variables } = item(joined.parts, locus);
  return {
    space: present(spaces.get(animal), "an animal's states"),
    logs: beliefs.logCavity(present(variables.get(animal), "an animal's variable")),
  };
};

/** Of all states of an animal at one locus, also those that its own evidence rules out. */
function widenedCavity(tasks: readonly FamilyTask[], locus: number, animal: number): Cavity {
  const joined = joinedNetwork(tasks, locus, animal);
  // One animal's further states make some tables a few times as large; that much over the budget is let pass.
  const { tree } = present(tasks[0], "a locus").layouts.shapeOf(joined.graph, Number.POSITIVE_INFINITY);
  const beliefs = calibrate(present(tree, "a layout without a limit"), joined.graph);
  return cavityIn(joined, present(beliefs, "facts that hold"), locus, animal);
}

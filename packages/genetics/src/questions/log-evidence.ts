import { present } from "@pollard/base";
import { peel } from "../inference/iterative-peeling.ts";
import type { LayoutMemory } from "../inference/layout-memory.ts";
import { logSumOf } from "../inference/propagation.ts";
import type { AnimalId } from "../vocabulary.ts";
import { familiesOf } from "../pedigree/families.ts";
import { genotypeNetwork } from "../genotypes/genotype-network.ts";
import type { PedigreeProblem } from "../pedigree/pedigree-problem.ts";
import { soundProblem } from "../pedigree/sound-problem.ts";

/** Cells of an exact likelihood; beyond it iterative peeling's. */
const CELLS = 1 << 22;

/** Natural log of the probability of all facts about some whole families; -Infinity if they contradict. */
export function logEvidence(problem: PedigreeProblem, about: ReadonlySet<AnimalId>, layouts: LayoutMemory): number {
  const { members, locus, issues } = soundProblem({
    ...problem,
    members: problem.members.filter((m) => about.has(m.id)),
  });
  if (issues.some(({ code }) => code === "no-sire-left")) return Number.NEGATIVE_INFINITY;
  return familiesOf(members).reduce((sum, family) => {
    const { graph } = genotypeNetwork(locus, members, family);
    const { tree } = layouts.shapeOf(graph, CELLS);
    return sum + (tree ? logSumOf(tree, graph) : (peel(graph)?.logSum ?? Number.NEGATIVE_INFINITY));
  }, 0);
}

/** The animals with everyone who is joined to them by parentage. */
export function familiesAround(problem: PedigreeProblem, animals: ReadonlySet<AnimalId>): ReadonlySet<AnimalId> {
  const { members } = soundProblem(problem);
  const idOf = (i: number): AnimalId => present(members[i], "a member").id;
  return new Set(
    familiesOf(members)
      .map((family) => family.map(idOf))
      .filter((family) => family.some((id) => animals.has(id)))
      .flat(),
  );
}

import { present } from "@pollard/base";
import { cliqueTree } from "../inference/clique-tree.ts";
import { jointWeights } from "../inference/joint.ts";
import { calibrate, logSumOf } from "../inference/propagation.ts";
import type { Locus } from "../locus.ts";
import { type Conflict, resolveConflicts } from "./conflicts.ts";
import { type GenotypeNetwork, genotypeNetwork } from "./genotype-network.ts";
import type { SoundMember } from "./sound-problem.ts";

/** One family worked out. Variables are those of `network`. */
export interface FamilyAnswer {
  readonly network: GenotypeNetwork;
  /** The members with the facts of conflicts set aside. */
  readonly members: readonly SoundMember[];
  readonly logLikelihood: number;
  readonly conflicts: readonly Conflict[];
  /** Weight of each state of a variable given everything but its own evidence. */
  cavity(variable: number): Float64Array;
  /** Joint weights of some variables, sum 1 or all 0; `unary` replaces own evidence of the asked variables. */
  joint(variables: readonly number[], unary: ReadonlyMap<number, Float64Array>): Float64Array;
}

/** Works one family out. */
export function workOutFamily(
  locus: Locus,
  members: readonly SoundMember[],
  family: readonly number[],
  cellBudget: number,
): FamilyAnswer {
  return present(exactFamily(locus, members, family, cellBudget), "a family within the budget");
}

/** Works one family out exactly; nothing if that would need more than `cellBudget` table cells. */
function exactFamily(
  locus: Locus,
  members: readonly SoundMember[],
  family: readonly number[],
  cellBudget: number,
): FamilyAnswer | undefined {
  const first = genotypeNetwork(locus, members, family);
  const tree = cliqueTree(
    first.graph.sizes,
    first.graph.factors.map((f) => f.scope),
    cellBudget,
  );
  if (!tree) return undefined;
  const answer = (
    network: GenotypeNetwork,
    used: readonly SoundMember[],
    conflicts: readonly Conflict[],
  ): FamilyAnswer | undefined => {
    const calibration = calibrate(tree, network.graph);
    return (
      calibration && {
        network,
        members: used,
        logLikelihood: calibration.logSum + network.logScale,
        conflicts,
        cavity: (variable) => calibration.cavities[variable] ?? new Float64Array(0),
        joint: (variables, unary) => jointWeights(calibration, variables, unary),
      }
    );
  };
  const whole = answer(first, members, []);
  if (whole) return whole;
  const withFacts = (kept: (fact: string) => boolean): readonly SoundMember[] =>
    members.map((m) => ({ ...m, evidence: m.evidence.filter((e) => kept(e.fact)) }));
  const conflicts = resolveConflicts(locus, members, family, (facts) => {
    const network = genotypeNetwork(
      locus,
      withFacts((f) => facts.has(f)),
      family,
    );
    return logSumOf(tree, network.graph) + network.logScale;
  });
  const aside = new Set(conflicts.flatMap((c) => c.setAside));
  const rest = withFacts((f) => !aside.has(f));
  return answer(genotypeNetwork(locus, rest, family), rest, conflicts);
}

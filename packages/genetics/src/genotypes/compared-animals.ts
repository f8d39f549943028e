import { present } from "@pollard/base";
import { f64, item } from "../inference/cell.ts";
import type { Peeling } from "../inference/iterative-peeling.ts";
import { chancesOf } from "../inference/region.ts";
import { inbreeding } from "../kinship/inbreeding.ts";
import { numberedPedigree } from "../kinship/numbered-pedigree.ts";
import type { GenotypeNetwork } from "./genotype-network.ts";
import type { SoundMember } from "../pedigree/sound-problem.ts";

/** Animals of either kind whose surroundings are worked out exactly. */
const OF_A_KIND = 16;

/**
 * The animals at which peeling is likeliest to be off, by their variables: those it is least sure of, and the most inbred,
 * whose loops peeling does not see however little is known of them.
 *
 * Source: rule GE-63.
 */
export function comparedAnimals(
  { graph, variables }: GenotypeNetwork,
  peeling: Peeling,
  members: readonly SoundMember[],
): readonly number[] {
  const unsure = [...variables.values()]
    .map((v) => ({ v, by: -Math.max(...chancesOf(peeling.logCavity(v), item(graph.logUnary, v))) }))
    .sort((a, b) => b.by - a.by);
  const animals = [...variables.keys()];
  const known = inbreeding(
    numberedPedigree(
      animals.map((i) => {
        const { id, dam, sires } = present(members[i], "a member");
        const idOf = (at: number) => (at < 0 ? undefined : present(members[at], "a parent").id);
        const [likeliest] = sires.toSorted((a, b) => b.weight - a.weight);
        return { id, dam: idOf(dam), sire: idOf(likeliest?.sire ?? -1) };
      }),
    ).pedigree,
  );
  const inbred = [...variables]
    .map(([i, v]) => ({
      v,
      by: f64(known.f, present(known.pedigree.positions.get(present(members[i], "a member").id), "a place")),
    }))
    .filter(({ by }) => by > 0)
    .sort((a, b) => b.by - a.by);
  return [...new Set([...unsure.slice(0, OF_A_KIND), ...inbred.slice(0, OF_A_KIND)].map(({ v }) => v))];
}

import { present } from "@pollard/base";
import type { Factor, FactorGraph } from "../inference/factor-graph.ts";
import type { GenotypeNetwork, SireDoubt } from "../genotypes/genotype-network.ts";
import type { SoundMember } from "../pedigree/sound-problem.ts";

/** A family at several loci as one product of tables: which buck sired a kid is one variable for all of them. */
export interface LociNetwork {
  readonly graph: FactorGraph;
  /**
   * Per locus: the network of that locus alone, its variables and tables by their numbers in `graph`; its `doubts` are
   * those that it keeps to itself.
   */
  readonly parts: readonly Pick<GenotypeNetwork, "variables" | "spaces" | "doubts">[];
  /** Per animal whose sire is shared: the variable of which one it was; its states are the animal's `sires`. */
  readonly sires: ReadonlyMap<number, number>;
}

/**
 * Joins the networks of one family at unlinked loci. They have nothing in common but who the parents are, so every
 * variable stays as it is, and the doubt about a sire, of each locus, comes to hang on one variable that all loci share.
 *
 * `shared` names the animals of whose sires the loci tell each other; of the others each locus thinks as it does alone.
 *
 * Assumes: the same family with the same possible sires at every locus.
 */
export function lociNetwork(
  tasks: readonly { readonly network: GenotypeNetwork; readonly members: readonly SoundMember[] }[],
  shared: ReadonlySet<number>,
): LociNetwork {
  const sizes: number[] = [];
  const logUnary: Float64Array[] = [];
  const factors: Factor[] = [];
  const sires = new Map<number, number>();
  const sireVariable = (animal: number, weights: readonly number[]): number => {
    const known = sires.get(animal);
    if (known !== undefined) return known;
    const log = Float64Array.from(weights, Math.log);
    logUnary.push(log);
    sires.set(animal, sizes.push(log.length) - 1);
    return sizes.length - 1;
  };
  const parts = tasks.map(({ network: { graph, variables, spaces, doubts }, members }) => {
    const [from, first] = [sizes.length, factors.length];
    sizes.push(...graph.sizes);
    logUnary.push(...graph.logUnary);
    const own = new Map<number, SireDoubt>();
    const moved = graph.factors.map((f): Factor => ({ ...f, scope: f.scope.map((v) => v + from) }));
    const links: Factor[] = [];
    for (const [animal, doubt] of doubts) {
      if (!shared.has(animal)) {
        own.set(
          animal,
          doubt.kind === "choice"
            ? { ...doubt, variable: doubt.variable + from }
            : { ...doubt, factor: doubt.factor + first },
        );
        continue;
      }
      const weights = present(members[animal], "a member").sires.map((s) => s.weight);
      const sire = sireVariable(animal, weights);
      if (doubt.kind === "choice")
        links.push({ scope: [sire, doubt.variable + from], table: sameSire(doubt, weights) });
      else moved[doubt.factor] = bySire(sire, present(moved[doubt.factor], "a table"), doubt, weights);
    }
    factors.push(...moved, ...links);
    return { variables: new Map([...variables].map(([animal, v]) => [animal, v + from])), spaces, doubts: own };
  });
  return { graph: { sizes, factors, logUnary }, parts, sires };
}

/** Over (the sire, a locus's choice): 1 where they name the same, without the weight that the choice holds by itself. */
function sameSire({ alleles }: Extract<SireDoubt, { kind: "choice" }>, weights: readonly number[]): Float64Array {
  const width = weights.length * alleles;
  const table = new Float64Array(weights.length * width);
  weights.forEach((w, k) => table.fill(1 / w, k * width + k * alleles, k * width + (k + 1) * alleles));
  return table;
}

/** One table per candidate in place of their weighted sum. */
function bySire(
  sire: number,
  { scope, table }: Factor,
  { parts }: Extract<SireDoubt, { kind: "mixture" }>,
  weights: readonly number[],
): Factor {
  const all = new Float64Array(parts.length * table.length);
  parts.forEach((part, k) => {
    const weight = present(weights[k], "a weight");
    part.forEach((p, at) => {
      all[k * table.length + at] = p / weight;
    });
  });
  return { scope: [sire, ...scope], table: all };
}

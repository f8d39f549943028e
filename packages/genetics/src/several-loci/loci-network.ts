import { present } from "@pollard/base";
import type { Factor, FactorGraph } from "../inference/factor-graph.ts";
import type { GenotypeNetwork } from "../genotypes/genotype-network.ts";
import { type LitterVariable, litterTable, type SireDoubt } from "../genotypes/sire-doubt.ts";

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
 * variable stays as it is, and the doubt about a sire, of each locus, comes to hang on one variable that all loci share;
 * those of litter mates hang on the litter's, which all loci share too.
 *
 * `shared` names the animals of whose sires the loci tell each other; of the others each locus thinks as it does alone.
 *
 * Assumes: the same family with the same possible sires at every locus; of a litter whose mates know something of each
 *          other's sires, all or none are shared.
 */
export function lociNetwork(networks: readonly GenotypeNetwork[], shared: ReadonlySet<number>): LociNetwork {
  const joiner = new Joiner(shared);
  const parts = networks.map((network) => joiner.add(network));
  return { graph: joiner.graph(), parts, sires: joiner.sires };
}

class Joiner {
  readonly sires = new Map<number, number>();
  readonly #shared: ReadonlySet<number>;
  readonly #sizes: number[] = [];
  readonly #logUnary: Float64Array[] = [];
  readonly #factors: Factor[] = [];

  constructor(shared: ReadonlySet<number>) {
    this.#shared = shared;
  }

  graph(): FactorGraph {
    return { sizes: this.#sizes, factors: this.#factors, logUnary: this.#logUnary };
  }

  add({ graph, variables, spaces, doubts, litters }: GenotypeNetwork): LociNetwork["parts"][number] {
    for (const { litter, variable } of litters)
      this.#addLitter(litter, present(graph.logUnary[variable], "the litter's sires"), doubts);
    const told = [...doubts].filter(([animal]) => this.#shared.has(animal));
    const gone = new Set(told.flatMap(([, { byLitter }]) => byLitter?.litter ?? []));
    const links = new Set(
      told.flatMap(([, { byLitter, kind }]) => (kind === "choice" ? (byLitter?.factor ?? []) : [])),
    );
    const mixtures = new Map(told.flatMap(([animal, d]) => (d.kind === "mixture" ? [[d.factor, { animal, d }]] : [])));
    const places = graph.sizes.map((size, v) => {
      if (gone.has(v)) return -1;
      this.#logUnary.push(present(graph.logUnary[v], "a variable's evidence"));
      return this.#sizes.push(size) - 1;
    });
    const placeOf = (v: number): number => present(places[v], "a variable of the family");
    const factors = graph.factors.map(({ scope, table }, f) => {
      if (links.has(f)) return -1;
      const mixture = mixtures.get(f);
      if (!mixture) return this.#factors.push({ scope: scope.map(placeOf), table }) - 1;
      const sire = this.#sireVariable(mixture.animal, mixture.d.weights);
      const rest = scope.slice(mixture.d.byLitter ? 1 : 0).map(placeOf);
      return this.#factors.push({ scope: [sire, ...rest], table: oneByOne(mixture.d.tables) }) - 1;
    });
    const own = new Map<number, SireDoubt>();
    for (const [animal, doubt] of doubts) {
      if (!this.#shared.has(animal)) {
        const { byLitter } = doubt;
        const moved = byLitter && {
          litter: placeOf(byLitter.litter),
          factor: present(factors[byLitter.factor], "a link"),
        };
        own.set(
          animal,
          doubt.kind === "choice"
            ? { ...doubt, byLitter: moved, variable: placeOf(doubt.variable) }
            : { ...doubt, byLitter: moved, factor: present(factors[doubt.factor], "a table") },
        );
      } else if (doubt.kind === "choice") {
        const sire = this.#sireVariable(animal, doubt.weights);
        this.#factors.push({ scope: [sire, placeOf(doubt.variable)], table: sameSire(doubt) });
      }
    }
    return { variables: new Map([...variables].map(([animal, v]) => [animal, placeOf(v)])), spaces, doubts: own };
  }

  /** Where the kids of a litter are shared: the litter's sire, once for all loci, and each kid's sire hanging on it. */
  #addLitter(litter: LitterVariable["litter"], logs: Float64Array, doubts: GenotypeNetwork["doubts"]): void {
    if (!litter.kids.some((i) => this.#shared.has(i) && !this.sires.has(i))) return;
    this.#logUnary.push(logs);
    const variable = this.#sizes.push(logs.length) - 1;
    const table = litterTable(litter, 1);
    for (const i of litter.kids) {
      const sire = this.#sireVariable(i, present(doubts.get(i), "a doubtful sire").weights);
      this.#factors.push({ scope: [variable, sire], table });
    }
  }

  /** The sire of an animal as all loci share him. */
  #sireVariable(animal: number, weights: readonly number[]): number {
    const known = this.sires.get(animal);
    if (known !== undefined) return known;
    this.#logUnary.push(Float64Array.from(weights, Math.log));
    const variable = this.#sizes.push(weights.length) - 1;
    this.sires.set(animal, variable);
    return variable;
  }
}

/** Over (the sire, a locus's choice): 1 where they name the same, without the weight that the choice holds by itself. */
function sameSire({ alleles, weights }: Extract<SireDoubt, { kind: "choice" }>): Float64Array {
  const width = weights.length * alleles;
  const table = new Float64Array(weights.length * width);
  weights.forEach((w, k) => {
    if (w > 0) table.fill(1 / w, k * width + k * alleles, k * width + (k + 1) * alleles);
  });
  return table;
}

/** One table per candidate in place of their weighted sum. */
const oneByOne = (tables: readonly Float64Array[]): Float64Array =>
  Float64Array.from(tables.flatMap((table) => Array.from(table)));

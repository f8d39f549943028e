import { f64, item } from "./cell.ts";
import type { Clique, CliqueTree } from "./clique-tree.ts";
import type { FactorGraph } from "./factor-graph.ts";
import { multiply, multiplyCountingZeros, scaleToOne, sumOnto, sumOntoByZeros } from "./table-kernels.ts";

/** After how many products a table is scaled: likelihoods down to 1e-70 each cannot run it empty in between. */
const PRODUCTS_PER_SCALING = 4;

/** Every message of a tree, up and down, and what follows for each variable. */
export interface Calibration {
  readonly tree: CliqueTree;
  readonly graph: FactorGraph;
  /** Natural log of the sum over all states of the product of all tables. */
  readonly logSum: number;
  /** Per clique, over its scope without its own variable. */
  readonly up: readonly Float64Array[];
  readonly down: readonly Float64Array[];
  /** Per variable: the weight of each state given everything but its own evidence; the largest is 1. */
  readonly cavities: readonly Float64Array[];
}

/**
 * The natural log of the total weight; -Infinity where no state of the whole is possible.
 *
 * Cost: less than half of `calibrate`.
 */
export const logSumOf = (tree: CliqueTree, graph: FactorGraph): number => upward(tree, graph).logSum;

/**
 * All messages, in two passes, exact. Nothing is divided by zero: a state that only a variable's own evidence rules out
 * keeps its weight in that variable's cavity.
 *
 * Shape: `undefined` where the total weight is zero: the evidence contradicts itself, and no answer exists.
 */
export function calibrate(tree: CliqueTree, graph: FactorGraph): Calibration | undefined {
  const { logSum, up } = upward(tree, graph);
  return logSum === Number.NEGATIVE_INFINITY ? undefined : { tree, graph, logSum, up, ...downward(tree, graph, up) };
}

const NO_CLIQUE: Clique = {
  variable: -1,
  scope: [],
  dims: new Int32Array(0),
  cells: 0,
  parent: -1,
  children: [],
  overParent: new Int32Array(0),
  factors: [],
  overFactors: [],
  overUnary: new Int32Array(0),
};

/** A table that a product is built up in. Scaled every few products so that nothing runs out of range. */
export class Product {
  readonly table: Float64Array;
  readonly #zeros: Uint8Array;
  #clique = NO_CLIQUE;
  #pending = 0;
  #logScale = 0;
  #counting = false;

  constructor(cells: number) {
    this.table = new Float64Array(cells);
    this.#zeros = new Uint8Array(cells);
  }

  /** Begins the product of one clique with its structural tables. `counting`: zeros of messages will be told apart. */
  begin(clique: Clique, graph: FactorGraph, zeros: "count" | "multiply"): void {
    this.#clique = clique;
    this.#pending = 0;
    this.#logScale = 0;
    this.#counting = zeros === "count";
    this.table.fill(1, 0, clique.cells);
    if (this.#counting) this.#zeros.fill(0, 0, clique.cells);
    clique.factors.forEach((f, k) => {
      this.times(item(graph.factors, f).table, item(clique.overFactors, k), "structure");
    });
  }

  /** Multiplies a table in. A zero in `structure` is final; a zero in a `message` is counted where counting is on. */
  times(message: Float64Array, strides: Int32Array, kind: "structure" | "message"): void {
    const clique = this.#clique;
    if (this.#counting && kind === "message")
      multiplyCountingZeros(this.table, this.#zeros, clique.dims, message, strides);
    else multiply(this.table, clique.dims, message, strides);
    if (++this.#pending >= PRODUCTS_PER_SCALING) this.#scale();
  }

  /** Natural log of all that was scaled out; -Infinity where every cell is zero. The largest cell is 1 afterwards. */
  finish(): number {
    this.#scale();
    return this.#logScale;
  }

  /**
   * The sum onto a message's cells, without that message itself.
   *
   * Where the message is zero, the cells in which it is the only zero are summed; elsewhere it is divided out.
   */
  without(message: Float64Array, strides: Int32Array): Float64Array {
    const sum = new Float64Array(message.length);
    const { dims } = this.#clique;
    if (!this.#counting) {
      sumOnto(sum, this.table, dims, strides);
      for (let i = 0; i < sum.length; i++) sum[i] = f64(sum, i) / f64(message, i);
    } else {
      const oneZero = new Float64Array(message.length);
      sumOntoByZeros(sum, oneZero, this.table, this.#zeros, dims, strides);
      for (let i = 0; i < sum.length; i++) {
        const m = f64(message, i);
        sum[i] = m > 0 ? f64(sum, i) / m : f64(oneZero, i);
      }
    }
    scaleToOne(sum, sum.length);
    return sum;
  }

  /** Sums the clique's own variable out. */
  sumOutOwn(): Float64Array {
    const { cells, dims } = this.#clique;
    const size = dims[dims.length - 1] ?? 1;
    const out = new Float64Array(cells / size);
    for (let i = 0, k = 0; k < out.length; k++) {
      let s = 0;
      for (let j = 0; j < size; j++, i++) s += f64(this.table, i);
      out[k] = s;
    }
    return out;
  }

  #scale(): void {
    this.#pending = 0;
    const top = scaleToOne(this.table, this.#clique.cells);
    this.#logScale += Math.log(top);
  }
}

function upward(tree: CliqueTree, graph: FactorGraph): { readonly logSum: number; readonly up: Float64Array[] } {
  const product = new Product(tree.largest);
  const up: Float64Array[] = [];
  let logSum = 0;
  for (const clique of tree.cliques) {
    product.begin(clique, graph, "multiply");
    product.times(item(graph.unary, clique.variable), clique.overUnary, "message");
    for (const child of clique.children)
      product.times(item(up, child), item(tree.cliques, child).overParent, "message");
    logSum += product.finish();
    if (logSum === Number.NEGATIVE_INFINITY) break;
    const message = product.sumOutOwn();
    logSum += Math.log(scaleToOne(message, message.length));
    up.push(message);
  }
  return { logSum, up };
}

const hasZero = (table: Float64Array): boolean => table.includes(0);

function downward(
  tree: CliqueTree,
  graph: FactorGraph,
  up: readonly Float64Array[],
): { readonly down: readonly Float64Array[]; readonly cavities: readonly Float64Array[] } {
  const product = new Product(tree.largest);
  const down: Float64Array[] = up.map(() => new Float64Array(0));
  const cavities: Float64Array[] = up.map(() => new Float64Array(0));
  for (let at = tree.cliques.length - 1; at >= 0; at--) {
    const clique = item(tree.cliques, at);
    const own = item(graph.unary, clique.variable);
    const zeros = hasZero(own) || clique.children.some((c) => hasZero(item(up, c))) ? "count" : "multiply";
    product.begin(clique, graph, zeros);
    if (clique.parent >= 0) product.times(item(down, at), overOwn(clique), "structure");
    product.times(own, clique.overUnary, "message");
    for (const c of clique.children) product.times(item(up, c), item(tree.cliques, c).overParent, "message");
    product.finish();
    cavities[clique.variable] = product.without(own, clique.overUnary);
    for (const c of clique.children) down[c] = product.without(item(up, c), item(tree.cliques, c).overParent);
  }
  return { down, cavities };
}

/** A clique's own message (its scope without its own variable) laid over its table. */
export function overOwn(clique: Clique): Int32Array {
  const strides = new Int32Array(clique.scope.length);
  let step = 1;
  for (let d = clique.scope.length - 2; d >= 0; d--) {
    strides[d] = step;
    step *= clique.dims[d] ?? 1;
  }
  return strides;
}

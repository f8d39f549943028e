import { Bug, present } from "@pollard/base";
import { f64, item } from "./cell.ts";
import { contract, logsOf, type Weights, weights, weightsFromLogs } from "./contraction.ts";
import type { ContractionTree, TreeNode } from "./contraction-tree.ts";
import type { FactorGraph } from "./factor-graph.ts";

/** A tree with its messages: every belief about its variables can be read off. */
export interface Calibration {
  /** Natural log of the sum over all states of the product of all tables. */
  readonly logSum: number;
  /**
   * Natural log of the weight of each state of a variable given everything but its own evidence; the largest is 0. Only
   * the way from the last node down to the variable is computed, once.
   */
  logCavity(variable: number): Float64Array;
  /** As `logCavity`, of the cells of a factor's table given everything but that factor. */
  logAround(factor: number): Float64Array;
  /**
   * The joint weight of a few variables given all evidence. For every combination of their states they are clamped and
   * only the products between them are formed again; what hangs off that way is taken from the messages already there.
   *
   * `logUnary` replaces the evidence of some of the asked variables.
   *
   * Shape:   row-major over `variables`, the last fastest; sums to 1, or all 0 where the replaced evidence is impossible.
   * Assumes: all variables belong to one family (one connected tree), each is named once.
   */
  joint(variables: readonly number[], logUnary?: ReadonlyMap<number, Float64Array>): Float64Array;
}

/** The natural log of the total weight; -Infinity where no state of the whole is possible. */
export const logSumOf = (tree: ContractionTree, graph: FactorGraph): number => upward(tree, graph).logSum;

/**
 * All upward messages at once, the downward ones as they are asked for; exact.
 *
 * Shape: `undefined` where the total weight is zero: the evidence contradicts itself, and no answer exists.
 */
export function calibrate(tree: ContractionTree, graph: FactorGraph): Calibration | undefined {
  const { logSum, up } = upward(tree, graph);
  if (logSum === Number.NEGATIVE_INFINITY) return undefined;
  const downward = new Map<number, Weights>();
  /** What the rest of the tree says of a node's table. */
  const down = (start: number): Weights => {
    const way: number[] = [];
    for (let at = start; at >= 0 && !downward.has(at); at = item(tree.nodes, at).parent) way.push(at);
    for (const node of way.toReversed()) downward.set(node, downMessage(tree, up, node, downward));
    return present(downward.get(start), "the message down to a node");
  };
  return {
    logSum,
    logCavity: (variable) => logsOf(down(item(tree.leafOf, variable))),
    logAround: (factor) => logsOf(down(item(tree.factorLeafOf, factor))),
    joint: (variables, logUnary = new Map()) => jointWeights({ tree, graph, up, down }, variables, logUnary),
  };
}

const flat = (cells: number): Weights => ({ values: new Float64Array(cells).fill(1), scale: "linear", least: 1 });

function upward(tree: ContractionTree, graph: FactorGraph): { readonly logSum: number; readonly up: Weights[] } {
  const up: Weights[] = [];
  let logSum = 0;
  for (const node of tree.nodes) {
    const { table, logTop } = upMessage(node, graph, (child) => item(up, child));
    logSum += logTop;
    if (node.kind !== "product" && node.parent < 0) logSum += logTotal(table);
    if (logSum === Number.NEGATIVE_INFINITY) break;
    up.push(table);
  }
  return { logSum, up };
}

const logTotal = (table: Weights): number => Math.log(logsOf(table).reduce((sum, l) => sum + Math.exp(l), 0));

function upMessage(
  node: TreeNode,
  graph: FactorGraph,
  up: (child: number) => Weights,
): { readonly table: Weights; readonly logTop: number } {
  switch (node.kind) {
    case "factor":
      return weights(item(graph.factors, node.factor).table.slice());
    case "unary":
      return weightsFromLogs(item(graph.logUnary, node.variable));
    case "product":
      return contract(node.contraction, "out", node.outCells, ["left", up(node.left)], ["right", up(node.right)]);
  }
}

function downMessage(
  tree: ContractionTree,
  up: readonly Weights[],
  node: number,
  down: ReadonlyMap<number, Weights>,
): Weights {
  const cells = item(up, node).values.length;
  const { parent } = item(tree.nodes, node);
  if (parent < 0) return flat(cells);
  const product = item(tree.nodes, parent);
  if (product.kind !== "product") throw new Bug(`a ${product.kind} above another table`);
  const above = ["out", present(down.get(parent), "the message down to a parent")] as const;
  const { contraction, left, right } = product;
  return left === node
    ? contract(contraction, "left", cells, above, ["right", item(up, right)]).table
    : contract(contraction, "right", cells, above, ["left", item(up, left)]).table;
}

interface Messages {
  readonly tree: ContractionTree;
  readonly graph: FactorGraph;
  readonly up: readonly Weights[];
  readonly down: (node: number) => Weights;
}

function jointWeights(
  messages: Messages,
  variables: readonly number[],
  logUnary: ReadonlyMap<number, Float64Array>,
): Float64Array {
  const { tree, graph } = messages;
  const ways = wayBetween(tree, variables);
  const sizes = variables.map((v) => item(tree.sizes, v));
  const count = sizes.reduce((n, s) => n * s, 1);
  const logs = Float64Array.from({ length: count }, (_, at) => {
    const clamped = new Map<number, Float64Array>();
    let rest = at;
    for (let k = variables.length - 1; k >= 0; k--) {
      const v = item(variables, k);
      const state = rest % item(sizes, k);
      rest = Math.floor(rest / item(sizes, k));
      const own = logUnary.get(v) ?? item(graph.logUnary, v);
      clamped.set(
        item(tree.leafOf, v),
        own.map((l, s) => (s === state ? l : Number.NEGATIVE_INFINITY)),
      );
    }
    return logWeight(messages, ways, clamped);
  });
  const highest = logs.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  if (highest === Number.NEGATIVE_INFINITY) return new Float64Array(count);
  const weights = logs.map((l) => Math.exp(l - highest));
  const sum = weights.reduce((a, b) => a + b, 0);
  return weights.map((w) => w / sum);
}

/** The log weight of everything with some leaves replaced. */
function logWeight(
  { tree, graph, up, down }: Messages,
  { way, top }: { readonly way: readonly number[]; readonly top: number },
  replaced: ReadonlyMap<number, Float64Array>,
): number {
  const fresh = new Map<number, Weights>();
  let log = 0;
  for (const at of way) {
    const own = replaced.get(at);
    const { table, logTop } = own
      ? weightsFromLogs(own)
      : upMessage(item(tree.nodes, at), graph, (child) => fresh.get(child) ?? item(up, child));
    log += logTop;
    if (log === Number.NEGATIVE_INFINITY) return log;
    if (at === top) {
      const above = logsOf(down(top));
      return log + Math.log(logsOf(table).reduce((sum, l, i) => sum + Math.exp(l + f64(above, i)), 0));
    }
    fresh.set(at, table);
  }
  return log;
}

/** The nodes from each variable's leaf up to the first one that all the ways share, children before parents. */
function wayBetween(
  tree: ContractionTree,
  variables: readonly number[],
): { readonly way: readonly number[]; readonly top: number } {
  const visits = new Map<number, number>();
  for (const v of variables)
    for (let at = item(tree.leafOf, v); at >= 0; at = item(tree.nodes, at).parent)
      visits.set(at, (visits.get(at) ?? 0) + 1);
  const shared = [...visits].filter(([, n]) => n === variables.length).map(([at]) => at);
  const top = Math.min(...shared);
  return { top, way: [...visits.keys()].filter((at) => at <= top).sort((a, b) => a - b) };
}

import { Bug, present } from "@pollard/base";
import { f64, item } from "./cell.ts";
import { contract } from "./contraction.ts";
import type { ContractionTree, TreeNode } from "./contraction-tree.ts";
import type { FactorGraph } from "./factor-graph.ts";
import { logTotal } from "./log-total.ts";
import { logsOf, Room, type Scaled, type Weights, weights, weightsFromLogs } from "./weights.ts";

/** A tree with its messages: every belief about its variables can be read off. */
export interface Calibration {
  /** Natural log of the sum over all states of the product of all tables. */
  readonly logSum: number;
  /**
   * Natural log of the weight of each state of a variable given everything but its own evidence; the largest is 0. Only
   * the way from the last node down to the variable is computed, once.
   */
  logCavity(variable: number): Float64Array;
  /** The weights of the cells of a factor's table given everything but that factor. */
  around(factor: number): Weights;
  /**
   * The joint weight of a few variables given all evidence. The first is held at each of its states, and what that changes
   * is kept: the next question with the same first variable costs next to nothing.
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

/** The upward messages of a graph, for the next graph on the same tree: only above what changed are they formed again. */
export interface Sent {
  readonly graph: FactorGraph;
  readonly up: readonly Weights[];
  readonly logTops: readonly number[];
}

/**
 * All upward messages at once, the downward ones as they are asked for; exact.
 *
 * Shape: `undefined` where the total weight is zero: the evidence contradicts itself, and no answer exists. `sent` is what
 *        `keep` was given for another graph on the same tree.
 */
export function calibrate(
  tree: ContractionTree,
  graph: FactorGraph,
  sent?: Sent,
  keep?: (sent: Sent) => void,
): Calibration | undefined {
  const { logSum, up, logTops } = upward(tree, graph, sent);
  if (logSum === Number.NEGATIVE_INFINITY) return undefined;
  keep?.({ graph, up, logTops });
  const beliefs = new Beliefs({ tree, graph, logTops, up: (node) => item(up, node) }, logSum);
  return {
    logSum,
    logCavity: (variable) => beliefs.logCavity(variable),
    around: (factor) => beliefs.down(item(tree.factorLeafOf, factor)),
    joint: (variables, logUnary = new Map()) => normalised(beliefs.logJoint(variables, logUnary)),
  };
}

interface Messages {
  readonly tree: ContractionTree;
  readonly graph: FactorGraph;
  /** Natural log of what was scaled out at each node. */
  readonly logTops: readonly number[];
  readonly up: (node: number) => Weights;
}

/** Cells of messages that held variables may keep in all. */
const KEPT_CELLS = 1 << 21;

/** Upward messages, and the downward ones as far as they were asked for. */
class Beliefs {
  readonly #messages: Messages;
  readonly #logSum: number;
  /** Per node, as far as they were asked for. */
  readonly #down: (Weights | undefined)[];
  readonly #room = new Room("share");
  readonly #held = new Map<string, Beliefs | undefined>();

  constructor(messages: Messages, logSum: number) {
    this.#messages = messages;
    this.#logSum = logSum;
    this.#down = messages.tree.nodes.map(() => undefined);
  }

  /** What the rest of the tree says of a node's table. */
  down(start: number): Weights {
    const { tree, up } = this.#messages;
    const way: number[] = [];
    for (let at = start; at >= 0 && this.#down[at] === undefined; at = item(tree.nodes, at).parent) way.push(at);
    for (let k = way.length - 1; k >= 0; k--) {
      const node = item(way, k);
      this.#down[node] = downMessage(tree, up, node, this.#down, this.#room);
    }
    return present(this.#down[start], "the message down to a node");
  }

  logCavity(variable: number): Float64Array {
    return logsOf(this.down(item(this.#messages.tree.leafOf, variable)));
  }

  /** Log weights of every combination of states, up to nothing: they sum to the total weight with the evidence replaced. */
  logJoint(variables: readonly number[], logUnary: ReadonlyMap<number, Float64Array>): Float64Array {
    const [first, ...others] = variables;
    if (first === undefined) return Float64Array.of(this.#logSum);
    const own = logUnary.get(first) ?? item(this.#messages.graph.logUnary, first);
    if (others.length === 0) return this.#absolute(first).map((l, s) => l + f64(own, s));
    const rest = others.reduce((n, v) => n * item(this.#messages.tree.sizes, v), 1);
    const out = new Float64Array(own.length * rest).fill(Number.NEGATIVE_INFINITY);
    own.forEach((log, s) => {
      const held = log === Number.NEGATIVE_INFINITY ? undefined : this.#holding(first, s);
      held?.logJoint(others, logUnary).forEach((l, at) => {
        out[s * rest + at] = log + l;
      });
    });
    return out;
  }

  /** Log weight of everything but a variable's own evidence, by its state. */
  #absolute(variable: number): Float64Array {
    const cavity = this.logCavity(variable);
    const own = item(this.#messages.graph.logUnary, variable);
    const scale = this.#logSum - logTotal(cavity.map((l, s) => l + f64(own, s)));
    return cavity.map((l) => l + scale);
  }

  /** With a variable held at a state, its own evidence left out; nothing where that is impossible. */
  #holding(variable: number, state: number): Beliefs | undefined {
    const key = `${variable} ${state}`;
    const known = this.#held.get(key);
    if (known || this.#held.has(key)) return known;
    const { tree, graph, up, logTops } = this.#messages;
    const only = Float64Array.from({ length: item(tree.sizes, variable) }, (_, s) =>
      s === state ? 0 : Number.NEGATIVE_INFINITY,
    );
    const room = new Room("share");
    const fresh = new Map([[item(tree.leafOf, variable), weightsFromLogs(only, room).table]]);
    const tops = logTops.slice();
    let logSum = this.#logSum - item(tops, item(tree.leafOf, variable));
    tops[item(tree.leafOf, variable)] = 0;
    const upNow = (node: number): Weights => fresh.get(node) ?? up(node);
    for (let at = item(tree.nodes, item(tree.leafOf, variable)).parent; at >= 0; at = item(tree.nodes, at).parent) {
      const { table, logTop } = upMessage(item(tree.nodes, at), graph, upNow, room);
      logSum += logTop - item(tops, at);
      tops[at] = logTop;
      fresh.set(at, table);
      if (logTop === Number.NEGATIVE_INFINITY) break;
    }
    const isPossible = logSum > Number.NEGATIVE_INFINITY;
    const held = isPossible ? new Beliefs({ tree, graph, up: upNow, logTops: tops }, logSum) : undefined;
    this.#held.set(key, held);
    const oldest = this.#held.size * tree.cells > KEPT_CELLS ? this.#held.keys().next().value : undefined;
    if (oldest !== undefined && oldest !== key) this.#held.delete(oldest);
    return held;
  }
}

function normalised(logs: Float64Array): Float64Array {
  const total = logTotal(logs);
  return total === Number.NEGATIVE_INFINITY ? new Float64Array(logs.length) : logs.map((l) => Math.exp(l - total));
}

const flat = (cells: number): Weights => ({
  values: new Float64Array(cells).fill(1),
  from: 0,
  cells,
  scale: "linear",
  least: 1,
});

function upward(
  tree: ContractionTree,
  graph: FactorGraph,
  sent?: Sent,
): { readonly logSum: number; readonly up: readonly Weights[]; readonly logTops: readonly number[] } {
  const up: Weights[] = [];
  const logTops: number[] = [];
  /** Whether each node's message is the one that was sent before. */
  const isSame = new Uint8Array(tree.nodes.length);
  // What is formed after a finding more outlives it only in part.
  const room = new Room(sent ? "apart" : "share");
  const leaf = factorLeaves(graph, room);
  let logSum = 0;
  for (let at = 0; at < tree.nodes.length; at++) {
    const node = item(tree.nodes, at);
    isSame[at] = sent && saysTheSame(node, graph, sent.graph, isSame) ? 1 : 0;
    const { table, logTop } =
      sent && isSame[at] === 1
        ? { table: item(sent.up, at), logTop: item(sent.logTops, at) }
        : node.kind === "factor"
          ? leaf(node.factor)
          : upMessage(node, graph, (child) => item(up, child), room);
    logSum += logTop;
    // The last table of a family is summed; all others are only scaled.
    if (node.parent < 0 && logTop > Number.NEGATIVE_INFINITY) logSum += logTotal(logsOf(table));
    if (logSum === Number.NEGATIVE_INFINITY) break;
    up.push(table);
    logTops.push(logTop);
  }
  return { logSum, up, logTops };
}

/** What the leaves of factors send; most share their tables with many others. */
function factorLeaves({ factors }: FactorGraph, room: Room): (factor: number) => Scaled {
  const known = new Map<Float64Array, Scaled>();
  return (factor) => {
    const { table } = item(factors, factor);
    const sent = known.get(table) ?? weights(room.taken(table));
    known.set(table, sent);
    return sent;
  };
}

/** Does a node send what it sent in another graph on the same tree, given whether those below it do? */
function saysTheSame(node: TreeNode, graph: FactorGraph, before: FactorGraph, isSame: Uint8Array): boolean {
  switch (node.kind) {
    case "factor":
      return isEqual(item(graph.factors, node.factor).table, item(before.factors, node.factor).table);
    case "unary":
      return isEqual(item(graph.logUnary, node.variable), item(before.logUnary, node.variable));
    case "product":
      return isSame[node.left] === 1 && isSame[node.right] === 1;
  }
}

/** Whether two tables of one shape hold the same weights. */
export function isEqual(a: Float64Array, b: Float64Array): boolean {
  if (a === b) return true;
  for (let i = 0; i < a.length; i++) if (f64(a, i) !== f64(b, i)) return false;
  return true;
}

function upMessage(node: TreeNode, graph: FactorGraph, up: (child: number) => Weights, room: Room): Scaled {
  switch (node.kind) {
    case "factor":
      return weights(room.taken(item(graph.factors, node.factor).table));
    case "unary":
      return weightsFromLogs(item(graph.logUnary, node.variable), room);
    case "product":
      return contract(
        node.contraction,
        ["out", node.outCells],
        ["left", up(node.left)],
        ["right", up(node.right)],
        room,
      );
  }
}

function downMessage(
  tree: ContractionTree,
  up: (node: number) => Weights,
  node: number,
  down: readonly (Weights | undefined)[],
  room: Room,
): Weights {
  const { cells } = up(node);
  const { parent } = item(tree.nodes, node);
  if (parent < 0) return flat(cells);
  const product = item(tree.nodes, parent);
  if (product.kind !== "product") throw new Bug(`a ${product.kind} above another table`);
  const above = ["out", present(down[parent], "the message down to a parent")] as const;
  const { contraction, left, right } = product;
  return left === node
    ? contract(contraction, ["left", cells], above, ["right", up(right)], room).table
    : contract(contraction, ["right", cells], above, ["left", up(left)], room).table;
}

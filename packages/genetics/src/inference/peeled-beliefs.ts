import { f64, item } from "./cell.ts";
import type { FactorGraph } from "./factor-graph.ts";
import type { Peeling } from "./iterative-peeling.ts";
import type { Calibration } from "./propagation.ts";
import { Room, weightsFromLogs } from "./weights.ts";

/** Iterative peeling in the form of the exact engine, so that the same questions can be asked of it; approximate. */
export const peeledBeliefs = (graph: FactorGraph, peeling: Peeling): Calibration => ({
  logSum: peeling.logSum,
  logCavity: (v) => peeling.logCavity(v),
  around: (f) => weightsFromLogs(peeling.logAround(f), new Room("apart")).table,
  joint: (variables, logUnary = new Map()) => joint(graph, peeling, variables, logUnary),
});

/**
 * Joint weights by the chain rule: the first variable's chances, then those of the others with the first held at each of
 * its states.
 */
function joint(
  graph: FactorGraph,
  peeling: Peeling,
  variables: readonly number[],
  logUnary: ReadonlyMap<number, Float64Array>,
): Float64Array {
  const [first, ...others] = variables;
  if (first === undefined) return Float64Array.of(1);
  const own = logUnary.get(first) ?? item(graph.logUnary, first);
  const logs = peeling.logCavity(first).map((l, s) => l + f64(own, s));
  const top = logs.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const weights = logs.map((l) => (top === Number.NEGATIVE_INFINITY ? 0 : Math.exp(l - top)));
  const total = weights.reduce((a, b) => a + b, 0);
  const chances = weights.map((w) => (total > 0 ? w / total : 0));
  const rest = others.reduce((n, v) => n * item(graph.sizes, v), 1);
  const out = new Float64Array(chances.length * rest);
  chances.forEach((p, s) => {
    if (p === 0) return;
    const held = own.map((_, k) => (k === s ? 0 : Number.NEGATIVE_INFINITY));
    const given = others.length === 0 ? peeling : peeling.again(new Map([[first, held]]));
    if (given)
      joint(graph, given, others, logUnary).forEach((q, at) => {
        out[s * rest + at] = p * q;
      });
  });
  return out;
}

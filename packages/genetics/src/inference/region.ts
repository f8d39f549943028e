import { present } from "@pollard/base";
import { f64, item } from "./cell.ts";
import { type ContractionTree, contractionTree } from "./contraction-tree.ts";
import type { Factor, FactorGraph } from "./factor-graph.ts";
import type { Peeling } from "./iterative-peeling.ts";
import { calibrate } from "./propagation.ts";

/** Cells allowed for the exact answer about one variable's surroundings. */
const REGION_CELLS = 30_000;
/** Steps from the variable after which its surroundings end at the latest. */
const FARTHEST = 8;

/**
 * How far iterative peeling may be off: the surroundings of some variables, as far as the exact way reaches, are worked
 * out exactly, with peeling's messages at their border, and compared.
 *
 * Shape: `laidOut` keeps the surroundings of each variable that was looked at, for other graphs of the same shape.
 * Units: the largest difference of a chance that was found; loops beyond the surroundings, and the variables that were
 *        not looked at, stay uncounted.
 */
export function peelingError(
  graph: FactorGraph,
  peeling: Peeling,
  variables: readonly number[],
  laidOut: Map<number, Region>,
): number {
  const factorsOf: number[][] = graph.sizes.map(() => []);
  graph.factors.forEach(({ scope }, f) => {
    for (const v of scope) item(factorsOf, v).push(f);
  });
  return variables.reduce((most, v) => {
    const region = laidOut.get(v) ?? largestRegion(graph, factorsOf, v);
    laidOut.set(v, region);
    return Math.max(most, errorAt(graph, factorsOf, peeling, { variable: v, region }));
  }, 0);
}

function errorAt(
  graph: FactorGraph,
  factorsOf: readonly (readonly number[])[],
  peeling: Peeling,
  { variable, region }: { readonly variable: number; readonly region: Region },
): number {
  const { factors, tree, variables } = region;
  const inside = new Set(factors);
  const logUnary = variables.map((v) => {
    const own = item(graph.logUnary, v).slice();
    for (const f of item(factorsOf, v)) {
      if (inside.has(f)) continue;
      peeling.logMessage(f, item(graph.factors, f).scope.indexOf(v)).forEach((l, s) => {
        own[s] = f64(own, s) + l;
      });
    }
    return own;
  });
  const places = placesOf(variables);
  const part = { sizes: tree.sizes, factors: factors.map((f) => renamed(item(graph.factors, f), places)), logUnary };
  const calibration = calibrate(tree, part);
  if (!calibration) return 1;
  const at = variables.indexOf(variable);
  const exact = chancesOf(calibration.logCavity(at), item(logUnary, at));
  const peeled = chancesOf(peeling.logCavity(variable), item(graph.logUnary, variable));
  return exact.reduce((most, p, s) => Math.max(most, Math.abs(p - f64(peeled, s))), 0);
}

/** A part of a graph with the layout of its exact computation, in which its variables are numbered in their order. */
export interface Region {
  readonly factors: readonly number[];
  readonly variables: readonly number[];
  readonly tree: ContractionTree;
}

/** The surroundings of a variable, step by step, as far as they can be worked out exactly. */
function largestRegion(graph: FactorGraph, factorsOf: readonly (readonly number[])[], variable: number): Region {
  let variables: readonly number[] = [variable];
  const alone = present(layout(graph, [], variables, Number.POSITIVE_INFINITY), "a layout without a limit");
  let region: Region = { factors: [], variables, tree: alone };
  for (let step = 0; step < FARTHEST; step++) {
    const factors = [...new Set(variables.flatMap((v) => item(factorsOf, v)))];
    variables = [...new Set([variable, ...factors.flatMap((f) => item(graph.factors, f).scope)])];
    const tree = layout(graph, factors, variables, REGION_CELLS);
    if (!tree || factors.length === region.factors.length) break;
    region = { factors, variables, tree };
  }
  return region;
}

function layout(
  graph: FactorGraph,
  factors: readonly number[],
  variables: readonly number[],
  cellLimit: number,
): ContractionTree | undefined {
  const places = placesOf(variables);
  return contractionTree(
    variables.map((v) => item(graph.sizes, v)),
    factors.map((f) => renamed(item(graph.factors, f), places).scope),
    cellLimit,
  );
}

const placesOf = (variables: readonly number[]): ReadonlyMap<number, number> =>
  new Map(variables.map((v, at) => [v, at]));

const renamed = ({ scope, table }: Factor, places: ReadonlyMap<number, number>): Factor => ({
  scope: scope.map((v) => present(places.get(v), "a variable of the region")),
  table,
});

/** The chances of a variable's states from what the rest says of them and its own evidence, both as natural logs. */
export function chancesOf(logs: Float64Array, own: Float64Array): Float64Array {
  const both = logs.map((l, s) => l + f64(own, s));
  const top = both.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const weights = both.map((l) => Math.exp(l - top));
  const total = weights.reduce((a, b) => a + b, 0);
  return weights.map((w) => w / total);
}

import { item } from "./cell.ts";
import { eliminationPlan } from "./elimination-order.ts";
import { type Strides, stridesOver } from "./table-kernels.ts";

/** The table in which one variable is summed out. */
export interface Clique {
  /** The variable summed out here; it stands last in `scope`, the variable summed out latest stands first. */
  readonly variable: number;
  readonly scope: readonly number[];
  readonly dims: Int32Array;
  readonly cells: number;
  /** The clique that takes this one's message; -1 at the last clique of a family. */
  readonly parent: number;
  readonly children: readonly number[];
  /** The message to the parent laid over the parent's table. */
  readonly overParent: Strides;
  /** The factors multiplied in here, and each laid over this table. */
  readonly factors: readonly number[];
  readonly overFactors: readonly Strides[];
  /** The variable's own evidence laid over this table. */
  readonly overUnary: Strides;
}

/** The shape of a computation: it holds no weights, so one tree serves every change of evidence. */
export interface CliqueTree {
  readonly sizes: readonly number[];
  /** In order of elimination: every clique stands before its parent. */
  readonly cliques: readonly Clique[];
  /** The clique in which each variable is summed out. */
  readonly homeOf: readonly number[];
  /** Cells of all tables together, and of the largest. */
  readonly cells: number;
  readonly largest: number;
}

/**
 * Lays out the exact computation for tables of these scopes.
 *
 * Shape: `undefined` where it would need more than `cellLimit` table cells: then nothing exact is to be had.
 */
export function cliqueTree(
  sizes: readonly number[],
  scopes: readonly (readonly number[])[],
  cellLimit: number,
): CliqueTree | undefined {
  const plan = eliminationPlan(sizes, scopes, cellLimit);
  if (!plan) return undefined;
  const homeOf = sizes.map(() => 0);
  plan.order.forEach((v, at) => {
    homeOf[v] = at;
  });
  const home = (v: number): number => item(homeOf, v);
  const children: number[][] = plan.order.map(() => []);
  const parents = plan.neighbours.map((around, at) => {
    const parent = around.reduce((first, v) => (first < 0 ? home(v) : Math.min(first, home(v))), -1);
    if (parent >= 0) item(children, parent).push(at);
    return parent;
  });
  const factors: number[][] = plan.order.map(() => []);
  scopes.forEach((scope, f) => {
    item(factors, Math.min(...scope.map(home))).push(f);
  });
  const ordered = plan.order.map((v, at) => [...item(plan.neighbours, at)].sort((a, b) => home(b) - home(a)).concat(v));
  const cliques = plan.order.map((variable, at): Clique => {
    const scope = item(ordered, at);
    const parent = item(parents, at);
    const mine = item(factors, at);
    return {
      variable,
      scope,
      dims: Int32Array.from(scope, (v) => item(sizes, v)),
      cells: scope.reduce((n, v) => n * item(sizes, v), 1),
      parent,
      children: item(children, at),
      overParent: parent < 0 ? new Int32Array(0) : stridesOver(item(ordered, parent), scope.slice(0, -1), sizes),
      factors: mine,
      overFactors: mine.map((f) => stridesOver(scope, item(scopes, f), sizes)),
      overUnary: stridesOver(scope, [variable], sizes),
    };
  });
  return { sizes, cliques, homeOf, cells: plan.cells, largest: plan.largest };
}

import { f64, item } from "./cell.ts";
import { eliminationPlan } from "./elimination-order.ts";
import type { FactorGraph } from "./factor-graph.ts";

/** The most probable combination of states, and the natural log of its weight. */
export interface BestStates {
  readonly states: readonly number[];
  readonly log: number;
}

interface LogTable {
  readonly scope: readonly number[];
  readonly logs: Float64Array;
}

/**
 * The one combination of states of all variables that has the most weight.
 *
 * As summing out, with the largest instead of the sum, and the choice remembered; then the choices are followed back.
 * Ties go to the earlier state.
 *
 * Shape:  `undefined` beyond the cell limit, or where nothing is possible.
 * Source: [dawid1992] (maximisation in place of summation); rule GE-31.
 */
export function bestStates(graph: FactorGraph, cellLimit: number): BestStates | undefined {
  const { sizes, factors, logUnary } = graph;
  const plan = eliminationPlan(
    sizes,
    factors.map((f) => f.scope),
    cellLimit,
  );
  if (!plan) return undefined;
  const rank = sizes.map(() => 0);
  plan.order.forEach((v, at) => {
    rank[v] = at;
  });
  const buckets: LogTable[][] = plan.order.map(() => []);
  let log = 0;
  const file = (table: LogTable): void => {
    if (table.scope.length === 0) log += f64(table.logs, 0);
    else item(buckets, Math.min(...table.scope.map((v) => item(rank, v)))).push(table);
  };
  for (const { scope, table } of factors) file({ scope, logs: table.map((w) => Math.log(w)) });
  logUnary.forEach((logs, v) => {
    file({ scope: [v], logs });
  });
  const choices = plan.order.map((variable, at) => {
    const { message, choice } = maximiseOut(sizes, variable, item(plan.neighbours, at), item(buckets, at));
    file(message);
    return { variable, choice };
  });
  if (log === Number.NEGATIVE_INFINITY) return undefined;
  const states = sizes.map(() => 0);
  for (const { variable, choice } of choices.toReversed())
    states[variable] = item(choice.states, cellOf(sizes, choice.scope, states));
  return { states, log };
}

function maximiseOut(
  sizes: readonly number[],
  variable: number,
  scope: readonly number[],
  tables: readonly LogTable[],
): {
  readonly message: LogTable;
  readonly choice: { readonly scope: readonly number[]; readonly states: readonly number[] };
} {
  const cells = scope.reduce((n, v) => n * item(sizes, v), 1);
  const logs = new Float64Array(cells).fill(Number.NEGATIVE_INFINITY);
  const best = Array.from({ length: cells }, () => 0);
  const states = sizes.map(() => 0);
  for (let cell = 0; cell < cells; cell++) {
    let rest = cell;
    for (const v of scope.toReversed()) {
      states[v] = rest % item(sizes, v);
      rest = Math.floor(rest / item(sizes, v));
    }
    for (let s = 0; s < item(sizes, variable); s++) {
      states[variable] = s;
      const sum = tables.reduce((l, t) => l + f64(t.logs, cellOf(sizes, t.scope, states)), 0);
      if (sum > f64(logs, cell)) [logs[cell], best[cell]] = [sum, s];
    }
  }
  return { message: { scope, logs }, choice: { scope, states: best } };
}

function cellOf(sizes: readonly number[], scope: readonly number[], states: readonly number[]): number {
  let cell = 0;
  for (const v of scope) cell = cell * item(sizes, v) + item(states, v);
  return cell;
}

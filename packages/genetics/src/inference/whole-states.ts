import type { Random } from "@pollard/base";
import { f64, item } from "./cell.ts";
import { eliminationPlan } from "./elimination-order.ts";
import type { FactorGraph } from "./factor-graph.ts";
import { logTotal } from "./log-total.ts";

/** The most probable combination of states, and the natural log of its weight. */
export interface BestStates {
  readonly states: readonly number[];
  readonly log: number;
}

interface LogTable {
  readonly scope: readonly number[];
  readonly logs: Float64Array;
}

/** One variable's weights, for every combination of the variables that are decided before it. */
interface Decision {
  readonly variable: number;
  readonly before: readonly number[];
  /** Natural logs, row-major over `before`, the variable's own states fastest. */
  readonly logs: Float64Array;
}

/**
 * The one combination of states of all variables that has the most weight. Ties go to the earlier state.
 *
 * Shape:  `undefined` beyond the cell limit, or where nothing is possible.
 * Source: [dawid1992] (maximisation in place of summation); rule GE-31.
 */
export function bestStates(graph: FactorGraph, cellLimit: number): BestStates | undefined {
  const done = eliminate(graph, cellLimit, (logs) => logs.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY));
  if (!done) return undefined;
  return { log: done.log, states: followed(graph, done.decisions, (logs) => logs.indexOf(Math.max(...logs))) };
}

/**
 * A drawer of whole combinations of states, each as often as its weight says: what a herd may really be like, everyone
 * fitting everyone else.
 *
 * Shape:  `undefined` beyond the cell limit, or where nothing is possible.
 * Cost:   the tables once; a draw takes a few steps per variable.
 * Source: [dawid1992] (random propagation); rule GE-32.
 */
export function stateDrawer(
  graph: FactorGraph,
  cellLimit: number,
): ((random: Random) => readonly number[]) | undefined {
  const done = eliminate(graph, cellLimit, logTotal);
  return done && ((random) => followed(graph, done.decisions, (logs) => drawn(logs, random)));
}

/** Takes the variables out one by one, as `outOf` says, keeping for each what it is decided by. */
function eliminate(
  { sizes, factors, logUnary }: FactorGraph,
  cellLimit: number,
  outOf: (logs: readonly number[]) => number,
): { readonly log: number; readonly decisions: readonly Decision[] } | undefined {
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
  const waiting: LogTable[][] = plan.order.map(() => []);
  let log = 0;
  const file = (table: LogTable): void => {
    if (table.scope.length === 0) log += f64(table.logs, 0);
    else item(waiting, Math.min(...table.scope.map((v) => item(rank, v)))).push(table);
  };
  for (const { scope, table } of factors) file({ scope, logs: table.map((w) => Math.log(w)) });
  logUnary.forEach((logs, v) => {
    file({ scope: [v], logs });
  });
  const decisions = plan.order.map((variable, at) => {
    const decision = decisionOf(sizes, variable, item(plan.neighbours, at), item(waiting, at));
    const size = item(sizes, variable);
    const logs = Float64Array.from({ length: decision.logs.length / size }, (_, row) =>
      outOf([...decision.logs.subarray(row * size, (row + 1) * size)]),
    );
    file({ scope: decision.before, logs });
    return decision;
  });
  return log === Number.NEGATIVE_INFINITY ? undefined : { log, decisions };
}

function decisionOf(
  sizes: readonly number[],
  variable: number,
  before: readonly number[],
  tables: readonly LogTable[],
): Decision {
  const scope = [...before, variable];
  const cells = scope.reduce((n, v) => n * item(sizes, v), 1);
  const states = sizes.map(() => 0);
  const logs = Float64Array.from({ length: cells }, (_, cell) => {
    let rest = cell;
    for (const v of scope.toReversed()) {
      states[v] = rest % item(sizes, v);
      rest = Math.floor(rest / item(sizes, v));
    }
    return tables.reduce((l, t) => l + f64(t.logs, cellOf(sizes, t.scope, states)), 0);
  });
  return { variable, before, logs };
}

/** Decides the variables one by one, the one taken out last first. */
function followed(
  { sizes }: FactorGraph,
  decisions: readonly Decision[],
  choose: (logs: readonly number[]) => number,
): readonly number[] {
  const states = sizes.map(() => 0);
  for (const { variable, before, logs } of decisions.toReversed()) {
    const size = item(sizes, variable);
    const row = cellOf(sizes, before, states) * size;
    states[variable] = choose([...logs.subarray(row, row + size)]);
  }
  return states;
}

function drawn(logs: readonly number[], random: Random): number {
  const total = logTotal(logs);
  let rest = random.next();
  let last = 0;
  for (const [state, log] of logs.entries()) {
    if (log === Number.NEGATIVE_INFINITY) continue;
    last = state;
    rest -= Math.exp(log - total);
    if (rest < 0) break;
  }
  return last;
}

function cellOf(sizes: readonly number[], scope: readonly number[], states: readonly number[]): number {
  let cell = 0;
  for (const v of scope) cell = cell * item(sizes, v) + item(states, v);
  return cell;
}

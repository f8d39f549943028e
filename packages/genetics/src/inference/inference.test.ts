import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { present } from "@pollard/base";
import { item } from "./cell.ts";
import { contractionTree } from "./contraction-tree.ts";
import { eliminationPlan } from "./elimination-order.ts";
import type { FactorGraph } from "./factor-graph.ts";
import { calibrate } from "./propagation.ts";
import { mayHold } from "./support.ts";
import { logsOf } from "./weights.ts";

/** Any graph of up to five variables of one to three states and up to six tables, many weights 0. */
const anyGraph: fc.Arbitrary<FactorGraph> = fc
  .array(fc.integer({ min: 1, max: 3 }), { minLength: 1, maxLength: 5 })
  .chain((sizes) => {
    // The product of the last two is so small that a number holds hardly a digit of it.
    const weight = fc.constantFrom(0, 0, 0.2, 1, 3, 1e-121, 1e-200);
    const factor = fc
      .shuffledSubarray([...sizes.keys()], { minLength: 1, maxLength: Math.min(3, sizes.length) })
      .chain((scope) => {
        const cells = scope.reduce((n, v) => n * item(sizes, v), 1);
        return fc
          .array(weight, { minLength: cells, maxLength: cells })
          .map((table) => ({ scope, table: Float64Array.from(table) }));
      });
    const unary = fc.tuple(...sizes.map((n) => fc.array(weight, { minLength: n, maxLength: n })));
    return fc.record({
      sizes: fc.constant(sizes),
      factors: fc.array(factor, { maxLength: 6 }),
      logUnary: unary.map((rows) => rows.map((row) => Float64Array.from(row, Math.log))),
    });
  });

/** Every state of the whole with its log weight; `without` leaves one table or one variable's own evidence out. */
function states(graph: FactorGraph, without: { factor?: number; variable?: number } = {}) {
  const count = graph.sizes.reduce((n, s) => n * s, 1);
  return Array.from({ length: count }, (_, at) => {
    let rest = at;
    const state = graph.sizes.map((n) => {
      const s = rest % n;
      rest = Math.floor(rest / n);
      return s;
    });
    let log = 0;
    graph.factors.forEach((factor, f) => {
      if (f !== without.factor) log += Math.log(item([...factor.table], cellOf(graph, factor.scope, state)));
    });
    graph.logUnary.forEach((own, v) => {
      if (v !== without.variable) log += own[item(state, v)] ?? 0;
    });
    return { state, log };
  });
}

const cellOf = ({ sizes }: FactorGraph, scope: readonly number[], state: readonly number[]) =>
  scope.reduce((c, v) => c * item(sizes, v) + item(state, v), 0);

const logTotal = (all: readonly { readonly log: number }[]) => {
  const top = Math.max(...all.map((x) => x.log));
  return top === Number.NEGATIVE_INFINITY ? top : top + Math.log(all.reduce((s, x) => s + Math.exp(x.log - top), 0));
};
const isPossible = (graph: FactorGraph) => logTotal(states(graph)) > Number.NEGATIVE_INFINITY;
const layout = ({ sizes, factors }: FactorGraph) =>
  present(
    contractionTree(
      sizes,
      factors.map((f) => f.scope),
      Number.POSITIVE_INFINITY,
    ),
    "a layout without a limit",
  );

/** Equal up to a constant factor, which logs show as an equal difference. */
function expectProportional(logs: Float64Array, want: readonly number[]) {
  const top = Math.max(...want);
  logs.forEach((l, s) => {
    const w = item(want, s) - top;
    if (w === Number.NEGATIVE_INFINITY) expect(l).toBe(w);
    else expect(l).toBeCloseTo(w, 9);
  });
}

describe("laws", () => {
  test("[GE-4] on any graph: total weight, cavities and what surrounds a table, as by listing every state", () => {
    fc.assert(
      fc.property(anyGraph, (graph) => {
        const calibration = calibrate(layout(graph), graph);
        expect(calibration !== undefined).toBe(isPossible(graph));
        if (!calibration) return;
        expect(calibration.logSum).toBeCloseTo(logTotal(states(graph)), 9);
        graph.sizes.forEach((n, v) => {
          const rest = states(graph, { variable: v });
          const want = Array.from({ length: n }, (_, s) => logTotal(rest.filter((x) => x.state[v] === s)));
          expectProportional(calibration.logCavity(v), want);
        });
        graph.factors.forEach(({ scope, table }, f) => {
          const rest = states(graph, { factor: f });
          const want = Array.from(table, (_, cell) =>
            logTotal(rest.filter(({ state }) => cellOf(graph, scope, state) === cell)),
          );
          expectProportional(logsOf(calibration.around(f)), want);
        });
      }),
    );
  });

  test("[GE-61] what is certain takes up no room: any two variables together, as by listing every state", () => {
    fc.assert(
      fc.property(anyGraph, fc.nat(), fc.nat(), (graph, i, j) => {
        const [a, b] = [i % graph.sizes.length, j % graph.sizes.length];
        const calibration = calibrate(layout(graph), graph);
        if (!calibration || a === b) return;
        const all = states(graph);
        const total = logTotal(all);
        calibration.joint([a, b]).forEach((p, at) => {
          const [s, t] = [Math.floor(at / item(graph.sizes, b)), at % item(graph.sizes, b)];
          const want = logTotal(all.filter(({ state }) => state[a] === s && state[b] === t)) - total;
          expect(p).toBeCloseTo(Math.exp(want), 9);
        });
        const open = graph.sizes.filter((n) => n > 1).length;
        expect(layout(graph).nodes.filter(({ kind }) => kind === "product").length).toBeLessThanOrEqual(
          open + graph.factors.filter(({ scope }) => scope.some((v) => item(graph.sizes, v) > 1)).length,
        );
      }),
    );
  });

  test("[GE-4] a pedigree's layout multiplies no more cells than its limit, and takes each variable once", () => {
    fc.assert(
      fc.property(anyGraph, fc.integer({ min: 1, max: 200 }), (graph, limit) => {
        const plan = eliminationPlan(
          graph.sizes,
          graph.factors.map((f) => f.scope),
          limit,
        );
        if (!plan) return;
        expect(plan.cells).toBeLessThanOrEqual(limit);
        expect(new Set(plan.order).size).toBe(graph.sizes.length);
      }),
    );
  });

  test("[GE-5] what support propagation calls impossible is impossible, and a single table is judged rightly", () => {
    fc.assert(
      fc.property(anyGraph, (graph) => {
        if (isPossible(graph)) expect(mayHold(graph)).toBe(true);
        const alone = { ...graph, factors: graph.factors.slice(0, 1) };
        expect(mayHold(alone)).toBe(isPossible(alone));
      }),
    );
  });
});

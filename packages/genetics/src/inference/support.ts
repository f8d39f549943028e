import { f64, item } from "./cell.ts";
import type { FactorGraph } from "./factor-graph.ts";

/**
 * Whether every variable keeps a state that each table, taken by itself, still allows.
 *
 * `false` is a proof that nothing is possible. `true` is no proof of the contrary: on graphs with loops every table can
 * be satisfied alone and not all together. For graphs too entangled for the exact way.
 *
 * Source: [mackworth1977] (arc consistency, here for tables over several variables).
 */
export function mayHold(graph: FactorGraph): boolean {
  const alive = graph.logUnary.map((own) => Array.from(own, (l) => l > Number.NEGATIVE_INFINITY));
  const factorsOf: number[][] = graph.sizes.map(() => []);
  graph.factors.forEach(({ scope }, f) => {
    for (const v of scope) item(factorsOf, v).push(f);
  });
  if (alive.some((states) => !states.includes(true))) return false;
  const waiting = new Set(graph.factors.keys());
  for (const f of waiting) {
    waiting.delete(f);
    for (const v of narrow(graph, f, alive)) {
      if (!item(alive, v).includes(true)) return false;
      for (const g of item(factorsOf, v)) if (g !== f) waiting.add(g);
    }
  }
  return true;
}

/** Strikes the states that one table does not allow any more; the variables that lost a state. */
function narrow({ sizes, factors }: FactorGraph, f: number, alive: readonly boolean[][]): readonly number[] {
  const { scope, table } = item(factors, f);
  const seen = scope.map((v) => Array.from({ length: item(sizes, v) }, () => false));
  const states = scope.map(() => 0);
  for (let at = 0; at < table.length; at++) {
    let rest = at;
    let isAlive = f64(table, at) > 0;
    for (let k = scope.length - 1; k >= 0; k--) {
      const size = item(sizes, item(scope, k));
      states[k] = rest % size;
      rest = Math.floor(rest / size);
      isAlive &&= item(item(alive, item(scope, k)), item(states, k));
    }
    if (isAlive)
      states.forEach((s, k) => {
        item(seen, k)[s] = true;
      });
  }
  return scope.filter((v, k) => {
    const kept = item(alive, v);
    const lost = kept.some((is, s) => is && !item(item(seen, k), s));
    item(seen, k).forEach((is, s) => {
      kept[s] &&= is;
    });
    return lost;
  });
}

import { f64, i32, item } from "./cell.ts";
import type { FactorGraph } from "./factor-graph.ts";

/** Sweeps after which messages are averaged with the ones before, and after which there is an end. */
const DAMPED_FROM = 60;
const MOST_SWEEPS = 200;
/** Largest change of a message (in a chance) at which they count as settled. */
const SETTLED = 1e-8;
/** Changes below this are not passed on within a sweep. */
const TOO_SMALL = SETTLED / 100;

/** Messages that no longer change, or changed little at the end. */
export interface Peeling {
  /** Natural log of the total weight as the messages have it (Bethe). */
  readonly logSum: number;
  /** The largest change in the last sweep: above 1e-8 they have not settled. */
  readonly unrest: number;
  readonly sweeps: number;
  /** Natural log of each state's weight given everything but the variable's own evidence; the largest is 0. */
  logCavity(variable: number): Float64Array;
  /** As `logCavity`, of the cells of a factor's table given everything but that factor. */
  logAround(factor: number): Float64Array;
  /** Natural log of what a factor says to the variable at a place of its scope. */
  logMessage(factor: number, place: number): Float64Array;
  /** Peels again with other evidence of some variables, from these messages on. */
  again(logUnary: ReadonlyMap<number, Float64Array>): Peeling | undefined;
}

/**
 * Messages between neighbouring tables, over and over until they settle: not exact where there are loops, but its cost
 * grows only with the number of animals.
 *
 * Shape:   `undefined` where the messages leave a variable no state: the evidence contradicts itself.
 * Assumes: nothing; but on graphs with loops the answer is an approximation and must be called one.
 * Source:  [janss1995] (iterative peeling), [pearl1988] (the messages), [yedidia2005] (the log weight).
 */
export const peel = (graph: FactorGraph): Peeling | undefined => new Peeler(graph, graph.logUnary).run();

/** One run: all messages of a graph, changed in place until they settle. */
class Peeler {
  readonly #graph: FactorGraph;
  readonly #logUnary: readonly Float64Array[];
  /** Per factor and place in its scope: log message to the variable. */
  readonly #toVariable: Float64Array[][];
  /** Per variable: the sum of the finite log messages, and how many are -Infinity, per state. */
  readonly #sums: Float64Array[];
  readonly #zeros: Int32Array[];
  readonly #factorsOf: number[][];
  readonly #entries: readonly Entries[];
  /** Which factors have something new to hear. */
  readonly #stale: Uint8Array;

  constructor(graph: FactorGraph, logUnary: readonly Float64Array[], from?: readonly (readonly Float64Array[])[]) {
    this.#graph = graph;
    this.#logUnary = logUnary;
    this.#toVariable = graph.factors.map(({ scope }, f) =>
      scope.map((v, k) => from?.[f]?.[k]?.slice() ?? new Float64Array(item(graph.sizes, v))),
    );
    this.#sums = graph.sizes.map((n) => new Float64Array(n));
    this.#zeros = graph.sizes.map((n) => new Int32Array(n));
    this.#entries = entriesOf(graph);
    this.#stale = new Uint8Array(graph.factors.length).fill(1);
    this.#factorsOf = graph.sizes.map(() => []);
    graph.factors.forEach(({ scope }, f) => {
      for (const v of scope) item(this.#factorsOf, v).push(f);
    });
  }

  run(): Peeling | undefined {
    const count = this.#graph.factors.length;
    let unrest = Number.POSITIVE_INFINITY;
    let sweeps = 0;
    while (unrest > SETTLED && sweeps < MOST_SWEEPS) {
      this.#recount();
      unrest = 0;
      const damping = sweeps < DAMPED_FROM ? 0 : 0.5;
      for (let k = 0; k < count; k++) {
        const f = sweeps % 2 === 0 ? k : count - 1 - k;
        if (this.#stale[f] === 0) continue;
        this.#stale[f] = 0;
        const change = this.#visit(f, damping);
        if (Number.isNaN(change)) return undefined;
        unrest = Math.max(unrest, change);
      }
      sweeps++;
    }
    this.#recount();
    const logSum = this.#logSum();
    if (logSum === Number.NEGATIVE_INFINITY) return undefined;
    return {
      logSum,
      unrest,
      sweeps,
      logCavity: (v) => scaled(this.#without(v, undefined)),
      logAround: (f) => this.#around(f),
      logMessage: (f, k) => item(item(this.#toVariable, f), k),
      again: (logUnary) =>
        new Peeler(
          this.#graph,
          this.#logUnary.map((own, v) => logUnary.get(v) ?? own),
          this.#toVariable,
        ).run(),
    };
  }

  /** Adds all messages up afresh, so that rounding does not gather. */
  #recount(): void {
    for (const s of this.#sums) s.fill(0);
    for (const z of this.#zeros) z.fill(0);
    this.#graph.factors.forEach(({ scope }, f) => {
      scope.forEach((v, k) => {
        this.#count(v, item(item(this.#toVariable, f), k), 1);
      });
    });
  }

  #count(v: number, message: Float64Array, sign: 1 | -1): void {
    const sums = item(this.#sums, v);
    const zeros = item(this.#zeros, v);
    message.forEach((l, s) => {
      if (l === Number.NEGATIVE_INFINITY) zeros[s] = i32(zeros, s) + sign;
      else sums[s] = f64(sums, s) + sign * l;
    });
  }

  /** Log product of all messages to a variable, without one of them; its own evidence is not in it. */
  #without(v: number, message: Float64Array | undefined): Float64Array {
    const zeros = item(this.#zeros, v);
    return item(this.#sums, v).map((sum, s) => {
      const l = message ? f64(message, s) : 0;
      const isZero = l === Number.NEGATIVE_INFINITY;
      return i32(zeros, s) - (isZero ? 1 : 0) > 0 ? Number.NEGATIVE_INFINITY : sum - (isZero ? 0 : l);
    });
  }

  /** What a variable says to a factor: its own evidence and all other factors; sums to 1. */
  #fromVariable(f: number, k: number): Float64Array {
    const v = item(item(this.#graph.factors, f).scope, k);
    const own = item(this.#logUnary, v);
    const logs = this.#without(v, item(item(this.#toVariable, f), k)).map((l, s) => l + f64(own, s));
    return distribution(logs);
  }

  /** Forms the messages of one factor again; the largest change, NaN where nothing is possible. */
  #visit(f: number, damping: number): number {
    const { scope } = item(this.#graph.factors, f);
    const { weights, states } = item(this.#entries, f);
    const places = scope.length;
    const incoming = scope.map((_, k) => this.#fromVariable(f, k));
    const outgoing = scope.map((v) => new Float64Array(item(this.#graph.sizes, v)));
    for (let e = 0, at = 0; e < weights.length; e++, at += places)
      for (let k = 0; k < places; k++) {
        let product = f64(weights, e);
        for (let j = 0; j < places; j++) if (j !== k) product *= f64(item(incoming, j), i32(states, at + j));
        const out = item(outgoing, k);
        const s = i32(states, at + k);
        out[s] = f64(out, s) + product;
      }
    let change = 0;
    scope.forEach((v, k) => {
      change = Math.max(change, this.#replace(f, k, v, item(outgoing, k), damping));
    });
    return change;
  }

  #replace(f: number, k: number, v: number, fresh: Float64Array, damping: number): number {
    const old = item(item(this.#toVariable, f), k);
    const before = distribution(old);
    const total = fresh.reduce((a, b) => a + b, 0);
    if (total === 0) return Number.NaN;
    let change = 0;
    const message = fresh.map((w, s) => {
      const p = w / total;
      change = Math.max(change, Math.abs(p - f64(before, s)));
      return Math.log(p === 0 ? 0 : (1 - damping) * p + damping * f64(before, s));
    });
    if (change > TOO_SMALL) for (const g of item(this.#factorsOf, v)) if (g !== f) this.#stale[g] = 1;
    if (change > TOO_SMALL && damping > 0) this.#stale[f] = 1;
    this.#count(v, old, -1);
    this.#count(v, message, 1);
    item(this.#toVariable, f)[k] = message;
    return change;
  }

  #around(f: number): Float64Array {
    const { scope, table } = item(this.#graph.factors, f);
    const incoming = scope.map((_, k) => this.#fromVariable(f, k));
    return table.map((_, at) => {
      let rest = at;
      let log = 0;
      for (let k = scope.length - 1; k >= 0; k--) {
        const size = item(this.#graph.sizes, item(scope, k));
        log += Math.log(f64(item(incoming, k), rest % size));
        rest = Math.floor(rest / size);
      }
      return log;
    });
  }

  /** Bethe: the logs of what each factor and each variable sums to, less what each pair of messages does. */
  #logSum(): number {
    let log = 0;
    this.#graph.sizes.forEach((_, v) => {
      const own = item(this.#logUnary, v);
      log += logTotal(this.#without(v, undefined).map((l, s) => l + f64(own, s)));
    });
    this.#graph.factors.forEach(({ scope, table }, f) => {
      const around = this.#around(f);
      log += Math.log(table.reduce((sum, w, at) => sum + w * Math.exp(f64(around, at)), 0));
      scope.forEach((_, k) => {
        const message = item(item(this.#toVariable, f), k);
        const from = this.#fromVariable(f, k);
        log -= Math.log(message.reduce((sum, l, s) => sum + Math.exp(l) * f64(from, s), 0));
      });
    });
    return Number.isNaN(log) ? Number.NEGATIVE_INFINITY : log;
  }
}

/** The cells of a table that are not zero, with the state of each variable there: most of a kid's table is impossible. */
interface Entries {
  readonly weights: Float64Array;
  /** Per entry one state for each place of the scope. */
  readonly states: Int32Array;
}

/** Entries per factor; factors that share a table (and so its shape) share them. */
function entriesOf({ sizes, factors }: FactorGraph): readonly Entries[] {
  const known = new Map<Float64Array, Entries>();
  return factors.map(({ scope, table }) => {
    const before = known.get(table);
    if (before) return before;
    const cells = [...table.keys()].filter((at) => f64(table, at) > 0);
    const states = cells.flatMap((at) => {
      let rest = at;
      return scope
        .toReversed()
        .map((v) => {
          const s = rest % item(sizes, v);
          rest = Math.floor(rest / item(sizes, v));
          return s;
        })
        .reverse();
    });
    const entries = { weights: Float64Array.from(cells, (at) => f64(table, at)), states: Int32Array.from(states) };
    known.set(table, entries);
    return entries;
  });
}

const highest = (logs: Float64Array): number => logs.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);

function scaled(logs: Float64Array): Float64Array {
  const top = highest(logs);
  return logs.map((l) => l - top);
}

function logTotal(logs: Float64Array): number {
  const top = highest(logs);
  return top === Number.NEGATIVE_INFINITY ? top : top + Math.log(logs.reduce((sum, l) => sum + Math.exp(l - top), 0));
}

/** Logs as chances that sum to 1; all 0 where nothing is possible. */
function distribution(logs: Float64Array): Float64Array {
  const top = highest(logs);
  if (top === Number.NEGATIVE_INFINITY) return new Float64Array(logs.length);
  const weights = logs.map((l) => Math.exp(l - top));
  const total = weights.reduce((a, b) => a + b, 0);
  return weights.map((w) => w / total);
}

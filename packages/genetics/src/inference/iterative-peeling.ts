import { f64, i32, item } from "./cell.ts";
import type { FactorGraph } from "./factor-graph.ts";
import { logTotal } from "./log-total.ts";
import { type Entries, entriesOf, sumProducts } from "./table-entries.ts";

/** Sweeps after which messages are averaged with the ones before, and after which there is an end. */
const DAMPED_FROM = 60;
const MOST_SWEEPS = 200;
/** Largest change of a message (in a chance) at which they count as settled. */
const SETTLED = 1e-8;
/** Changes below this are not passed on within a sweep. */
const TOO_SMALL = SETTLED / 100;
/** What is possible is at least this much of what is likeliest: a product of some of them is still a number, not nothing. */
const LEAST = 1e-70;

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

/**
 * One run: all messages of a graph, changed in place until they settle.
 *
 * Everything lies in flat arrays: the states of variable `v` from `#from[v]` on, the message of a factor to a variable of its
 * scope (an edge) from `#edgeAt[edge]` on.
 */
class Peeler {
  readonly #graph: FactorGraph;
  readonly #logUnary: readonly Float64Array[];
  /** Per variable: where its states begin, with an end. */
  readonly #from: Int32Array;
  /** Per state: own evidence (log), the sum of the finite log messages, how many messages are -Infinity. */
  readonly #own: Float64Array;
  readonly #sums: Float64Array;
  readonly #zeros: Int32Array;
  /** Per factor: its first edge, with an end; per edge: its variable, and where its message begins, with an end. */
  readonly #edges: Int32Array;
  readonly #edgeVariable: Int32Array;
  readonly #edgeAt: Int32Array;
  /** Per edge: where its variable only passes on what one other factor says, the edge of that one; else -1. */
  readonly #passedOn: Int32Array;
  /** Messages to variables, as natural logs and as chances that sum to 1. */
  readonly #logs: Float64Array;
  readonly #chances: Float64Array;
  /** Room for the messages to and from one factor, a stretch of `#room` for each place. */
  readonly #incoming: Float64Array;
  readonly #outgoing: Float64Array;
  readonly #room: number;
  readonly #factorsOf: readonly Int32Array[];
  readonly #entries: readonly Entries[];
  /** Which factors have something new to hear. */
  readonly #stale: Uint8Array;

  constructor(graph: FactorGraph, logUnary: readonly Float64Array[], from?: Peeler) {
    const { sizes, factors } = graph;
    this.#graph = graph;
    this.#logUnary = logUnary;
    this.#from = starts(sizes);
    const states = i32(this.#from, sizes.length);
    this.#own = new Float64Array(states);
    logUnary.forEach((own, v) => this.#own.set(own, i32(this.#from, v)));
    this.#sums = new Float64Array(states);
    this.#zeros = new Int32Array(states);
    this.#edges = from ? from.#edges : starts(factors.map(({ scope }) => scope.length));
    this.#edgeVariable = from ? from.#edgeVariable : Int32Array.from(factors.flatMap(({ scope }) => scope));
    this.#edgeAt = from ? from.#edgeAt : starts(Array.from(this.#edgeVariable, (v) => item(sizes, v)));
    this.#passedOn = passersOn(this.#edgeVariable, logUnary);
    const cells = i32(this.#edgeAt, this.#edgeVariable.length);
    this.#logs = from ? from.#logs.slice() : new Float64Array(cells);
    this.#chances = from ? from.#chances.slice() : this.#evenChances(cells);
    this.#room = sizes.reduce((most, size) => Math.max(most, size), 1);
    const places = factors.reduce((most, { scope }) => Math.max(most, scope.length), 1);
    this.#incoming = new Float64Array(places * this.#room);
    this.#outgoing = new Float64Array(places * this.#room);
    this.#entries = from ? from.#entries : entriesOf(graph);
    this.#factorsOf = from ? from.#factorsOf : factorsByVariable(graph);
    this.#stale = new Uint8Array(factors.length).fill(1);
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
    for (let e = 0; e < this.#edgeVariable.length; e++) if (i32(this.#passedOn, e) >= 0) this.#takeLogs(e);
    this.#recount();
    const logSum = this.#logSum();
    if (logSum === Number.NEGATIVE_INFINITY) return undefined;
    return {
      logSum,
      unrest,
      sweeps,
      logCavity: (v) => scaled(this.#withoutOwn(v)),
      logAround: (f) => this.#around(f),
      logMessage: (f, k) => this.#message(i32(this.#edges, f) + k),
      again: (logUnary) =>
        new Peeler(
          this.#graph,
          this.#logUnary.map((own, v) => logUnary.get(v) ?? own),
          this,
        ).run(),
    };
  }

  #evenChances(cells: number): Float64Array {
    const chances = new Float64Array(cells);
    for (let e = 0; e < this.#edgeVariable.length; e++) {
      const [at, end] = [i32(this.#edgeAt, e), i32(this.#edgeAt, e + 1)];
      chances.fill(1 / (end - at), at, end);
    }
    return chances;
  }

  #message(edge: number): Float64Array {
    return this.#logs.subarray(i32(this.#edgeAt, edge), i32(this.#edgeAt, edge + 1));
  }

  #takeLogs(edge: number): void {
    for (let i = i32(this.#edgeAt, edge); i < i32(this.#edgeAt, edge + 1); i++)
      this.#logs[i] = Math.log(f64(this.#chances, i));
  }

  /** Adds all messages up afresh, so that rounding does not gather. */
  #recount(): void {
    this.#sums.fill(0);
    this.#zeros.fill(0);
    for (let e = 0; e < this.#edgeVariable.length; e++) this.#count(e, 1);
  }

  /** Adds the message of an edge to what its variable hears, or takes it away. */
  #count(edge: number, sign: 1 | -1): void {
    const [at, end] = [i32(this.#edgeAt, edge), i32(this.#edgeAt, edge + 1)];
    let state = i32(this.#from, i32(this.#edgeVariable, edge));
    for (let i = at; i < end; i++, state++) {
      const l = f64(this.#logs, i);
      if (l === Number.NEGATIVE_INFINITY) this.#zeros[state] = i32(this.#zeros, state) + sign;
      else this.#sums[state] = f64(this.#sums, state) + sign * l;
    }
  }

  /** Log product of all messages to a variable; its own evidence is not in it. */
  #withoutOwn(v: number): Float64Array {
    const [at, end] = [i32(this.#from, v), i32(this.#from, v + 1)];
    return this.#sums.slice(at, end).map((sum, s) => (i32(this.#zeros, at + s) > 0 ? Number.NEGATIVE_INFINITY : sum));
  }

  /** What a variable says to the factor of an edge: its own evidence and all other factors. Sums to 1, or all 0. */
  #hear(edge: number, into: Float64Array, to: number): void {
    const at = i32(this.#edgeAt, edge);
    const size = i32(this.#edgeAt, edge + 1) - at;
    const other = i32(this.#passedOn, edge);
    if (other >= 0) {
      const from = i32(this.#edgeAt, other);
      for (let s = 0; s < size; s++) into[to + s] = f64(this.#chances, from + s);
      return;
    }
    const state = i32(this.#from, i32(this.#edgeVariable, edge));
    let top = Number.NEGATIVE_INFINITY;
    for (let s = 0; s < size; s++) {
      const l = f64(this.#logs, at + s);
      const isZero = l === Number.NEGATIVE_INFINITY;
      const isPossible = i32(this.#zeros, state + s) - (isZero ? 1 : 0) === 0;
      const heard = isPossible
        ? f64(this.#sums, state + s) - (isZero ? 0 : l) + f64(this.#own, state + s)
        : Number.NEGATIVE_INFINITY;
      into[to + s] = heard;
      if (heard > top) top = heard;
    }
    let total = 0;
    for (let s = 0; s < size; s++) {
      const log = f64(into, to + s);
      const heard = log === Number.NEGATIVE_INFINITY ? 0 : Math.max(LEAST, Math.exp(log - top));
      into[to + s] = heard;
      total += heard;
    }
    if (total > 0) for (let s = 0; s < size; s++) into[to + s] = f64(into, to + s) / total;
  }

  /** Forms the messages of one factor again; the largest change, NaN where nothing is possible. */
  #visit(f: number, damping: number): number {
    const [first, end] = [i32(this.#edges, f), i32(this.#edges, f + 1)];
    const places = end - first;
    for (let k = 0; k < places; k++) this.#hear(first + k, this.#incoming, k * this.#room);
    this.#outgoing.fill(0, 0, places * this.#room);
    sumProducts(item(this.#entries, f), places, { heard: this.#incoming, said: this.#outgoing, room: this.#room });
    let change = 0;
    for (let k = 0; k < places; k++) change = Math.max(change, this.#replace(f, k, damping));
    return change;
  }

  #replace(f: number, k: number, damping: number): number {
    const edge = i32(this.#edges, f) + k;
    const at = i32(this.#edgeAt, edge);
    const size = i32(this.#edgeAt, edge + 1) - at;
    const fresh = k * this.#room;
    let total = 0;
    for (let s = 0; s < size; s++) total += f64(this.#outgoing, fresh + s);
    if (total === 0 || Number.isNaN(total)) return Number.NaN;
    const counts = i32(this.#passedOn, edge) < 0;
    if (counts) this.#count(edge, -1);
    let change = 0;
    for (let s = 0; s < size; s++) {
      const [p, before] = [f64(this.#outgoing, fresh + s) / total, f64(this.#chances, at + s)];
      change = Math.max(change, Math.abs(p - before));
      this.#chances[at + s] = p === 0 ? 0 : (1 - damping) * p + damping * before;
    }
    if (counts) {
      this.#takeLogs(edge);
      this.#count(edge, 1);
    }
    if (change > TOO_SMALL) {
      for (const g of item(this.#factorsOf, i32(this.#edgeVariable, edge))) if (g !== f) this.#stale[g] = 1;
      if (damping > 0) this.#stale[f] = 1;
    }
    return change;
  }

  #around(f: number): Float64Array {
    const { scope, table } = item(this.#graph.factors, f);
    scope.forEach((_, k) => this.#hear(i32(this.#edges, f) + k, this.#incoming, k * this.#room));
    const logs = this.#incoming.map(Math.log);
    return table.map((_, at) => {
      let rest = at;
      let log = 0;
      for (let k = scope.length - 1; k >= 0; k--) {
        const size = item(this.#graph.sizes, item(scope, k));
        log += f64(logs, k * this.#room + (rest % size));
        rest = Math.floor(rest / size);
      }
      return log;
    });
  }

  /** Bethe: the logs of what each factor and each variable sums to, less what each pair of messages does. */
  #logSum(): number {
    let log = 0;
    this.#graph.sizes.forEach((_, v) => {
      const from = i32(this.#from, v);
      log += logTotal(this.#withoutOwn(v).map((l, s) => l + f64(this.#own, from + s)));
    });
    this.#graph.factors.forEach((_, f) => {
      log += this.#logOfFactor(f);
    });
    return Number.isNaN(log) ? Number.NEGATIVE_INFINITY : log;
  }

  /** A factor's part of the log weight: what it sums to, less what it and its variables say to one another. */
  #logOfFactor(f: number): number {
    const first = i32(this.#edges, f);
    const places = i32(this.#edges, f + 1) - first;
    for (let k = 0; k < places; k++) this.#hear(first + k, this.#incoming, k * this.#room);
    const { weights, states } = item(this.#entries, f);
    let sum = 0;
    for (let e = 0, at = 0; e < weights.length; e++, at += places) {
      let product = f64(weights, e);
      for (let k = 0; k < places; k++) product *= f64(this.#incoming, k * this.#room + i32(states, at + k));
      sum += product;
    }
    let log = Math.log(sum);
    for (let k = 0; k < places; k++) {
      const [at, end] = [i32(this.#edgeAt, first + k), i32(this.#edgeAt, first + k + 1)];
      let met = 0;
      for (let s = 0; at + s < end; s++)
        met += Math.exp(f64(this.#logs, at + s)) * f64(this.#incoming, k * this.#room + s);
      log -= Math.log(met);
    }
    return log;
  }
}

/**
 * Per edge of a variable of two factors and no evidence of its own, such as an allele handed on: its other edge. What one
 * factor says reaches the other as it is, without a logarithm.
 */
function passersOn(edgeVariable: Int32Array, logUnary: readonly Float64Array[]): Int32Array {
  const edges: number[][] = logUnary.map(() => []);
  edgeVariable.forEach((v, e) => item(edges, v).push(e));
  const passedOn = new Int32Array(edgeVariable.length).fill(-1);
  edges.forEach(([a, b, ...more], v) => {
    if (a === undefined || b === undefined || more.length > 0 || item(logUnary, v).some((l) => l !== 0)) return;
    passedOn[a] = b;
    passedOn[b] = a;
  });
  return passedOn;
}

/** Where stretches of these lengths begin when they lie one after the other, with the end of the last. */
function starts(lengths: readonly number[]): Int32Array {
  const from = new Int32Array(lengths.length + 1);
  lengths.forEach((length, i) => {
    from[i + 1] = i32(from, i) + length;
  });
  return from;
}

function factorsByVariable({ sizes, factors }: FactorGraph): readonly Int32Array[] {
  const of: number[][] = sizes.map(() => []);
  factors.forEach(({ scope }, f) => {
    for (const v of scope) item(of, v).push(f);
  });
  return of.map((list) => Int32Array.from(list));
}

function scaled(logs: Float64Array): Float64Array {
  const top = logs.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  return logs.map((l) => l - top);
}

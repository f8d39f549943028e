import { f64, i32, item } from "./cell.ts";

/** Cells that are walked by precomputed offsets; the rest of a table is stepped through block by block. */
const BLOCK_CELLS = 243;

/** Where the cells of one operand lie, seen from a walk over a larger scope. */
export interface Lay {
  /** Per variable of the outer walk: the step in the operand. */
  readonly steps: Int32Array;
  /** Per cell of a block: the offset in the operand. */
  readonly offsets: Int32Array;
}

/**
 * Three tables laid over one walk: the product of any two of them can be summed onto the third.
 *
 * The walk goes over all states of `scope`; its last variables form a block that is walked by offsets.
 */
export interface Contraction {
  /** Sizes of the variables that are stepped through outside the block. */
  readonly outer: Int32Array;
  readonly cells: number;
  readonly left: Lay;
  readonly right: Lay;
  readonly out: Lay;
}

/** The scopes of the three tables; each must be part of the walk's. Tables are row-major, last variable fastest. */
export interface Scopes {
  readonly left: readonly number[];
  readonly right: readonly number[];
  readonly out: readonly number[];
}

/**
 * A maker of contractions that lays equal shapes only once: a herd has many kids, and most of their tables differ in
 * nothing but the animals' names.
 */
export function contractionMaker(sizes: readonly number[]): (scope: readonly number[], scopes: Scopes) => Contraction {
  const known = new Map<string, Contraction>();
  return (scope, scopes) => {
    let key = "";
    for (const v of scope) key += `${item(sizes, v)},`;
    for (const own of [scopes.left, scopes.right, scopes.out]) {
      key += "|";
      for (const v of own) key += `${scope.indexOf(v)},`;
    }
    const made = known.get(key) ?? contraction(scope, scopes, sizes);
    known.set(key, made);
    return made;
  };
}

function contraction(scope: readonly number[], scopes: Scopes, sizes: readonly number[]): Contraction {
  let from = scope.length;
  let block = 1;
  while (from > 0 && block * item(sizes, item(scope, from - 1)) <= BLOCK_CELLS)
    block *= item(sizes, item(scope, --from));
  const outer = scope.slice(0, from);
  const inner = scope.slice(from);
  const lay = (own: readonly number[]): Lay => ({
    steps: stepsOver(outer, own, sizes),
    offsets: offsetsOver(inner, stepsOver(inner, own, sizes), sizes, block),
  });
  return {
    outer: Int32Array.from(outer, (v) => item(sizes, v)),
    cells: scope.reduce((n, v) => n * item(sizes, v), 1),
    left: lay(scopes.left),
    right: lay(scopes.right),
    out: lay(scopes.out),
  };
}

function stepsOver(walk: readonly number[], own: readonly number[], sizes: readonly number[]): Int32Array {
  const steps = new Int32Array(walk.length);
  let step = 1;
  for (let k = own.length - 1; k >= 0; k--) {
    const at = walk.indexOf(item(own, k));
    if (at >= 0) steps[at] = step;
    step *= item(sizes, item(own, k));
  }
  return steps;
}

function offsetsOver(inner: readonly number[], steps: Int32Array, sizes: readonly number[], block: number): Int32Array {
  const offsets = new Int32Array(block);
  let run = block;
  inner.forEach((v, d) => {
    const size = item(sizes, v);
    run /= size;
    for (let j = 0; j < block; j++) offsets[j] = i32(offsets, j) + (Math.floor(j / run) % size) * i32(steps, d);
  });
  return offsets;
}

/** The three tables of a contraction. */
export type Place = "left" | "right" | "out";

/**
 * A table of weights, the largest 1. Kept as natural logs where its smallest positive weight is too small for the
 * products it will meet: then no state that is possible is ever rounded down to impossible.
 */
export interface Weights {
  readonly values: Float64Array;
  readonly scale: "linear" | "log";
  /** The smallest positive weight; of a log table only that it is small. */
  readonly least: number;
}

/** The product of two smallest weights must stay above this to be formed as it is. */
const SMALLEST = 1e-290;
/** Natural log from which a table is kept linear: two of them still make a safe product. */
const LOWEST_LINEAR = Math.log(SMALLEST) / 2;

/** A table as weights: scaled so that the largest is 1, and the natural log of what was scaled out (-Infinity: all 0). */
export function weights(values: Float64Array): { readonly table: Weights; readonly logTop: number } {
  let top = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < values.length; i++) {
    const w = f64(values, i);
    if (w > top) top = w;
    if (w > 0 && w < least) least = w;
  }
  if (top > 0 && top !== 1) for (let i = 0; i < values.length; i++) values[i] = f64(values, i) / top;
  return { table: { values, scale: "linear", least: top > 0 ? least / top : 1 }, logTop: Math.log(top) };
}

/** As `weights`, from natural logs. */
export function weightsFromLogs(logs: Float64Array): { readonly table: Weights; readonly logTop: number } {
  const top = logs.reduce((x, y) => Math.max(x, y), Number.NEGATIVE_INFINITY);
  if (top === Number.NEGATIVE_INFINITY) return { ...weights(new Float64Array(logs.length)), logTop: top };
  const scaled = logs.map((l) => l - top);
  const low = scaled.reduce((x, y) => (y > Number.NEGATIVE_INFINITY ? Math.min(x, y) : x), 0);
  const table: Weights =
    low > LOWEST_LINEAR
      ? { values: scaled.map((l) => Math.exp(l)), scale: "linear", least: Math.exp(low) }
      : { values: scaled, scale: "log", least: 0 };
  return { table, logTop: top };
}

/** The natural logs of a table of weights. */
export const logsOf = (table: Weights): Float64Array =>
  table.scale === "log" ? table.values : table.values.map((w) => Math.log(w));

/**
 * Product of the tables at two of the three places, summed onto the third.
 *
 * Shape: the largest weight of the result is 1; `logTop` is the natural log of what was scaled out, -Infinity if all is 0.
 */
export function contract(
  c: Contraction,
  onto: Place,
  cells: number,
  [aPlace, a]: readonly [Place, Weights],
  [bPlace, b]: readonly [Place, Weights],
): { readonly table: Weights; readonly logTop: number } {
  if (a.scale === "linear" && b.scale === "linear" && a.least * b.least > SMALLEST) {
    const sum = new Float64Array(cells);
    sumProduct(c.outer, sum, c[onto], a.values, c[aPlace], b.values, c[bPlace]);
    return weights(sum);
  }
  const logs = logSumProduct(c, [onto, cells], [aPlace, logsOf(a)], [bPlace, logsOf(b)]);
  return weightsFromLogs(logs);
}

/** The walk: `sum` must be 0 to begin with. */
function sumProduct(
  outer: Int32Array,
  sum: Float64Array,
  sumLay: Lay,
  a: Float64Array,
  aLay: Lay,
  b: Float64Array,
  bLay: Lay,
): void {
  const sumAt = sumLay.offsets;
  const aAt = aLay.offsets;
  const bAt = bLay.offsets;
  const block = aAt.length;
  const counter = new Int32Array(outer.length);
  let s0 = 0;
  let a0 = 0;
  let b0 = 0;
  for (;;) {
    for (let j = 0; j < block; j++) {
      const s = s0 + i32(sumAt, j);
      sum[s] = f64(sum, s) + f64(a, a0 + i32(aAt, j)) * f64(b, b0 + i32(bAt, j));
    }
    let d = outer.length - 1;
    for (; d >= 0; d--) {
      const size = i32(outer, d);
      const c = i32(counter, d) + 1;
      s0 += i32(sumLay.steps, d);
      a0 += i32(aLay.steps, d);
      b0 += i32(bLay.steps, d);
      counter[d] = c;
      if (c < size) break;
      counter[d] = 0;
      s0 -= i32(sumLay.steps, d) * size;
      a0 -= i32(aLay.steps, d) * size;
      b0 -= i32(bLay.steps, d) * size;
    }
    if (d < 0) return;
  }
}

/** As `sumProduct`, on logs and without any range to run out of. Slow; for the rare tables that need it. */
function logSumProduct(
  c: Contraction,
  [onto, cells]: readonly [Place, number],
  [aPlace, a]: readonly [Place, Float64Array],
  [bPlace, b]: readonly [Place, Float64Array],
): Float64Array {
  const tops = new Float64Array(cells).fill(Number.NEGATIVE_INFINITY);
  const walk = (visit: (sumAt: number, log: number) => void): void => {
    for (let at = 0; at < c.cells; at++)
      visit(placeOf(c, onto, at), f64(a, placeOf(c, aPlace, at)) + f64(b, placeOf(c, bPlace, at)));
  };
  walk((s, log) => {
    if (log > f64(tops, s)) tops[s] = log;
  });
  const sums = new Float64Array(cells);
  walk((s, log) => {
    if (log > Number.NEGATIVE_INFINITY) sums[s] = f64(sums, s) + Math.exp(log - f64(tops, s));
  });
  return sums.map((x, s) => (x > 0 ? f64(tops, s) + Math.log(x) : Number.NEGATIVE_INFINITY));
}

/** The cell of one of the three tables at a step of the walk. */
function placeOf(c: Contraction, place: Place, at: number): number {
  const { steps, offsets } = c[place];
  let cell = i32(offsets, at % offsets.length);
  let rest = Math.floor(at / offsets.length);
  for (let d = c.outer.length - 1; d >= 0; d--) {
    cell += (rest % i32(c.outer, d)) * i32(steps, d);
    rest = Math.floor(rest / i32(c.outer, d));
  }
  return cell;
}

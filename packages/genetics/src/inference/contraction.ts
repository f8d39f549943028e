import { f64, i32, item } from "./cell.ts";
import {
  logsOf,
  type Room,
  type Scaled,
  SMALLEST,
  type Stretch,
  type Weights,
  weights,
  weightsFromLogs,
} from "./weights.ts";

/** Cells that are walked by precomputed offsets; the rest of a table is stepped through block by block. */
const BLOCK_CELLS = 243;

/** Where the cells of one operand lie, seen from a walk over a larger scope. */
export interface Lay {
  /** Per block of the walk: where it starts in the operand. */
  readonly starts: Int32Array;
  /** Per cell of a block: the offset in the operand. */
  readonly offsets: Int32Array;
}

/**
 * Three tables laid over one walk: the product of any two of them can be summed onto the third.
 *
 * The walk goes over all states of `scope`; its last variables form a block that is walked by offsets.
 */
export interface Contraction {
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
  const cells = scope.reduce((n, v) => n * item(sizes, v), 1);
  const lay = (own: readonly number[]): Lay => ({
    starts: offsetsOver(outer, stepsOver(outer, own, sizes), sizes, cells / block),
    offsets: offsetsOver(inner, stepsOver(inner, own, sizes), sizes, block),
  });
  return {
    cells,
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
 * Product of the tables at two of the three places, summed onto the third.
 *
 * Shape: the largest weight of the result is 1; `logTop` is the natural log of what was scaled out, -Infinity if all is 0.
 */
export function contract(
  c: Contraction,
  [onto, cells]: readonly [Place, number],
  [aPlace, a]: readonly [Place, Weights],
  [bPlace, b]: readonly [Place, Weights],
  room: Room,
): Scaled {
  if (a.scale === "linear" && b.scale === "linear" && a.least * b.least > SMALLEST) {
    const sum = room.take(cells);
    sumProduct(sum, c[onto], a, c[aPlace], b, c[bPlace]);
    return weights(sum);
  }
  return weightsFromLogs(logSumProduct(c, [onto, cells], [aPlace, logsOf(a)], [bPlace, logsOf(b)]), room);
}

/** The walk: `sum` must be 0 to begin with. */
function sumProduct(
  { values: sums, from: sumFrom }: Stretch,
  { starts: sumStarts, offsets: sumAt }: Lay,
  { values: as, from: aFrom }: Stretch,
  { starts: aStarts, offsets: aAt }: Lay,
  { values: bs, from: bFrom }: Stretch,
  { starts: bStarts, offsets: bAt }: Lay,
): void {
  const block = aAt.length;
  for (let o = 0; o < aStarts.length; o++) {
    const s0 = sumFrom + i32(sumStarts, o);
    const a0 = aFrom + i32(aStarts, o);
    const b0 = bFrom + i32(bStarts, o);
    for (let j = 0; j < block; j++) {
      const s = s0 + i32(sumAt, j);
      sums[s] = f64(sums, s) + f64(as, a0 + i32(aAt, j)) * f64(bs, b0 + i32(bAt, j));
    }
  }
}

/** Beside a sum from here on, the terms of a walk that are too small for a number are nothing. */
const SETTLED = 1e-200;

/**
 * As `sumProduct`, on logs whose largest is 0, and without any range to run out of. What is not tiny is summed as it is;
 * only the sums that come out so small that they may have lost something are formed again, each beside its largest term.
 */
function logSumProduct(
  c: Contraction,
  [onto, cells]: readonly [Place, number],
  [aPlace, a]: readonly [Place, Float64Array],
  [bPlace, b]: readonly [Place, Float64Array],
): Float64Array {
  const sums = new Float64Array(cells);
  const whole = (values: Float64Array): Stretch => ({ values, from: 0, cells: values.length });
  sumProduct(
    whole(sums),
    c[onto],
    whole(a.map((l) => Math.exp(l))),
    c[aPlace],
    whole(b.map((l) => Math.exp(l))),
    c[bPlace],
  );
  /** The largest term of each sum that is to be formed again. */
  const tops = new Float64Array(cells);
  let isSettled = true;
  for (let s = 0; s < cells; s++) {
    const isTiny = f64(sums, s) < SETTLED;
    tops[s] = isTiny ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
    if (isTiny) isSettled = false;
  }
  if (!isSettled) resum(sums, tops, c[onto], a, c[aPlace], b, c[bPlace]);
  for (let s = 0; s < cells; s++) {
    const top = f64(tops, s);
    sums[s] = Math.log(f64(sums, s)) + (top === Number.POSITIVE_INFINITY ? 0 : top);
  }
  return sums;
}

/** Forms the sums with a `top` of -Infinity anew: the largest of their terms as a log, and the sum beside it. */
function resum(
  sums: Float64Array,
  tops: Float64Array,
  { starts: sumStarts, offsets: sumAt }: Lay,
  a: Float64Array,
  { starts: aStarts, offsets: aAt }: Lay,
  b: Float64Array,
  { starts: bStarts, offsets: bAt }: Lay,
): void {
  const block = aAt.length;
  for (let o = 0; o < aStarts.length; o++) {
    const [s0, a0, b0] = [i32(sumStarts, o), i32(aStarts, o), i32(bStarts, o)];
    for (let j = 0; j < block; j++) {
      const s = s0 + i32(sumAt, j);
      if (f64(tops, s) === Number.POSITIVE_INFINITY) continue;
      const log = f64(a, a0 + i32(aAt, j)) + f64(b, b0 + i32(bAt, j));
      if (log > f64(tops, s)) tops[s] = log;
      sums[s] = 0;
    }
  }
  for (let o = 0; o < aStarts.length; o++) {
    const [s0, a0, b0] = [i32(sumStarts, o), i32(aStarts, o), i32(bStarts, o)];
    for (let j = 0; j < block; j++) {
      const s = s0 + i32(sumAt, j);
      const top = f64(tops, s);
      if (top === Number.POSITIVE_INFINITY || top === Number.NEGATIVE_INFINITY) continue;
      sums[s] = f64(sums, s) + Math.exp(f64(a, a0 + i32(aAt, j)) + f64(b, b0 + i32(bAt, j)) - top);
    }
  }
}

import { f64, i32, u8 } from "./cell.ts";

/** How a smaller table lies over a larger one: per variable of the larger, the step in the smaller (0 = not in it). */
export type Strides = Int32Array;

/** The steps of a table over `scope` (last fastest) for each variable of `over`. */
export function stridesOver(over: readonly number[], scope: readonly number[], sizes: readonly number[]): Strides {
  const steps = new Map<number, number>();
  let step = 1;
  for (const v of scope.toReversed()) {
    steps.set(v, step);
    step *= sizes[v] ?? 1;
  }
  return Int32Array.from(over, (v) => steps.get(v) ?? 0);
}

/** Calls `row(first cell, first cell of the smaller table)` for each run of the fastest variable, in order. */
function rows(dims: Int32Array, strides: Strides, row: (at: number, small: number) => void): void {
  const last = dims.length - 1;
  const run = i32(dims, last);
  const counter = new Int32Array(last);
  let cells = 1;
  for (let d = 0; d < last; d++) cells *= i32(dims, d);
  let small = 0;
  for (let r = 0; r < cells; r++) {
    row(r * run, small);
    for (let d = last - 1; d >= 0; d--) {
      small += i32(strides, d);
      const c = i32(counter, d) + 1;
      if (c < i32(dims, d)) {
        counter[d] = c;
        break;
      }
      counter[d] = 0;
      small -= i32(strides, d) * i32(dims, d);
    }
  }
}

/** table[cell] *= message[cell seen by the message]. */
export function multiply(table: Float64Array, dims: Int32Array, message: Float64Array, strides: Strides): void {
  const run = i32(dims, dims.length - 1);
  const step = i32(strides, dims.length - 1);
  rows(dims, strides, (at, small) => {
    for (let j = 0, k = small; j < run; j++, k += step) table[at + j] = f64(table, at + j) * f64(message, k);
  });
}

/** As `multiply`, but a zero of the message is counted (up to 2) instead of multiplied in. */
export function multiplyCountingZeros(
  table: Float64Array,
  zeros: Uint8Array,
  dims: Int32Array,
  message: Float64Array,
  strides: Strides,
): void {
  const run = i32(dims, dims.length - 1);
  const step = i32(strides, dims.length - 1);
  rows(dims, strides, (at, small) => {
    for (let j = 0, k = small; j < run; j++, k += step) {
      const m = f64(message, k);
      if (m > 0) table[at + j] = f64(table, at + j) * m;
      else if (u8(zeros, at + j) < 2) zeros[at + j] = u8(zeros, at + j) + 1;
    }
  });
}

/** sum[cell seen by the smaller table] += table[cell]. */
export function sumOnto(sum: Float64Array, table: Float64Array, dims: Int32Array, strides: Strides): void {
  const run = i32(dims, dims.length - 1);
  const step = i32(strides, dims.length - 1);
  rows(dims, strides, (at, small) => {
    for (let j = 0, k = small; j < run; j++, k += step) sum[k] = f64(sum, k) + f64(table, at + j);
  });
}

/** As `sumOnto`, split by the number of counted zeros: none into `sum`, exactly one into `oneZero`. */
export function sumOntoByZeros(
  sum: Float64Array,
  oneZero: Float64Array,
  table: Float64Array,
  zeros: Uint8Array,
  dims: Int32Array,
  strides: Strides,
): void {
  const run = i32(dims, dims.length - 1);
  const step = i32(strides, dims.length - 1);
  rows(dims, strides, (at, small) => {
    for (let j = 0, k = small; j < run; j++, k += step) {
      const z = u8(zeros, at + j);
      if (z === 0) sum[k] = f64(sum, k) + f64(table, at + j);
      else if (z === 1) oneZero[k] = f64(oneZero, k) + f64(table, at + j);
    }
  });
}

/** Divides by the largest cell and returns it; 0 and untouched where every cell is 0. */
export function scaleToOne(table: Float64Array, cells: number): number {
  let top = 0;
  for (let i = 0; i < cells; i++) if (f64(table, i) > top) top = f64(table, i);
  if (top > 0 && top !== 1) for (let i = 0; i < cells; i++) table[i] = f64(table, i) / top;
  return top;
}

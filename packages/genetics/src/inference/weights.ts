import { f64 } from "./cell.ts";

/** Where a table lies: `cells` numbers of `values` from `from` on. */
export interface Stretch {
  readonly values: Float64Array;
  readonly from: number;
  readonly cells: number;
}

/** Cells of the first array that tables share, and of the largest; each is twice as large as the one before. */
const FIRST_ARRAY = 256;
const LARGEST_ARRAY = 1 << 14;

/**
 * Room for tables. They are many and small, and an array for each would cost more than filling it: they share some, or have
 * their own each where most of them will be gone long before the last.
 */
export class Room {
  #values = new Float64Array(0);
  #used = 0;
  #next: number;

  constructor(tables: "share" | "apart") {
    this.#next = tables === "share" ? FIRST_ARRAY : 0;
  }

  /** Room for one table more, all 0. */
  take(cells: number): Stretch {
    if (this.#used + cells > this.#values.length) {
      this.#values = new Float64Array(Math.max(cells, this.#next));
      this.#used = 0;
      this.#next = Math.min(2 * this.#next, LARGEST_ARRAY);
    }
    const from = this.#used;
    this.#used += cells;
    return { values: this.#values, from, cells };
  }

  /** Room with a table in it. */
  taken(table: Float64Array): Stretch {
    const stretch = this.take(table.length);
    stretch.values.set(table, stretch.from);
    return stretch;
  }
}

/**
 * A table of weights, the largest 1. Kept as natural logs where its smallest positive weight is too small for the
 * products it will meet: then no state that is possible is ever rounded down to impossible.
 */
export interface Weights extends Stretch {
  readonly scale: "linear" | "log";
  /** The smallest positive weight; of a log table only that it is small. */
  readonly least: number;
}

/** A table of weights, and the natural log of what was scaled out of it (-Infinity: all 0). */
export interface Scaled {
  readonly table: Weights;
  readonly logTop: number;
}

/** The product of two smallest weights must stay above this to be formed as it is. */
export const SMALLEST = 1e-290;
/** Natural log from which a table is kept linear: two of them still make a safe product. */
const LOWEST_LINEAR = Math.log(SMALLEST) / 2;

/** A table as weights, in its place: scaled so that the largest is 1. */
export function weights({ values, from, cells }: Stretch): Scaled {
  let top = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let i = from; i < from + cells; i++) {
    const w = f64(values, i);
    if (w > top) top = w;
    if (w > 0 && w < least) least = w;
  }
  if (top > 0 && top !== 1) for (let i = from; i < from + cells; i++) values[i] = f64(values, i) / top;
  return {
    table: { values, from, cells, scale: "linear", least: top > 0 ? least / top : 1 },
    logTop: Math.log(top),
  };
}

/** As `weights`, from natural logs. */
export function weightsFromLogs(logs: Float64Array, room: Room): Scaled {
  let top = Number.NEGATIVE_INFINITY;
  let low = Number.POSITIVE_INFINITY;
  for (let i = 0; i < logs.length; i++) {
    const log = f64(logs, i);
    if (log > top) top = log;
    if (log < low && log > Number.NEGATIVE_INFINITY) low = log;
  }
  const { values, from, cells } = room.take(logs.length);
  if (top === Number.NEGATIVE_INFINITY)
    return { table: { values, from, cells, scale: "linear", least: 1 }, logTop: top };
  const isLinear = low - top > LOWEST_LINEAR;
  for (let i = 0; i < cells; i++) values[from + i] = isLinear ? Math.exp(f64(logs, i) - top) : f64(logs, i) - top;
  const least = isLinear ? Math.exp(low - top) : 0;
  return { table: { values, from, cells, scale: isLinear ? "linear" : "log", least }, logTop: top };
}

/** The natural logs of a table of weights. */
export function logsOf({ values, from, cells, scale }: Weights): Float64Array {
  if (scale === "log") return values.slice(from, from + cells);
  const logs = new Float64Array(cells);
  for (let i = 0; i < cells; i++) logs[i] = Math.log(f64(values, from + i));
  return logs;
}

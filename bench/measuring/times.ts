import { present } from "@pollard/base";

/** What some work came to, and the milliseconds that it took. */
export interface Timed<T> {
  readonly value: T;
  readonly ms: number;
}

export function timed<T>(work: () => T): Timed<T> {
  const start = performance.now();
  const value = work();
  return { value, ms: performance.now() - start };
}

/** The fastest of some runs of the same work. */
export const fastest = <T>(runs: number, work: () => T): Timed<T> =>
  Array.from({ length: runs }, () => timed(work)).reduce((a, b) => (b.ms < a.ms ? b : a));

/** The middle of some figures; of an even number the upper one. */
export const median = (of: readonly number[]): number =>
  present(of.toSorted((a, b) => a - b)[Math.floor(of.length / 2)], "a figure");

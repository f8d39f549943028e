// Element access of the inner loops. The compiler types every indexed element as possibly missing; the loops below run
// over lengths they were built with, so the three casts of this package stand here and nowhere else.

/** The element at `i` of a table of floats. */
export const f64 = (a: Float64Array, i: number): number => a[i] as number;

/** The element at `i` of a list of whole numbers. */
export const i32 = (a: Int32Array, i: number): number => a[i] as number;

/** The element at `i` of a list that is known to have one there. */
export const item = <T>(a: readonly T[], i: number): T => a[i] as T;

/**
 * A table of weights over a few variables. Row-major: the last variable of `scope` runs fastest.
 *
 * Assumes: no variable stands twice in `scope`; weights are finite and not negative; a table shared by several factors
 *          has the same shape in all of them.
 */
export interface Factor {
  readonly scope: readonly number[];
  readonly table: Float64Array;
}

/**
 * A product of tables over discrete variables 0, 1, 2, …: the joint weight of everything.
 *
 * `logUnary` holds each variable's own evidence apart from the tables between variables, because the questions asked of a
 * variable are so often asked without its own evidence.
 */
export interface FactorGraph {
  /** Number of states of each variable. */
  readonly sizes: readonly number[];
  readonly factors: readonly Factor[];
  /** Natural log of the weight of each state of each variable; -Infinity = ruled out. */
  readonly logUnary: readonly Float64Array[];
}

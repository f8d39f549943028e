/** The beginning of a value that was refused, short enough to show and to send. A list or object is named, not shown. */
export type Shown = string | number | boolean | null;

/**
 * Why stored or received JSON is not an entry. `path` is where, with dots (`body.kids.0.sex`; empty = the whole).
 * The screen turns `code` into the keeper's language.
 */
export type ParseProblem =
  | { readonly code: "missing"; readonly path: string }
  | { readonly code: "wrong-type"; readonly path: string; readonly got: Shown }
  | { readonly code: "not-one-of"; readonly path: string; readonly got: Shown; readonly allowed: readonly string[] }
  | { readonly code: "not-a-day"; readonly path: string; readonly got: Shown }
  | { readonly code: "not-a-stamp"; readonly path: string; readonly got: Shown }
  | { readonly code: "empty"; readonly path: string }
  | { readonly code: "too-long"; readonly path: string; readonly limit: number }
  | { readonly code: "out-of-range"; readonly path: string; readonly got: Shown }
  | { readonly code: "not-allowed"; readonly path: string }
  | { readonly code: "too-deep"; readonly path: string; readonly limit: number };

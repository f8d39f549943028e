import { item } from "./cell.ts";
import { type Contraction, contractionMaker } from "./contraction.ts";
import { eliminationPlan } from "./elimination-order.ts";

/** Where a table of the tree comes from: a factor, a variable's own evidence, or two tables multiplied and summed. */
export type TreeNode =
  | { readonly kind: "factor"; readonly factor: number; readonly parent: number }
  | { readonly kind: "unary"; readonly variable: number; readonly parent: number }
  | {
      readonly kind: "product";
      readonly left: number;
      readonly right: number;
      readonly parent: number;
      readonly contraction: Contraction;
      /** Cells of the table handed to the parent. */
      readonly outCells: number;
    };

/**
 * The shape of an exact computation: a binary tree that multiplies two tables at a time and sums each variable out as
 * soon as nothing else needs it. It holds no weights, so one tree serves every change of evidence.
 *
 * With two tables at a time every message in every direction is a plain sum of products: nothing is ever divided, so
 * certain knowledge (a weight of 0) needs no special care.
 *
 * Source: [shenoy1997] (binary join trees).
 */
export interface ContractionTree {
  readonly sizes: readonly number[];
  /** Every node stands before its parent; a family's last node has parent -1. */
  readonly nodes: readonly TreeNode[];
  /** The leaf that holds each variable's own evidence, and that of each factor. */
  readonly leafOf: readonly number[];
  readonly factorLeafOf: readonly number[];
  /** Cells that are walked, all products together. */
  readonly cells: number;
}

interface Draft {
  readonly scope: readonly number[];
  readonly node: number;
}

/**
 * Lays out the exact computation for tables of these scopes.
 *
 * Variables are summed out in a weighted min-fill order; the tables that hold a variable are multiplied the smallest
 * union first, so that only the last product is as large as it must be.
 *
 * Shape: `undefined` where it would need more than `cellLimit` table cells: then nothing exact is to be had.
 */
export function contractionTree(
  sizes: readonly number[],
  scopes: readonly (readonly number[])[],
  cellLimit: number,
): ContractionTree | undefined {
  const plan = eliminationPlan(sizes, scopes, cellLimit);
  if (!plan) return undefined;
  const rank = sizes.map(() => 0);
  plan.order.forEach((v, at) => {
    rank[v] = at;
  });
  // The variable summed out latest stands first: then the one summed out here runs fastest.
  const inOrder = (scope: Iterable<number>): number[] => [...scope].sort((a, b) => item(rank, b) - item(rank, a));
  const parents: number[] = [];
  const nodes: ((parent: number) => TreeNode)[] = [];
  const add = (node: (parent: number) => TreeNode): number => {
    parents.push(-1);
    return nodes.push(node) - 1;
  };
  const buckets: Draft[][] = plan.order.map(() => []);
  const file = (draft: Draft): void => {
    const first = draft.scope.at(-1);
    if (first !== undefined) item(buckets, item(rank, first)).push(draft);
  };
  const leafOf = sizes.map((_, variable) => add((parent) => ({ kind: "unary", variable, parent })));
  leafOf.forEach((node, variable) => {
    file({ scope: [variable], node });
  });
  const factorLeafOf = scopes.map((scope, factor) => {
    // A factor's own table keeps the order it was given in; the walk is laid over it.
    const node = add((parent) => ({ kind: "factor", factor, parent }));
    file({ scope: inOrder(scope), node });
    return node;
  });
  const lay = contractionMaker(sizes);
  let cells = 0;
  const given = new Map(factorLeafOf.map((node, f) => [node, item(scopes, f)]));
  const multiply = (a: Draft, b: Draft, summed: number | undefined): Draft => {
    const scope = inOrder(new Set([...a.scope, ...b.scope]));
    const out = summed === undefined ? scope : scope.filter((v) => v !== summed);
    const layout = lay(scope, { left: given.get(a.node) ?? a.scope, right: given.get(b.node) ?? b.scope, out });
    cells += layout.cells;
    const outCells = out.reduce((n, v) => n * item(sizes, v), 1);
    const node = add((parent) => ({
      kind: "product",
      left: a.node,
      right: b.node,
      parent,
      contraction: layout,
      outCells,
    }));
    parents[a.node] = node;
    parents[b.node] = node;
    return { scope: out, node };
  };
  plan.order.forEach((variable, at) => {
    const drafts = item(buckets, at);
    while (drafts.length > 2) {
      const [a, b] = closestPair(drafts, sizes);
      drafts.push(multiply(a, b, undefined));
      drafts.splice(drafts.indexOf(a), 1);
      drafts.splice(drafts.indexOf(b), 1);
    }
    const [a, b] = drafts;
    if (a && b) file(multiply(a, b, variable));
  });
  return { sizes, nodes: nodes.map((make, i) => make(item(parents, i))), leafOf, factorLeafOf, cells };
}

/** Above this many tables in one bucket the two smallest are taken, which is the same for a buck's thousand kids. */
const COMPARED = 12;

/** The two tables whose product is smallest. */
function closestPair(drafts: Draft[], sizes: readonly number[]): readonly [Draft, Draft] {
  const cellsOf = (scope: Iterable<number>): number => [...scope].reduce((n, v) => n * item(sizes, v), 1);
  if (drafts.length > COMPARED) {
    drafts.sort((a, b) => a.scope.length - b.scope.length);
    return [item(drafts, 0), item(drafts, 1)];
  }
  let best: readonly [Draft, Draft] = [item(drafts, 0), item(drafts, 1)];
  let least = Number.POSITIVE_INFINITY;
  drafts.forEach((a, i) => {
    for (const b of drafts.slice(i + 1)) {
      const cells = cellsOf(new Set([...a.scope, ...b.scope]));
      if (cells < least) [least, best] = [cells, [a, b]];
    }
  });
  return best;
}

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

/** Above this many tables in one bucket the two smallest are taken, which is the same for a buck's thousand kids. */
const COMPARED = 12;

/** A table on its way: the variables it still holds, the one summed out next last. */
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
  const growing = new GrowingTree(sizes, rank);
  const leafOf = sizes.map((_, variable) => growing.unary(variable));
  const factorLeafOf = scopes.map((scope, factor) => growing.factor(factor, scope));
  for (const variable of plan.order) growing.sumOut(variable);
  return { sizes, leafOf, factorLeafOf, nodes: growing.nodes(), cells: growing.cells };
}

/** A tree while it is laid out. Each table waits with the variable of its scope that is summed out first. */
class GrowingTree {
  readonly #sizes: readonly number[];
  readonly #rank: readonly number[];
  readonly #lay: ReturnType<typeof contractionMaker>;
  readonly #makers: ((parent: number) => TreeNode)[] = [];
  readonly #parents: number[] = [];
  /** The order of variables in a factor's own table, which stays as it was given. */
  readonly #given = new Map<number, readonly number[]>();
  readonly #waiting: Draft[][];
  cells = 0;

  constructor(sizes: readonly number[], rank: readonly number[]) {
    this.#sizes = sizes;
    this.#rank = rank;
    this.#lay = contractionMaker(sizes);
    this.#waiting = sizes.map(() => []);
  }

  unary(variable: number): number {
    const node = this.#add((parent) => ({ kind: "unary", variable, parent }));
    this.#wait({ scope: this.#open([variable]), node });
    return node;
  }

  factor(factor: number, whole: readonly number[]): number {
    const node = this.#add((parent) => ({ kind: "factor", factor, parent }));
    const scope = this.#open(whole);
    this.#given.set(node, scope);
    this.#wait({ scope: this.#inOrder(scope), node });
    return node;
  }

  /** Multiplies all tables that hold a variable, and sums it out with the last product. */
  sumOut(variable: number): void {
    const drafts = item(this.#waiting, variable);
    while (drafts.length > 2) {
      const [a, b] = this.#closestPair(drafts);
      drafts.push(this.#multiply(a, b, undefined));
      drafts.splice(drafts.indexOf(a), 1);
      drafts.splice(drafts.indexOf(b), 1);
    }
    const [a, b] = drafts;
    if (a && b) this.#wait(this.#multiply(a, b, variable));
  }

  nodes(): readonly TreeNode[] {
    return this.#makers.map((make, i) => make(item(this.#parents, i)));
  }

  #add(make: (parent: number) => TreeNode): number {
    this.#parents.push(-1);
    return this.#makers.push(make) - 1;
  }

  #wait(draft: Draft): void {
    const first = draft.scope.at(-1);
    if (first !== undefined) item(this.#waiting, first).push(draft);
  }

  /** Without the variables of one state, which take up no room in a table. */
  #open(scope: readonly number[]): readonly number[] {
    return scope.filter((v) => item(this.#sizes, v) > 1);
  }

  /** The variable summed out latest stands first: then the one summed out next runs fastest. */
  #inOrder(scope: Iterable<number>): readonly number[] {
    return [...scope].sort((a, b) => item(this.#rank, b) - item(this.#rank, a));
  }

  /** Of two scopes in order: all their variables, in order. */
  #union(a: readonly number[], b: readonly number[]): readonly number[] {
    const out: number[] = [];
    let [i, j] = [0, 0];
    while (i < a.length || j < b.length) {
      const [x, y] = [a[i], b[j]];
      const isFirst = y === undefined || (x !== undefined && item(this.#rank, x) >= item(this.#rank, y));
      out.push(item(isFirst ? a : b, isFirst ? i : j));
      if (x === y || isFirst) i++;
      if (x === y || !isFirst) j++;
    }
    return out;
  }

  /** The two tables whose product is smallest; among many, the two of fewest variables. */
  #closestPair(drafts: Draft[]): readonly [Draft, Draft] {
    if (drafts.length > COMPARED) {
      drafts.sort((a, b) => a.scope.length - b.scope.length);
      return [item(drafts, 0), item(drafts, 1)];
    }
    let best: readonly [Draft, Draft] = [item(drafts, 0), item(drafts, 1)];
    let least = Number.POSITIVE_INFINITY;
    for (let i = 0; i < drafts.length; i++)
      for (let j = i + 1; j < drafts.length; j++) {
        const cells = this.#unionCells(item(drafts, i).scope, item(drafts, j).scope);
        if (cells < least) [least, best] = [cells, [item(drafts, i), item(drafts, j)]];
      }
    return best;
  }

  #unionCells(a: readonly number[], b: readonly number[]): number {
    let cells = 1;
    for (const v of a) cells *= item(this.#sizes, v);
    for (const v of b) if (!a.includes(v)) cells *= item(this.#sizes, v);
    return cells;
  }

  #multiply(a: Draft, b: Draft, summed: number | undefined): Draft {
    const scope = this.#union(a.scope, b.scope);
    const out = summed === undefined ? scope : scope.filter((v) => v !== summed);
    const [left, right] = [a, b].map((d) => this.#given.get(d.node) ?? d.scope);
    const layout = this.#lay(scope, { left: left ?? [], right: right ?? [], out });
    const outCells = out.reduce((n, v) => n * item(this.#sizes, v), 1);
    const node = this.#add((parent) => ({
      kind: "product",
      left: a.node,
      right: b.node,
      parent,
      contraction: layout,
      outCells,
    }));
    this.#parents[a.node] = node;
    this.#parents[b.node] = node;
    this.cells += layout.cells;
    return { scope: out, node };
  }
}

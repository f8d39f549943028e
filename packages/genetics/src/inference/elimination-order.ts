import { item } from "./cell.ts";

/** In which order variables are summed out, and which others share a table with each at its turn. */
export interface EliminationPlan {
  readonly order: readonly number[];
  /** Per step of `order`: the neighbours left at that time, in no order. */
  readonly neighbours: readonly (readonly number[])[];
  /** Cells of all tables together, and of the largest. */
  readonly cells: number;
  readonly largest: number;
}

interface Candidate {
  readonly score: number;
  readonly cells: number;
  readonly variable: number;
  readonly stamp: number;
}

const before = (a: Candidate, b: Candidate): boolean =>
  a.score !== b.score ? a.score < b.score : a.cells !== b.cells ? a.cells < b.cells : a.variable < b.variable;

/** A binary heap, smallest first; outdated entries are skipped by their stamp when they come up. */
class Queue {
  readonly #heap: Candidate[] = [];

  push(entry: Candidate): void {
    const heap = this.#heap;
    let i = heap.push(entry) - 1;
    while (i > 0) {
      const up = (i - 1) >> 1;
      if (!before(entry, item(heap, up))) break;
      heap[i] = item(heap, up);
      i = up;
    }
    heap[i] = entry;
  }

  pop(): Candidate | undefined {
    const heap = this.#heap;
    const top = heap[0];
    const last = heap.pop();
    if (top === undefined || last === undefined || heap.length === 0) return top;
    let i = 0;
    for (;;) {
      let child = 2 * i + 1;
      if (child >= heap.length) break;
      if (child + 1 < heap.length && before(item(heap, child + 1), item(heap, child))) child++;
      if (!before(item(heap, child), last)) break;
      heap[i] = item(heap, child);
      i = child;
    }
    heap[i] = last;
    return top;
  }
}

/**
 * A good order in which to sum the variables out: always next the one that would join the fewest strangers.
 *
 * Weighted min-fill, greedy: the score of a variable is the sum over its unconnected pairs of neighbours of the product
 * of their sizes; ties go to the smaller table. A variable whose table alone would break the limit waits until it has
 * lost neighbours, so a buck of a thousand kids costs nothing to look at. A variable of one state makes no table larger and
 * joins nobody.
 *
 * Shape:   variables of one state stand at the end, without neighbours. `undefined` where the tables would need more than `cellLimit` cells together.
 * Source:  [koller2009], section 9.4.3.2 (greedy orders, weighted min-fill).
 */
export function eliminationPlan(
  sizes: readonly number[],
  scopes: readonly (readonly number[])[],
  cellLimit: number,
): EliminationPlan | undefined {
  const links = sizes.map(() => new Set<number>());
  const isOpen = (v: number): boolean => item(sizes, v) > 1;
  for (const scope of scopes) {
    const open = scope.filter(isOpen);
    for (const a of open) for (const b of open) if (a !== b) item(links, a).add(b);
  }
  const stamps = sizes.map(() => 0);
  const queue = new Queue();
  const enqueue = (v: number): void => {
    const stamp = item(stamps, v) + 1;
    stamps[v] = stamp;
    const entry = judge(v, stamp, sizes, links, cellLimit);
    if (entry) queue.push(entry);
  };
  const certain: number[] = [];
  for (let v = 0; v < sizes.length; v++)
    if (isOpen(v)) enqueue(v);
    else certain.push(v);

  const order: number[] = [];
  const neighbours: number[][] = [];
  let cells = certain.length;
  let largest = certain.length > 0 ? 1 : 0;
  if (cells > cellLimit) return undefined;
  while (order.length + certain.length < sizes.length) {
    const next = queue.pop();
    if (!next) return undefined;
    if (item(stamps, next.variable) !== next.stamp) continue;
    cells += next.cells;
    if (cells > cellLimit) return undefined;
    largest = Math.max(largest, next.cells);
    order.push(next.variable);
    stamps[next.variable] = Number.POSITIVE_INFINITY;
    neighbours.push(removeAndJoin(next.variable, links, enqueue));
  }
  for (const v of certain) {
    order.push(v);
    neighbours.push([]);
  }
  return { order, neighbours, cells, largest };
}

/** The entry of one variable, or nothing while its table alone is beyond the limit. */
function judge(
  v: number,
  stamp: number,
  sizes: readonly number[],
  links: readonly Set<number>[],
  cellLimit: number,
): Candidate | undefined {
  const around: number[] = [];
  let cells = item(sizes, v);
  for (const n of item(links, v)) {
    cells *= item(sizes, n);
    if (cells > cellLimit) return undefined;
    around.push(n);
  }
  let score = 0;
  for (let i = 0; i < around.length; i++) {
    const a = item(around, i);
    const known = item(links, a);
    for (let j = i + 1; j < around.length; j++) {
      const b = item(around, j);
      if (!known.has(b)) score += item(sizes, a) * item(sizes, b);
    }
  }
  return { score, cells, variable: v, stamp };
}

/** Takes `v` out, joins its neighbours pairwise, and calls `changed` for every variable whose score may differ. */
function removeAndJoin(v: number, links: readonly Set<number>[], changed: (v: number) => void): number[] {
  const around = [...item(links, v)];
  const touched = new Set(around);
  for (const n of around) item(links, n).delete(v);
  for (let i = 0; i < around.length; i++) {
    const a = item(around, i);
    for (let j = i + 1; j < around.length; j++) {
      const b = item(around, j);
      if (item(links, a).has(b)) continue;
      item(links, a).add(b);
      item(links, b).add(a);
      const [few, many] =
        item(links, a).size < item(links, b).size ? [item(links, a), item(links, b)] : [item(links, b), item(links, a)];
      for (const c of few) if (many.has(c)) touched.add(c); // c knew both: it has one pair less to join
    }
  }
  item(links, v).clear();
  for (const t of touched) changed(t);
  return around;
}

import { type ContractionTree, contractionTree } from "./contraction-tree.ts";
import type { FactorGraph } from "./factor-graph.ts";
import type { Sent } from "./propagation.ts";
import type { Region } from "./region.ts";

/**
 * Layouts of exact computations, kept for the next time the same shape is asked for: a new reading changes the weights of
 * a herd's tables, seldom their shape, and finding a good order is half of the work.
 */
export interface LayoutMemory {
  /** As `contractionTree`; and the surroundings of variables that were laid out in graphs of this shape, to be added to. */
  shapeOf(graph: FactorGraph, cellLimit: number): Shape;
}

/** What is kept of graphs of one shape. */
export interface Shape {
  readonly tree: ContractionTree | undefined;
  readonly regions: Map<number, Region>;
  /** What the last graph of this shape had sent, where it is not too much to keep. */
  sent: Sent | undefined;
}

/** Cells of messages kept at most for one shape. */
const MOST_SENT_CELLS = 1 << 19;

/** Keeps what a graph has sent for the next one of its shape. */
export function keepSent(shape: Shape, sent: Sent): void {
  if (shape.tree !== undefined && shape.tree.cells <= MOST_SENT_CELLS) shape.sent = sent;
}

/** Shapes kept at once; the one not asked for longest goes first. */
const MOST_SHAPES = 64;

/** An empty memory. */
export function layoutMemory(): LayoutMemory {
  const known = new Map<string, Shape>();
  return {
    shapeOf(graph, cellLimit) {
      const scopes = graph.factors.map((f) => f.scope);
      const key = `${cellLimit}|${graph.sizes.join()}|${scopes.map((s) => s.join()).join(";")}`;
      const shape: Shape = known.get(key) ?? {
        tree: contractionTree(graph.sizes, scopes, cellLimit),
        regions: new Map<number, Region>(),
        sent: undefined,
      };
      known.delete(key);
      known.set(key, shape);
      const oldest = known.size > MOST_SHAPES ? known.keys().next().value : undefined;
      if (oldest !== undefined) known.delete(oldest);
      return shape;
    },
  };
}

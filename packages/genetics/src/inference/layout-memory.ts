import { type ContractionTree, contractionTree } from "./contraction-tree.ts";
import type { FactorGraph } from "./factor-graph.ts";

/**
 * Layouts of exact computations, kept for the next time the same shape is asked for: a new reading changes the weights of
 * a herd's tables, seldom their shape, and finding a good order is half of the work.
 */
export interface LayoutMemory {
  /** As `contractionTree`. */
  layoutOf(graph: FactorGraph, cellLimit: number): ContractionTree | undefined;
}

/** Shapes kept at once; the one not asked for longest goes first. */
const MOST_SHAPES = 64;

/** An empty memory. */
export function layoutMemory(): LayoutMemory {
  const known = new Map<string, ContractionTree | undefined>();
  return {
    layoutOf(graph, cellLimit) {
      const scopes = graph.factors.map((f) => f.scope);
      const key = `${cellLimit}|${graph.sizes.join()}|${scopes.map((s) => s.join()).join(";")}`;
      const layout = known.has(key) ? known.get(key) : contractionTree(graph.sizes, scopes, cellLimit);
      known.delete(key);
      known.set(key, layout);
      const oldest = known.size > MOST_SHAPES ? known.keys().next().value : undefined;
      if (oldest !== undefined) known.delete(oldest);
      return layout;
    },
  };
}

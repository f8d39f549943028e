import { type ContractionTree, contractionTree } from "./contraction-tree.ts";
import { item } from "./cell.ts";
import type { FactorGraph } from "./factor-graph.ts";
import { Lately } from "./lately.ts";
import { type Calibration, calibrate, isEqual, type Sent } from "./propagation.ts";
import type { Region } from "./region.ts";

/**
 * Layouts of exact computations, kept for the next time the same shape is asked for: a new reading changes the weights of
 * a herd's tables, seldom their shape, and finding a good order is half of the work.
 */
export interface LayoutMemory {
  /** As `contractionTree`; and the surroundings of variables that were laid out in graphs of this shape, to be added to. */
  shapeOf(graph: FactorGraph, cellLimit: number): Shape;
  /** A memory for small pieces of the graphs, which are many and would push out the whole ones. */
  ofPieces(): LayoutMemory;
}

/** What is kept of graphs of one shape. */
export interface Shape {
  readonly tree: ContractionTree | undefined;
  readonly regions: Map<number, Region>;
  /** What the last few graphs of this shape had sent, where it is not too much to keep: loci of a herd may share a shape. */
  readonly sent: Sent[];
}

/** Cells of messages kept at most for one shape. */
const MOST_SENT_CELLS = 1 << 19;

/** Graphs of one shape whose messages are kept. */
const MOST_SENT = 4;

/** As `calibrate`; from a graph of the same shape that was worked out before only what changed since is formed anew. */
export function calibrateKept(shape: Shape, tree: ContractionTree, graph: FactorGraph): Calibration | undefined {
  const before = forerunner(shape.sent, graph);
  return calibrate(tree, graph, before, (sent) => {
    if (tree.cells > MOST_SENT_CELLS) return;
    if (before !== undefined) shape.sent.splice(shape.sent.indexOf(before), 1);
    shape.sent.push(sent);
    if (shape.sent.length > MOST_SENT) shape.sent.shift();
  });
}

/** What the graph had sent that differs least in evidence, if not in half of it: the same locus, before the last entries. */
function forerunner(known: readonly Sent[], graph: FactorGraph): Sent | undefined {
  let best: Sent | undefined;
  let least = graph.logUnary.length / 2;
  for (const sent of known) {
    const different = graph.logUnary.reduce((n, own, v) => (isEqual(own, item(sent.graph.logUnary, v)) ? n : n + 1), 0);
    if (different < least) [least, best] = [different, sent];
  }
  return best;
}

/** Shapes kept at once, and of pieces; the one not asked for longest goes first. */
const MOST_SHAPES = 64;
const MOST_PIECES = 512;

/** An empty memory. */
export const layoutMemory = (): LayoutMemory => memoryOf(MOST_SHAPES);

function memoryOf(most: number): LayoutMemory {
  const known = new Lately<Shape>(most);
  let pieces: LayoutMemory | undefined;
  return {
    ofPieces: () => (pieces ??= memoryOf(MOST_PIECES)),
    shapeOf(graph, cellLimit) {
      const scopes = graph.factors.map((f) => f.scope);
      const key = `${cellLimit}|${graph.sizes.join()}|${scopes.map((s) => s.join()).join(";")}`;
      return known.ask(
        key,
        (shape) =>
          shape ?? {
            tree: contractionTree(graph.sizes, scopes, cellLimit),
            regions: new Map<number, Region>(),
            sent: [],
          },
      );
    },
  };
}

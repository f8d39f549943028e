import { f64, item } from "./cell.ts";
import { type Calibration, overOwn, Product } from "./propagation.ts";
import { scaleToOne } from "./table-kernels.ts";

/**
 * The joint weight of a few variables given all evidence, from a calibrated tree.
 *
 * For every combination of states the variables are clamped and only the cliques between them are summed again; what
 * hangs off that path is taken from the messages already there. So nothing larger than the tree's own tables is built.
 *
 * `unary` replaces the evidence of some variables (asked "if it also were …"); a change of evidence is allowed for the
 * asked variables only.
 *
 * Shape:   row-major over `variables`, the last fastest; sums to 1, or all 0 where the replaced evidence is impossible.
 * Assumes: all variables belong to one family (one connected tree), each is named once.
 * Cost:    combinations of states x cells of the cliques on the path.
 */
export function jointWeights(
  calibration: Calibration,
  variables: readonly number[],
  unary: ReadonlyMap<number, Float64Array> = new Map(),
): Float64Array {
  const { tree, graph } = calibration;
  const { path, top } = pathBetween(calibration, variables);
  const onPath = new Set(path);
  const product = new Product(tree.largest);
  const sizes = variables.map((v) => item(tree.sizes, v));
  const count = sizes.reduce((n, s) => n * s, 1);
  const logs = new Float64Array(count);
  const state = variables.map(() => 0);
  for (let at = 0; at < count; at++) {
    for (let rest = at, k = variables.length - 1; k >= 0; k--) {
      state[k] = rest % item(sizes, k);
      rest = Math.floor(rest / item(sizes, k));
    }
    const clamped = new Map<number, Float64Array>();
    variables.forEach((v, k) => {
      const s = item(state, k);
      const only = new Float64Array(item(sizes, k));
      only[s] = f64(unary.get(v) ?? item(graph.unary, v), s);
      clamped.set(v, only);
    });
    logs[at] = logWeight(calibration, product, { path, onPath, top, clamped });
  }
  const highest = logs.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  if (highest === Number.NEGATIVE_INFINITY) return new Float64Array(count);
  const weights = logs.map((l) => Math.exp(l - highest));
  scaleToOne(weights, count);
  const sum = weights.reduce((a, b) => a + b, 0);
  return weights.map((w) => w / sum);
}

interface Clamped {
  readonly path: readonly number[];
  readonly onPath: ReadonlySet<number>;
  readonly top: number;
  readonly clamped: ReadonlyMap<number, Float64Array>;
}

function logWeight({ tree, graph, up, down }: Calibration, product: Product, query: Clamped): number {
  const fresh = new Map<number, Float64Array>();
  let log = 0;
  for (const at of query.path) {
    const clique = item(tree.cliques, at);
    product.begin(clique, graph, "multiply");
    const own = query.clamped.get(clique.variable) ?? item(graph.unary, clique.variable);
    product.times(own, clique.overUnary, "message");
    for (const c of clique.children)
      product.times(fresh.get(c) ?? item(up, c), item(tree.cliques, c).overParent, "message");
    if (at === query.top && clique.parent >= 0) product.times(item(down, at), overOwn(clique), "message");
    log += product.finish();
    if (log === Number.NEGATIVE_INFINITY) return log;
    const message = product.sumOutOwn();
    if (at === query.top) return log + Math.log(message.reduce((a, b) => a + b, 0));
    log += Math.log(scaleToOne(message, message.length));
    fresh.set(at, message);
  }
  return log;
}

/** The cliques from each variable's home up to the first one that all the ways share, in order of elimination. */
function pathBetween(
  { tree }: Calibration,
  variables: readonly number[],
): { readonly path: readonly number[]; readonly top: number } {
  const visits = new Map<number, number>();
  for (const v of variables)
    for (let at = item(tree.homeOf, v); at >= 0; at = item(tree.cliques, at).parent)
      visits.set(at, (visits.get(at) ?? 0) + 1);
  const shared = [...visits].filter(([, n]) => n === variables.length).map(([at]) => at);
  const top = Math.min(...shared);
  const path = [...visits.keys()].filter((at) => at <= top).sort((a, b) => a - b);
  return { path, top };
}

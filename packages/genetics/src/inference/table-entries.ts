import { f64, i32, item } from "./cell.ts";
import type { FactorGraph } from "./factor-graph.ts";

/** The cells of a table that are not zero, with the state of each variable there: most of a kid's table is impossible. */
export interface Entries {
  readonly weights: Float64Array;
  /** Per entry one state for each place of the scope. */
  readonly states: Int32Array;
}

/** Entries per factor; factors that share a table (and so its shape) share them. */
export function entriesOf({ sizes, factors }: FactorGraph): readonly Entries[] {
  const known = new Map<Float64Array, Entries>();
  return factors.map(({ scope, table }) => {
    const before = known.get(table);
    if (before) return before;
    const cells = [...table.keys()].filter((at) => f64(table, at) > 0);
    const states = cells.flatMap((at) => {
      let rest = at;
      return scope
        .toReversed()
        .map((v) => {
          const s = rest % item(sizes, v);
          rest = Math.floor(rest / item(sizes, v));
          return s;
        })
        .reverse();
    });
    const entries = { weights: Float64Array.from(cells, (at) => f64(table, at)), states: Int32Array.from(states) };
    known.set(table, entries);
    return entries;
  });
}

/** What is said to one factor and what it says, a stretch of `room` for each place of its scope. */
interface Talk {
  readonly heard: Float64Array;
  readonly said: Float64Array;
  readonly room: number;
}

/** From the incoming messages of a factor to the outgoing ones: each entry's weight times what all other places say. */
export function sumProducts(
  { weights, states }: Entries,
  places: number,
  { heard: ins, said: outs, room }: Talk,
): void {
  if (places === 2) {
    for (let e = 0, at = 0; e < weights.length; e++, at += 2) {
      const [i, j, w] = [i32(states, at), room + i32(states, at + 1), f64(weights, e)];
      outs[i] = f64(outs, i) + w * f64(ins, j);
      outs[j] = f64(outs, j) + w * f64(ins, i);
    }
    return;
  }
  if (places === 3) {
    for (let e = 0, at = 0; e < weights.length; e++, at += 3) {
      const [i, j, k] = [i32(states, at), room + i32(states, at + 1), 2 * room + i32(states, at + 2)];
      const [w, a, b, c] = [f64(weights, e), f64(ins, i), f64(ins, j), f64(ins, k)];
      outs[i] = f64(outs, i) + w * b * c;
      outs[j] = f64(outs, j) + w * a * c;
      outs[k] = f64(outs, k) + w * a * b;
    }
    return;
  }
  for (let e = 0, at = 0; e < weights.length; e++, at += places)
    for (let k = 0; k < places; k++) {
      let product = f64(weights, e);
      for (let j = 0; j < places; j++) if (j !== k) product *= f64(ins, j * room + i32(states, at + j));
      const to = k * room + i32(states, at + k);
      outs[to] = f64(outs, to) + product;
    }
}

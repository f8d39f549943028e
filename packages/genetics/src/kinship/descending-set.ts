import { i32, item } from "../inference/cell.ts";

/** Bits of one word. */
const WORD = 5;
const MASK = 31;

/**
 * A set of whole numbers from which the largest is taken again and again, in a few steps whatever its size: one bit per
 * number, and over each 32 bits one bit that says whether any of them is set, up to a single word.
 */
export class DescendingSet {
  readonly #levels: readonly Int32Array[];

  /** For numbers below `limit`. */
  constructor(limit: number) {
    const levels: Int32Array[] = [];
    let size = Math.max(1, limit);
    do {
      size = (size + MASK) >>> WORD;
      levels.push(new Int32Array(size));
    } while (size > 1);
    this.#levels = levels;
  }

  add(n: number): void {
    let at = n;
    for (const level of this.#levels) {
      const word = at >>> WORD;
      const before = i32(level, word);
      level[word] = before | (1 << (at & MASK));
      if (before !== 0) return;
      at = word;
    }
  }

  /** The largest, which is then no longer in the set; -1 if it is empty. */
  takeLargest(): number {
    let word = 0;
    for (let l = this.#levels.length - 1; l >= 0; l--) {
      const bits = i32(item(this.#levels, l), word);
      if (bits === 0) return -1;
      word = (word << WORD) | (MASK - Math.clz32(bits));
    }
    let at = word;
    for (const level of this.#levels) {
      const w = at >>> WORD;
      const left = i32(level, w) & ~(1 << (at & MASK));
      level[w] = left;
      if (left !== 0) break;
      at = w;
    }
    return word;
  }
}

import { present } from "@pollard/base";
import { bandOf, type Block, passageId, type Rows, WIDTHS } from "./blocks.ts";
import type { Family } from "./family.ts";

/** Where every symbol and every passing line stands across the drawing: its middle. */
export interface Across {
  readonly x: ReadonlyMap<string, number>;
  readonly width: number;
}

/** A wish that two blocks stand so that these two spots, measured from their left ends, lie below one another. */
interface Wish {
  readonly upper: Block;
  readonly upperAt: number;
  readonly lower: Block;
  readonly lowerAt: number;
  readonly weight: number;
}

/** How often the rows are gone through, up and down; more changes nothing that can be seen. */
const SWEEPS = 10;
/** What a mating's far parent counts beside the near one: enough to decide where nothing else does. */
const FAR = 0.0005;

/**
 * Kids below their parents and parents above their kids as well as the order of each row allows: rows are gone through up and
 * down, and in each the blocks take the places that miss what their neighbours wish for by least squares.
 *
 * Cost: linear in the number of blocks and matings, for each sweep.
 */
export function acrossOf(family: Family, rowOf: ReadonlyMap<string, number>, { rows, blockOf }: Rows): Across {
  const byId = new Map(rows.flat().map((block) => [block.id, block]));
  const wishes = wishesOf(family, rowOf, byId, blockOf);
  const left = new Map<string, number>();
  for (const row of rows) {
    let at = 0;
    for (const block of row) {
      left.set(block.id, at);
      at += block.width + WIDTHS.between;
    }
  }
  const around = new Map<string, Wish[]>();
  for (const wish of wishes)
    for (const { id } of [wish.upper, wish.lower]) around.set(id, [...(around.get(id) ?? []), wish]);
  const settle = (row: readonly Block[]): void => {
    const wanted = row.map((block) => wantedLeft(block, around.get(block.id) ?? [], left));
    const settled = inOrder(row, wanted);
    row.forEach((block, i) => left.set(block.id, present(settled[i], block.id)));
  };
  for (let sweep = 0; sweep < SWEEPS; sweep++)
    for (const row of sweep % 2 === 0 ? rows : rows.toReversed()) settle(row);
  const least = Math.min(...left.values());
  const x = new Map<string, number>();
  let width = 0;
  for (const block of byId.values()) {
    const at = present(left.get(block.id), block.id) - least;
    width = Math.max(width, at + block.width);
    if (block.members.length === 0) x.set(block.id, at + block.width / 2);
    block.members.forEach((member, i) => x.set(member, at + (i + 0.5) * WIDTHS.slot));
  }
  return { x, width };
}

function wishesOf(
  family: Family,
  rowOf: ReadonlyMap<string, number>,
  byId: ReadonlyMap<string, Block>,
  blockOf: ReadonlyMap<string, Block>,
): readonly Wish[] {
  const spot = (symbol: string, row: number): { readonly block: Block; readonly at: number } => {
    const own = present(blockOf.get(symbol), symbol);
    if (own.row === row) return { block: own, at: (own.members.indexOf(symbol) + 0.5) * WIDTHS.slot };
    const block = present(byId.get(passageId(symbol, row)), symbol);
    return { block, at: block.width / 2 };
  };
  const wishes: Wish[] = [];
  for (const mating of family.matings) {
    const band = bandOf(mating, rowOf);
    const kids = mating.kids.map((kid) => spot(kid, band + 1));
    const lower = present(kids[0], mating.key).block;
    const lowerAt = kids.reduce((sum, { at }) => sum + at, 0) / kids.length;
    const anchor = anchorOf(mating, rowOf);
    for (const { symbol } of [...mating.sires, mating.dam]) {
      const { block, at } = spot(symbol, band);
      wishes.push({ upper: block, upperAt: at, lower, lowerAt, weight: symbol === anchor ? 1 : FAR });
      for (let row = present(rowOf.get(symbol), symbol); row < band; row++) {
        const [above, below] = [spot(symbol, row), spot(symbol, row + 1)];
        wishes.push({ upper: above.block, upperAt: above.at, lower: below.block, lowerAt: below.at, weight: FAR });
      }
    }
  }
  return wishes;
}

/** The parent below whom the kids hang: the dam where she stands in the mating's own row, else a sire who does. */
export function anchorOf(mating: Family["matings"][number], rowOf: ReadonlyMap<string, number>): string {
  const band = bandOf(mating, rowOf);
  if (rowOf.get(mating.dam.symbol) === band) return mating.dam.symbol;
  return present(
    mating.sires.find(({ symbol }) => rowOf.get(symbol) === band),
    mating.key,
  ).symbol;
}

/** The weighed mean of where its wishes would have a block; nothing where it has none. */
function wantedLeft(
  block: Block,
  wishes: readonly Wish[],
  left: ReadonlyMap<string, number>,
): { readonly at: number; readonly weight: number } {
  let [sum, weight] = [0, 0];
  for (const wish of wishes) {
    const [own, other, otherBlock] =
      wish.upper === block ? [wish.upperAt, wish.lowerAt, wish.lower] : [wish.lowerAt, wish.upperAt, wish.upper];
    sum += wish.weight * (present(left.get(otherBlock.id), otherBlock.id) + other - own);
    weight += wish.weight;
  }
  const here = present(left.get(block.id), block.id);
  return weight === 0 ? { at: here, weight: FAR } : { at: sum / weight, weight };
}

/**
 * The left ends nearest to what is wanted, by weighed least squares, among those that keep the order and the room between.
 *
 * Pools neighbours that want the wrong order (isotonic regression by pooling adjacent violators).
 *
 * Source: [barlow1972]
 */
export function inOrder(
  row: readonly { readonly width: number }[],
  wanted: readonly { readonly at: number; readonly weight: number }[],
): readonly number[] {
  const shift: number[] = [];
  let run = 0;
  for (const { width } of row) {
    shift.push(run);
    run += width + WIDTHS.between;
  }
  const pools: { sum: number; weight: number; count: number }[] = [];
  wanted.forEach(({ at, weight }, i) => {
    let pool = { sum: weight * (at - (shift[i] ?? 0)), weight, count: 1 };
    for (let last = pools.at(-1); last && last.sum / last.weight >= pool.sum / pool.weight; last = pools.at(-1)) {
      pool = { sum: last.sum + pool.sum, weight: last.weight + pool.weight, count: last.count + pool.count };
      pools.pop();
    }
    pools.push(pool);
  });
  return pools
    .flatMap(({ sum, weight, count }) => Array<number>(count).fill(sum / weight))
    .map((at, i) => at + (shift[i] ?? 0));
}

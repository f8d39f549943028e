import { coordGreedy, decrossTwoLayer, type Graph, graphStratify, sugiyama } from "d3-dag";
import { present } from "@pollard/base";
import type { Family, Mating } from "./family.ts";

/** Widths in the drawing's own units: of one animal with its name, of a line that passes a row, and between two families (a name has room beside its own line). */
export const WIDTHS = { slot: 98, passage: 14, between: 0 } as const;

/** What stays together in a row, in this order: sisters and brothers with their mates from elsewhere; or a line passing. */
export interface Block {
  readonly id: string;
  readonly row: number;
  readonly members: readonly string[];
  readonly width: number;
}

/** The blocks of every row from left to right, and which block leads to which in the row below. */
export interface Rows {
  readonly rows: readonly (readonly Block[])[];
  readonly blockOf: ReadonlyMap<string, Block>;
}

/** The block's id of a parent's line where it passes a row on its way to a lower one. */
export const passageId = (symbol: string, row: number): string => `passage ${row} ${symbol}`;

/** Row in whose space below the mating's lines run: that of the lower parent. */
export function bandOf({ sires, dam }: Mating, rows: ReadonlyMap<string, number>): number {
  return Math.max(...[...sires, dam].map(({ symbol }) => present(rows.get(symbol), symbol)));
}

/**
 * Who stands beside whom.
 *
 * Sisters and brothers stand together in order of birth. Whoever has no parents drawn stands beside its first mate in the
 * same row: a doe to the right of her buck, a buck with one doe to her left. The order of the blocks is d3-dag's, with few
 * crossings; then a sire's block goes left of the dam's wherever he has no other mate, unless that would undo another such
 * pair.
 */
export function rowsOf(family: Family, rowOf: ReadonlyMap<string, number>): Rows {
  const row = (symbol: string): number => present(rowOf.get(symbol), symbol);
  const beside = besides(family, row);
  const blocks: Block[] = [];
  const expand = (id: string): readonly string[] => [
    ...(beside.get(id)?.left ?? []).flatMap(expand),
    id,
    ...(beside.get(id)?.right ?? []).flatMap(expand),
  ];
  const attached = new Set([...beside.values()].flatMap(({ left, right }) => [...left, ...right]));
  const block = (id: string, at: number, members: readonly string[]): void => {
    blocks.push({ id, row: at, members, width: members.length * WIDTHS.slot });
  };
  const inSibship = new Set(family.matings.flatMap(({ kids }) => kids));
  for (const { key, kids } of family.matings) block(key, row(present(kids[0], key)), kids.flatMap(expand));
  for (const id of family.symbols.keys())
    if (!inSibship.has(id) && !attached.has(id)) block(`alone ${id}`, row(id), expand(id));
  const leads = new Map<string, Set<string>>();
  const passages = passagesOf(family, rowOf);
  for (const { symbol, row: at } of passages)
    blocks.push({ id: passageId(symbol, at), row: at, members: [], width: WIDTHS.passage });
  const blockOf = new Map(blocks.flatMap((each) => each.members.map((member) => [member, each] as const)));
  const lead = (from: string, to: string): void => {
    leads.set(to, (leads.get(to) ?? new Set()).add(from));
  };
  const carrier = (symbol: string, at: number): string =>
    row(symbol) === at ? present(blockOf.get(symbol), symbol).id : passageId(symbol, at);
  for (const { symbol, row: at } of passages) lead(carrier(symbol, at - 1), passageId(symbol, at));
  for (const mating of family.matings)
    for (const { symbol } of [...mating.sires, mating.dam]) lead(carrier(symbol, bandOf(mating, rowOf)), mating.key);
  const ordered = underTheirParent(inFewCrossings(blocks, leads), family, blockOf);
  return { rows: sireLeft(ordered, family, blockOf), blockOf };
}

/**
 * Families below one block change places among themselves until they stand in the order of their parents in it: d3-dag knows
 * the block but not who stands where within.
 */
function underTheirParent(
  rows: readonly (readonly Block[])[],
  { matings }: Family,
  blockOf: ReadonlyMap<string, Block>,
): readonly (readonly Block[])[] {
  const damOf = new Map(matings.map(({ key, dam }) => [key, dam.symbol]));
  const placeIn = (block: Block): { readonly above: Block; readonly at: number } | undefined => {
    const dam = damOf.get(block.id);
    const above = dam === undefined ? undefined : blockOf.get(dam);
    return dam === undefined || above?.row !== block.row - 1 ? undefined : { above, at: above.members.indexOf(dam) };
  };
  return rows.map((row) => {
    const waiting = new Map<Block, Block[]>();
    for (const block of row) {
      const place = placeIn(block);
      if (place !== undefined) waiting.set(place.above, [...(waiting.get(place.above) ?? []), block]);
    }
    for (const blocks of waiting.values()) blocks.sort((a, b) => (placeIn(a)?.at ?? 0) - (placeIn(b)?.at ?? 0));
    return row.map((block) => {
      const place = placeIn(block);
      return (place === undefined ? undefined : waiting.get(place.above)?.shift()) ?? block;
    });
  });
}

/** Every row that a parent's line passes between its own row and that of a lower mate, each once. */
function passagesOf(
  { matings }: Family,
  rows: ReadonlyMap<string, number>,
): readonly { symbol: string; row: number }[] {
  const found = new Map<string, { symbol: string; row: number }>();
  for (const mating of matings)
    for (const { symbol } of [...mating.sires, mating.dam])
      for (let row = present(rows.get(symbol), symbol) + 1; row <= bandOf(mating, rows); row++)
        found.set(passageId(symbol, row), { symbol, row });
  return [...found.values()];
}

interface Beside {
  readonly left: string[];
  readonly right: string[];
}

function besides({ symbols, matings }: Family, row: (symbol: string) => number): ReadonlyMap<string, Beside> {
  const born = new Set(matings.flatMap(({ kids }) => kids));
  const matingsOf = new Map<string, number>();
  for (const { sires, dam } of matings)
    for (const { symbol } of [...sires, dam]) matingsOf.set(symbol, (matingsOf.get(symbol) ?? 0) + 1);
  const host = new Map<string, string>();
  const beside = new Map<string, Beside>();
  const isLoose = (id: string): boolean => !born.has(id) && !host.has(id);
  const rootOf = (id: string): string => {
    const next = host.get(id);
    return next === undefined ? id : rootOf(next);
  };
  const attach = (id: string, to: string, side: keyof Beside): void => {
    host.set(id, to);
    const there = beside.get(to) ?? { left: [], right: [] };
    beside.set(to, there);
    there[side].push(id);
  };
  const isUnknown = (id: string): boolean => symbols.get(id)?.kind === "unknown";
  for (const { sires, dam } of matings) {
    const [first] = sires;
    if (first === undefined || row(first.symbol) !== row(dam.symbol)) continue;
    const oneMate = matingsOf.get(first.symbol) === 1 && sires.length === 1;
    if (oneMate && isLoose(first.symbol) && (!isLoose(dam.symbol) || isUnknown(first.symbol))) {
      if (rootOf(dam.symbol) !== first.symbol) attach(first.symbol, dam.symbol, "left");
    } else if (isLoose(dam.symbol) && rootOf(first.symbol) !== dam.symbol) attach(dam.symbol, first.symbol, "right");
  }
  return beside;
}

/** The rows are given; d3-dag takes them as its layers. */
function inTheirRows<B extends Block, L>(all: Graph<B, L>): number {
  let last = 0;
  for (const node of all.nodes()) {
    node.y = node.data.row;
    last = Math.max(last, node.y);
  }
  return last;
}

/** The rows in an order with few crossings. */
function inFewCrossings(
  blocks: readonly Block[],
  leads: ReadonlyMap<string, ReadonlySet<string>>,
): readonly (readonly Block[])[] {
  const height = Math.max(0, ...blocks.map(({ row }) => row));
  const rows: Block[][] = Array.from({ length: height + 1 }, () => []);
  if (blocks.length === 0) return rows;
  const graph = graphStratify()
    .id((block: Block) => block.id)
    .parentIds((block: Block) => leads.get(block.id) ?? [])(blocks);
  const layered = sugiyama()
    .layering(inTheirRows)
    .decross(decrossTwoLayer().passes(8))
    .coord(coordGreedy())
    .nodeSize((node: { readonly data: Block }) => [node.data.width, 1] as const);
  layered(graph);
  const placed = [...graph.nodes()].map(({ data, x }) => ({ data, x }));
  for (const { data } of placed.toSorted((a, b) => a.x - b.x || (a.data.id < b.data.id ? -1 : 1)))
    rows[data.row]?.push(data);
  return rows;
}

/** Moves a block no further than it must, so that a sire with one mate stands left of her. */
function sireLeft(
  rows: readonly (readonly Block[])[],
  { matings }: Family,
  blockOf: ReadonlyMap<string, Block>,
): readonly (readonly Block[])[] {
  const before = new Map<string, Set<string>>();
  const leadsTo = (from: string, to: string): boolean =>
    from === to || [...(before.get(to) ?? [])].some((earlier) => leadsTo(from, earlier));
  for (const { sires, dam } of pairsAlone(matings)) {
    const [sire] = sires;
    const [left, right] = [blockOf.get(sire?.symbol ?? ""), blockOf.get(dam.symbol)];
    if (left === undefined || right === undefined || left.row !== right.row || left === right) continue;
    if (!leadsTo(right.id, left.id)) before.set(right.id, (before.get(right.id) ?? new Set()).add(left.id));
  }
  return rows.map((row) => {
    const left = new Set(row);
    const placed: Block[] = [];
    while (left.size > 0) {
      const next = [...left].find((block) => ![...left].some((other) => before.get(block.id)?.has(other.id)));
      const taken = next ?? present([...left][0], "a block");
      left.delete(taken);
      placed.push(taken);
    }
    return placed;
  });
}

/** Matings of a sire and a dam neither of whom has another mating drawn. */
export function pairsAlone(matings: readonly Mating[]): readonly Mating[] {
  const times = new Map<string, number>();
  for (const { sires, dam } of matings)
    for (const { symbol } of [...sires, dam]) times.set(symbol, (times.get(symbol) ?? 0) + 1);
  return matings.filter(
    ({ sires, dam }) => sires.length === 1 && [...sires, dam].every(({ symbol }) => times.get(symbol) === 1),
  );
}

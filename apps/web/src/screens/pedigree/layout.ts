import { present } from "@pollard/base";
import type { Counted } from "@pollard/advice";
import { anchorOf, acrossOf } from "./places.ts";
import { bandOf, passageId, rowsOf } from "./blocks.ts";
import type { Family, Litter, Mating } from "./family.ts";
import { generationsOf } from "./generations.ts";

/**
 * Heights in the drawing's own units: a symbol, the words below it with room, from where a line goes on below them, lanes of
 * lines between two rows, and what a litter's own line adds.
 */
export const HEIGHTS = { symbol: 40, words: 50, underWords: 34, rail: 15, bar: 9, litter: 18, room: 16 } as const;

/** How far above its kids a litter's line runs. */
const LITTER_ABOVE = 14;

/** A symbol with its place: the middle of it, its row and its number in the row, both from 1. */
export interface Placed {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  readonly row: number;
  readonly number: number;
}

/** One line: plain, for one of several possible sires, or between parents that are related. */
export interface Stroke {
  readonly kind: "plain" | "possible" | "related";
  readonly points: readonly (readonly [number, number])[];
}

/** The drawing: what stands where, in the drawing's own units. */
export interface PedigreeLayout {
  readonly width: number;
  readonly height: number;
  readonly placed: readonly Placed[];
  readonly strokes: readonly Stroke[];
  /** Where lines meet that belong together. */
  readonly joints: readonly (readonly [number, number])[];
  /** How likely each possible sire of a mating is, beside his line. */
  readonly chances: readonly { readonly x: number; readonly y: number; readonly counted: Counted }[];
  /** The year over each litter's line. */
  readonly years: readonly { readonly x: number; readonly y: number; readonly said: string }[];
  /** The middle of each generation's row, the oldest first. */
  readonly rows: readonly number[];
}

interface Rail {
  readonly parent: string;
  readonly band: number;
  readonly kind: Stroke["kind"];
  readonly ends: number[];
}

/** A mating as it is drawn: a line straight from sire to dam who stand side by side, or rails below. */
interface Drawn {
  readonly mating: Mating;
  readonly band: number;
  readonly way: "side-by-side" | "rails";
  /** Where the line to the kids goes down. */
  readonly x: number;
  readonly anchor: string;
}

/** How far apart two lines go down from one parent. */
const ASIDE = 13;

/** A parent's line nearer than this to the middle of its only litter goes straight down to it. */
const STRAIGHT = 4;

/**
 * Gives every symbol and line its place: generations in rows, the oldest above; nothing depends on chance or on the day.
 *
 * Cost: for 300 animals in ten generations see bench/.
 */
export function layoutOf(family: Family): PedigreeLayout {
  const rowOf = generationsOf(family);
  const rows = rowsOf(family, rowOf);
  const { x, width } = acrossOf(family, rowOf, rows);
  const at = (id: string): number => present(x.get(id), id);
  const carrier = (symbol: string, row: number): number =>
    at(rowOf.get(symbol) === row ? symbol : passageId(symbol, row));
  const drawn = drawnMatings(family, rowOf, rows.blockOf, at);
  const rails = railsOf(drawn, rowOf, carrier);
  const railLanes = lanes(
    [...rails.values()].map(({ band, ends }) => ({ band, from: Math.min(...ends), to: Math.max(...ends) })),
  );
  const barSpans = drawn.map(({ band, mating, x: down }) => {
    const ends = [down, ...mating.litters.map((litter) => middleOf(litter, at))];
    return { band, from: Math.min(...ends), to: Math.max(...ends) };
  });
  const barLanes = lanes(barSpans);
  const middles = middlesOf(rows.rows.length, railLanes.used, barLanes.used);
  const below = (row: number): number => present(middles[row], "a row") + HEIGHTS.symbol / 2;
  /** Where a parent's line begins in a row: under its name, or where it comes down from a row above. */
  const startOf = (parent: string, row: number): number =>
    below(row) + (rowOf.get(parent) === row ? HEIGHTS.underWords : 0);
  const railY = new Map(
    [...rails.keys()].map((key, i) => {
      const lane = present(railLanes.of[i], key);
      return [key, below(present(rails.get(key), key).band) + HEIGHTS.words + lane * HEIGHTS.rail] as const;
    }),
  );
  const barY = (i: number): number => {
    const band = present(drawn[i], "a mating").band;
    const under = (railLanes.used.get(band) ?? 0) * HEIGHTS.rail + present(barLanes.of[i], "a lane") * HEIGHTS.bar;
    return below(band) + HEIGHTS.words + HEIGHTS.room / 2 + under;
  };

  const strokes: Stroke[] = [];
  const joints: (readonly [number, number])[] = [];
  const chances: { x: number; y: number; counted: Counted }[] = [];
  const years: { x: number; y: number; said: string }[] = [];
  for (const [key, { parent, band, kind, ends }] of rails) {
    const y = present(railY.get(key), key);
    const start = carrier(parent, band);
    strokes.push({
      kind,
      points: [
        [start, startOf(parent, band)],
        [start, y],
      ],
    });
    strokes.push({
      kind,
      points: [
        [Math.min(...ends), y],
        [Math.max(...ends), y],
      ],
    });
    const next = x.get(passageId(parent, band + 1));
    if (next !== undefined && kind === "plain")
      strokes.push({
        kind,
        points: [
          [next, y],
          [next, below(band + 1)],
        ],
      });
  }
  drawn.forEach(({ mating, band, way, x: down, anchor }, i) => {
    const related = mating.related === "related" ? "related" : "plain";
    const bar = barY(i);
    const middle = present(middles[band], "a row");
    if (way === "side-by-side") {
      const sire = at(present(mating.sires[0], mating.key).symbol);
      const half = HEIGHTS.symbol / 2;
      strokes.push({
        kind: related,
        points: [
          [sire + half, middle],
          [at(mating.dam.symbol) - half, middle],
        ],
      });
      strokes.push({
        kind: "plain",
        points: [
          [down, middle],
          [down, bar],
        ],
      });
    } else {
      const meets = others(mating, anchor).map((parent) => present(railY.get(railKey(parent, band, mating)), parent));
      const first = Math.min(...meets);
      strokes.push({
        kind: related,
        points: [
          [down, startOf(anchor, band)],
          [down, first],
        ],
      });
      strokes.push({
        kind: "plain",
        points: [
          [down, first],
          [down, bar],
        ],
      });
      for (const y of meets) joints.push([down, y]);
      for (const { symbol, counted } of mating.sires)
        if (counted !== undefined) {
          const rail = railY.get(railKey(symbol, band, mating));
          if (rail !== undefined) chances.push({ x: down + 5, y: rail - 2, counted });
        }
    }
    const span = present(barSpans[i], mating.key);
    if (span.from < span.to)
      strokes.push({
        kind: "plain",
        points: [
          [span.from, bar],
          [span.to, bar],
        ],
      });
    const top = present(middles[band + 1], "a row") - HEIGHTS.symbol / 2;
    const line = top - LITTER_ABOVE;
    for (const litter of mating.litters) {
      const middle = middleOf(litter, at);
      const across = litter.kids.map(at);
      strokes.push({
        kind: "plain",
        points: [
          [middle, bar],
          [middle, line],
        ],
      });
      if (litter.kids.length > 1)
        strokes.push({
          kind: "plain",
          points: [
            [Math.min(...across), line],
            [Math.max(...across), line],
          ],
        });
      for (const x of across)
        strokes.push({
          kind: "plain",
          points: [
            [x, line],
            [x, top],
          ],
        });
      if (litter.years !== "") years.push({ x: middle + 5, y: line - 6, said: litter.years });
    }
  });
  return {
    width,
    height: below(middles.length - 1) + HEIGHTS.words + HEIGHTS.room,
    placed: rows.rows.flatMap((blocks, row) =>
      blocks
        .flatMap(({ members }) => members)
        .map((id, i) => ({ id, x: at(id), y: present(middles[row], "a row"), row: row + 1, number: i + 1 })),
    ),
    strokes,
    joints,
    chances,
    years,
    rows: middles,
  };
}

/** The middle of a litter, between its outermost kids. */
function middleOf({ kids }: Litter, at: (id: string) => number): number {
  const across = kids.map(at);
  return (Math.min(...across) + Math.max(...across)) / 2;
}

/** Parents of a mating whose lines come to the one below whom the kids hang. */
const others = (mating: Mating, anchor: string): readonly string[] =>
  [...mating.sires, mating.dam].map(({ symbol }) => symbol).filter((symbol) => symbol !== anchor);

/** Rails of one parent in one band are one line; that of a possible sire is another. */
const railKey = (parent: string, band: number, mating: Mating | undefined): string =>
  `${kindOf(parent, mating)} ${band} ${parent}`;
const kindOf = (parent: string, mating: Mating | undefined): Stroke["kind"] =>
  mating?.sires.some(({ symbol, counted }) => symbol === parent && counted !== undefined) ? "possible" : "plain";

function drawnMatings(
  { matings }: Family,
  rowOf: ReadonlyMap<string, number>,
  blockOf: ReturnType<typeof rowsOf>["blockOf"],
  at: (id: string) => number,
): readonly Drawn[] {
  const mates = new Map<string, number>();
  for (const { sires } of matings) for (const { symbol } of sires) mates.set(symbol, (mates.get(symbol) ?? 0) + 1);
  const goneDown = new Map<string, number>();
  return matings.map((mating) => {
    const band = bandOf(mating, rowOf);
    const [sire] = mating.sires;
    const members = blockOf.get(mating.dam.symbol)?.members ?? [];
    const neighbour = sire !== undefined && members.indexOf(sire.symbol) + 1 === members.indexOf(mating.dam.symbol);
    const together = neighbour && members.includes(sire.symbol) && mating.sires.length === 1;
    if (together && mates.get(sire.symbol) === 1)
      return { mating, band, way: "side-by-side", x: (at(sire.symbol) + at(mating.dam.symbol)) / 2, anchor: "" };
    const anchor = anchorOf(mating, rowOf);
    const before = goneDown.get(anchor) ?? 0;
    goneDown.set(anchor, before + 1);
    const down = at(anchor) - before * ASIDE;
    const [only, second] = mating.litters;
    const middle = only === undefined || second !== undefined ? down : middleOf(only, at);
    return { mating, band, way: "rails", x: Math.abs(down - middle) < STRAIGHT ? middle : down, anchor };
  });
}

function railsOf(
  drawn: readonly Drawn[],
  rowOf: ReadonlyMap<string, number>,
  carrier: (symbol: string, row: number) => number,
): ReadonlyMap<string, Rail> {
  const rails = new Map<string, Rail>();
  const reach = (parent: string, band: number, mating: Mating | undefined, to: number): void => {
    const key = railKey(parent, band, mating);
    const rail = rails.get(key) ?? { parent, band, kind: kindOf(parent, mating), ends: [carrier(parent, band)] };
    rails.set(key, rail);
    rail.ends.push(to);
  };
  for (const { mating, band, way, x, anchor } of drawn) {
    if (way === "side-by-side") continue;
    for (const parent of others(mating, anchor)) {
      for (let row = present(rowOf.get(parent), parent); row < band; row++)
        reach(parent, row, undefined, carrier(parent, row + 1));
      reach(parent, band, mating, x);
    }
  }
  return rails;
}

interface Span {
  readonly band: number;
  readonly from: number;
  readonly to: number;
}

/** A lane for every span, such that two that share a stretch of one band never share a lane; few lanes. */
function lanes(spans: readonly Span[]): { readonly of: readonly number[]; readonly used: ReadonlyMap<number, number> } {
  const of = Array<number>(spans.length).fill(0);
  const used = new Map<number, number>();
  const ends = new Map<number, number[]>();
  const byStart = spans.map((span, i) => ({ span, i })).sort((a, b) => a.span.from - b.span.from || a.i - b.i);
  for (const { span, i } of byStart) {
    const taken = ends.get(span.band) ?? [];
    ends.set(span.band, taken);
    const free = taken.findIndex((end) => end < span.from - 2);
    const lane = free < 0 ? taken.length : free;
    taken[lane] = span.to;
    of[i] = lane;
    used.set(span.band, taken.length);
  }
  return { of, used };
}

/** The middle of each row, with room below it for as many lanes as run there. */
function middlesOf(
  count: number,
  rails: ReadonlyMap<number, number>,
  bars: ReadonlyMap<number, number>,
): readonly number[] {
  let y = HEIGHTS.room * 1.5 + HEIGHTS.symbol / 2;
  return Array.from({ length: count }, (_, row) => {
    const middle = y;
    y += HEIGHTS.symbol + HEIGHTS.words + HEIGHTS.litter + HEIGHTS.room * 1.5;
    y += (rails.get(row) ?? 0) * HEIGHTS.rail + (bars.get(row) ?? 0) * HEIGHTS.bar;
    return middle;
  });
}

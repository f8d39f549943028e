import type { HerdBookLine } from "@pollard/advice";
import type { Family, FamilySymbol } from "./family.ts";
import type { PedigreeLayout } from "./layout.ts";

/** How a symbol is filled: by a genotype that is as good as known, by the chances of each, or not at all. */
export type Fill =
  | { readonly way: "known"; readonly genotype: "PP" | "Pp" | "pp" }
  | { readonly way: "inferred"; readonly pp: number; readonly Pp: number }
  | { readonly way: "not-shown" };

/** What one symbol's fill says; parts add up to at most 1, the rest being two polled genes. */
export function fillOf(line: HerdBookLine | undefined): Fill {
  const genotype = line?.genotype;
  if (genotype === undefined) return { way: "not-shown" };
  const { belief, surety } = genotype;
  if (surety === "proven" || surety === "near-sure") {
    const [best = "Pp"] = (["PP", "Pp", "pp"] as const).toSorted((a, b) => belief[b] - belief[a]);
    return { way: "known", genotype: best };
  }
  return { way: "inferred", pp: belief.pp, Pp: belief.Pp };
}

const ROMAN = [
  ["X", 10],
  ["IX", 9],
  ["V", 5],
  ["IV", 4],
  ["I", 1],
] as const;

/**
 * A generation's number as pedigrees write it.
 *
 * @example
 * roman(14); // "XIV"
 */
export function roman(n: number): string {
  const fits = ROMAN.find(([, value]) => value <= n);
  return fits === undefined ? "" : fits[0] + roman(n - fits[1]);
}

/** Where a key leads from a symbol; `undefined` where it leads nowhere. */
export function symbolAfter(
  pressed: { readonly key: string; readonly shiftKey: boolean },
  from: string,
  { matings, focus, symbols }: Family,
  { placed }: PedigreeLayout,
): string | undefined {
  const here = placed.find(({ id }) => id === from);
  const born = matings.find(({ kids }) => kids.includes(from));
  const own = matings.filter(({ sires, dam }) => [...sires, dam].some(({ symbol }) => symbol === from));
  switch (pressed.key) {
    case "ArrowUp":
      return pressed.shiftKey ? born?.dam.symbol : born?.sires[0]?.symbol;
    case "ArrowDown":
      return own[0]?.kids[0];
    case "ArrowLeft":
    case "ArrowRight": {
      const step = pressed.key === "ArrowLeft" ? -1 : 1;
      return placed.find(({ row, number }) => row === here?.row && number === here.number + step)?.id;
    }
    case "m":
    case "M": {
      const mate = own[0];
      return mate?.dam.symbol === from ? mate.sires[0]?.symbol : mate?.dam.symbol;
    }
    case "Home":
      return focus ?? [...symbols.keys()][0];
    default:
      return undefined;
  }
}

/** Sizes that the drawing is shown in, as shares of its own. */
export const ZOOMS = [0.25, 0.35, 0.5, 0.7, 1, 1.4, 2, 2.8] as const;

/** The next size up or down; the ends hold. */
export function zoomAfter(zoom: number, step: "bigger" | "smaller"): number {
  const fits =
    step === "bigger" ? ZOOMS.find((each) => each > zoom + 0.01) : ZOOMS.findLast((each) => each < zoom - 0.01);
  return fits ?? zoom;
}

/** Widest strip that can be read on a sheet of paper, in the drawing's own units, and what two strips share. */
const STRIP = { width: 1300, shared: 100 } as const;

/**
 * The strips that a drawing of this width is cut into on paper: as few as can be read, all alike, each beginning a little
 * before the last one ended.
 */
export function stripsOf(width: number): readonly { readonly from: number; readonly width: number }[] {
  const count = Math.max(1, Math.ceil((width - STRIP.shared) / (STRIP.width - STRIP.shared)));
  const each = (width + (count - 1) * STRIP.shared) / count;
  return Array.from({ length: count }, (_, i) => ({ from: i * (each - STRIP.shared), width: each }));
}

/** One generation of the list that holds the same facts: who has no parents drawn, then the kids of each mating. */
export interface ListedGeneration {
  readonly row: number;
  readonly founders: readonly FamilySymbol[];
  readonly matings: readonly { readonly mating: Family["matings"][number]; readonly kids: readonly FamilySymbol[] }[];
}

/**
 * The drawing as a list for whoever listens.
 *
 * Shape: every symbol once, a parent nobody knows left out; generations from the oldest, each from left to right.
 */
export function listed({ symbols, matings }: Family, { placed, rows }: PedigreeLayout): readonly ListedGeneration[] {
  const born = new Map(matings.flatMap((mating) => mating.kids.map((kid) => [kid, mating] as const)));
  return rows.map((_, i) => {
    const here = placed.filter(({ row }) => row === i + 1).flatMap(({ id }) => symbols.get(id) ?? []);
    const ofHere = [...new Set(here.flatMap(({ id }) => born.get(id) ?? []))];
    return {
      row: i + 1,
      founders: here.filter(({ id, kind }) => !born.has(id) && kind !== "unknown"),
      matings: ofHere.map((mating) => ({ mating, kids: here.filter(({ id }) => born.get(id) === mating) })),
    };
  });
}

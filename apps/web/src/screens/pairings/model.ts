import type { AnimalRef, PairingsModel, PairModel } from "@pollard/advice";
import { countedOf, recounted } from "@pollard/advice";

/** How a cell of the grid stands: chosen by the plan, open, or closed by a rule. */
export type CellState = "chosen" | "open" | "closed";

/** One pair in the grid: of 20 kids so many horned. */
export interface PairCell {
  readonly doe: AnimalRef;
  readonly buck: AnimalRef;
  readonly horned: number;
  readonly state: CellState;
}

/** The one denominator of the grid, and of a pair's own page. */
export const OF = 20;

/** The denominator of the line on intersex alone, where one kid in fifty must still be seen. */
const OF_INTERSEX = 100;

/** A pair with its chances counted on one denominator, but for the chance of an intersex kid. */
export const countedPair = (pair: PairModel): PairModel => ({
  ...pair,
  hornedCounted: recounted(pair.hornedCounted, pair.horned, OF),
  intersexCounted: recounted(pair.intersexCounted, pair.intersex, OF_INTERSEX),
});

/** What the two may be, as far as it can be counted: what is nearer to none than to one is left out. */
export const doubtsShown = (pair: PairModel): PairModel["maybe"] =>
  pair.maybe.filter(({ chance }) => countedOf(chance, OF).count > 0);

/** The grid as rows of cells, by doe, then buck. */
export function gridOf(model: PairingsModel): readonly (readonly PairCell[])[] {
  const chosen = new Map(
    model.plan.kind === "plan" ? model.plan.does.map(({ doe, buck }) => [doe.id, buck?.id] as const) : [],
  );
  return model.pairs.map((row) =>
    row.map((pair) => ({
      doe: pair.doe,
      buck: pair.buck,
      horned: countedOf(pair.horned, OF).count,
      state: stateOf(pair, chosen.get(pair.doe.id)),
    })),
  );
}

function stateOf(pair: PairModel, chosen: string | undefined): CellState {
  if (chosen === pair.buck.id) return "chosen";
  return pair.closedBy.length > 0 || pair.fertile === 0 ? "closed" : "open";
}

/** Which cell the arrow keys lead to; the edges hold. */
export function cellAfter(
  key: string,
  at: { readonly row: number; readonly column: number },
  size: { readonly rows: number; readonly columns: number },
): { readonly row: number; readonly column: number } | undefined {
  const within = (n: number, most: number): number => Math.max(0, Math.min(most - 1, n));
  switch (key) {
    case "ArrowUp":
      return { ...at, row: within(at.row - 1, size.rows) };
    case "ArrowDown":
      return { ...at, row: within(at.row + 1, size.rows) };
    case "ArrowLeft":
      return { ...at, column: within(at.column - 1, size.columns) };
    case "ArrowRight":
      return { ...at, column: within(at.column + 1, size.columns) };
    case "Home":
      return { ...at, column: 0 };
    case "End":
      return { ...at, column: size.columns - 1 };
    default:
      return undefined;
  }
}

/** What the keeper wishes for a pair, as it stands in the settings. */
export type Wished = "must" | "never" | "free";

/** The bucks that a doe is never to go to, as the settings hold them: ids split by commas. */
export function neverText(known: readonly string[], buck: string, wish: Wished): string {
  const others = known.filter((id) => id !== buck);
  return (wish === "never" ? [...others, buck] : others).join(",");
}

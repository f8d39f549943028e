/** Where the word for a day stands above its mark: in which row, from 0 next to the drawing, and to which side of the mark. */
export interface DayLabel {
  readonly row: number;
  readonly anchor: "start" | "middle" | "end";
}

/**
 * Places for the words above marks, so that no word touches another and no mark runs through one.
 *
 * Marks close together part their words: the outermost two face away from each other, those within them stand a row higher.
 *
 * Shape: `places` rising, in the unit of `width`, the widest word's; one label a place.
 */
export function dayLabels(places: readonly number[], width: number): readonly DayLabel[] {
  const chains: number[][] = [];
  for (const place of places) {
    const chain = chains.at(-1);
    const last = chain?.at(-1);
    if (chain === undefined || last === undefined || place - last >= 2 * width) chains.push([place]);
    else chain.push(place);
  }
  return chains.flatMap(({ length }) =>
    Array.from({ length }, (_, i) => {
      const fromEnd = length - 1 - i;
      return { row: Math.min(i, fromEnd), anchor: i < fromEnd ? "end" : i > fromEnd ? "start" : "middle" } as const;
    }),
  );
}

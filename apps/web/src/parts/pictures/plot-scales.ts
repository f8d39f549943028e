import { scaleLinear } from "d3-scale";

/** Where the ticks of an axis stand, and how a value is placed between its ends. */
export interface Axis {
  readonly ticks: readonly number[];
  place(value: number): number;
}

/**
 * An axis from nothing to at least `most`, with few round ticks; whole ones where only whole numbers make sense.
 *
 * Shape: places run from `from` to `to`; the last tick is at or beyond `most`.
 */
export function axisFromZero(
  most: number,
  { from, to, whole }: { readonly from: number; readonly to: number; readonly whole?: "whole" },
): Axis {
  const scale = scaleLinear()
    .domain([0, most > 0 ? most : 1])
    .range([from, to])
    .nice(4);
  const ticks = scale.ticks(4);
  return { ticks: whole === undefined ? ticks : ticks.filter(Number.isInteger), place: (value) => scale(value) };
}

/** An axis of whole numbers from the first to the last, some of them left out where they would crowd. */
export function axisOfWholes(
  first: number,
  last: number,
  { from, to, most }: { readonly from: number; readonly to: number; readonly most: number },
): Axis {
  const scale = scaleLinear()
    .domain([first, Math.max(last, first + 1)])
    .range([from, to]);
  return {
    ticks: scale.ticks(most).filter((tick) => Number.isInteger(tick) && tick <= last),
    place: (value) => scale(value),
  };
}

/** The units that a weight is typed and said in. What is kept is always kilograms. */
export const WEIGHT_UNITS = ["kg", "lb"] as const;
export type WeightUnit = (typeof WEIGHT_UNITS)[number];

/**
 * What a pound weighs, kg, by its definition: exact.
 *
 * Source: [pound1959]
 */
export const KG_A_POUND = 0.45359237;

/** A weight in a unit. */
export const weightIn = (kg: number, unit: WeightUnit): number => (unit === "kg" ? kg : kg / KG_A_POUND);

/** Decimals of a weight that are typed and said, in either unit: ten grams, or a sixth of an ounce. Judgement. */
const WEIGHT_DECIMALS = 2;

/**
 * What is kept of a weight typed in a unit.
 *
 * Whole grams: half a gram is less than half of the finest step in either unit, so what was typed comes back from
 * `typedWeight` to its last decimal, and no more digits are kept than a scale can mean.
 *
 * Units:   kilograms out, to the gram.
 * @example
 * keptKg(7.9, "lb") // 3.583
 */
export const keptKg = (typed: number, unit: WeightUnit): number =>
  Math.round(typed * (unit === "kg" ? 1 : KG_A_POUND) * 1000) / 1000;

/**
 * A kept weight as it would be typed in a unit: to the hundredth.
 *
 * @example
 * typedWeight(3.583, "lb") // 7.9
 */
export const typedWeight = (kg: number, unit: WeightUnit): number =>
  Math.round(weightIn(kg, unit) * 10 ** WEIGHT_DECIMALS) / 10 ** WEIGHT_DECIMALS;

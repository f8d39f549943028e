import type { WeightUnit } from "@pollard/base";
import { type WeightWords, weightWords } from "../weights.ts";

/** Weights in a unit. */
export const weights = (unit: WeightUnit): WeightWords =>
  weightWords(unit, { number: (n, places) => n.toFixed(places), to: "to", aDay: "a day" });

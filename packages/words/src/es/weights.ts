import type { WeightUnit } from "@pollard/base";
import { type WeightWords, weightWords } from "../weights.ts";
import { decimal } from "./numbers.ts";

/** Pesos en una unidad. */
export const weights = (unit: WeightUnit): WeightWords =>
  weightWords(unit, { number: decimal, to: "a", aDay: "al día" });

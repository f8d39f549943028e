import { keptKg, type WeightUnit } from "@pollard/base";
import { HEAVIEST_KG } from "@pollard/records";
import { typedNumber } from "./typed-number.ts";

/** A weight as it stands in a field: the text, and the unit in which it was typed. */
export interface TypedWeight {
  readonly text: string;
  readonly unit: WeightUnit;
}

/** What a typed weight comes to; kilograms, as they are kept. */
export type ReadWeight =
  | { readonly state: "empty" | "unclear" | "heavy" }
  | { readonly state: "weight"; readonly kg: number };

/** Reads a weight as it was typed, in the unit in which it was typed. */
export function readWeight({ text, unit }: TypedWeight): ReadWeight {
  const typed = typedNumber(text);
  if (typed.state !== "number") return { state: typed.state };
  const kg = keptKg(typed.value, unit);
  if (kg <= 0) return { state: "unclear" };
  return kg > HEAVIEST_KG ? { state: "heavy" } : { state: "weight", kg };
}

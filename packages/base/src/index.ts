// Answers and failures
export { Bug, present, unreachable } from "./bug.ts";
export { err, ok, type Result } from "./result.ts";
// Values
export type { Brand } from "./brand.ts";
export { addDays, type Day, day, daysFrom, parseDay, weekday } from "./day.ts";
export { fromLogOdds, logOdds, type Probability, probability } from "./probability.ts";
export type { Sourced } from "./sourced.ts";
export {
  keptKg,
  typedWeight,
  WEIGHT_UNITS,
  weightIn,
  type WeightUnit,
} from "./weight.ts";
// What is worked out once
export { oncePer } from "./once-per.ts";
// Chance
export { type Random, seededRandom } from "./random.ts";

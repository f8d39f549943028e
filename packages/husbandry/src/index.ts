// Words
export {
  BUD_FEELS,
  type BudFeel,
  CROWNS,
  type Crown,
  GROWTHS,
  type Growth,
  type HeadSigns,
  KNOB_SHAPES,
  type KnobShape,
  NO_FINDINGS,
  type NoFinding,
  type Sided,
  SKIN_HOLDS,
  type SkinHold,
  WHORLS,
  type Whorl,
} from "./head-signs.ts";
export { BUCK_SHARE, GROWTH_SEXES, type GrowthSex, KID_SEXES, type KidSex } from "./kid-sex.ts";
// Reading a head
export * from "./head-tables.ts";
export {
  type HeadKid,
  type HeadNetwork,
  type HeadReading,
  type HeadState,
  headNetwork,
  hornsWeight,
  logLikelihoods,
  SIGNS,
  type Sighting,
  type Sign,
  seeRow,
  sightingsOf,
} from "./head-network.ts";
export * from "./head-reading.ts";
export * from "./head-forecast.ts";
// Learning and keeping the score
export { dirichletDraw } from "./dirichlet.ts";
export type { LearningKid } from "./prepared-kid.ts";
export * from "./head-learning.ts";
export * from "./head-simulation.ts";
export * from "./forecast-score.ts";
export * from "./head-score.ts";
// What grew
export * from "./head-outcome.ts";
export * from "./regrowth.ts";
// Days
export * from "./vet-window.ts";
export * from "./gestation.ts";
export * from "./litter.ts";
export * from "./pregnancy.ts";
export * from "./pregnancy-check.ts";
// Growth and care
export * from "./growth.ts";
export * from "./growth-ninety-days.ts";
export * from "./care-cautions.ts";
export * from "./care-rules.ts";
export * from "./care-rules-visitors.ts";

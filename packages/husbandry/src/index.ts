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
} from "./heads/head-signs.ts";
export { BUCK_SHARE, GROWTH_SEXES, type GrowthSex, KID_SEXES, type KidSex } from "./kid-sex.ts";
// Reading a head
export * from "./heads/head-tables.ts";
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
} from "./heads/head-network.ts";
export * from "./heads/head-reading.ts";
export * from "./heads/head-forecast.ts";
// Learning and keeping the score
export { dirichletDraw } from "./dirichlet.ts";
export type { LearningKid } from "./learning/prepared-kid.ts";
export * from "./learning/head-learning.ts";
export * from "./learning/head-simulation.ts";
export * from "./learning/forecast-score.ts";
export * from "./learning/head-score.ts";
// What grew
export * from "./heads/head-outcome.ts";
export * from "./learning/regrowth.ts";
// Days
export * from "./vet-window.ts";
export * from "./pregnancy/gestation.ts";
export * from "./pregnancy/litter.ts";
export * from "./pregnancy/pregnancy.ts";
export * from "./pregnancy/pregnancy-check.ts";
// Growth and care
export * from "./care/growth.ts";
export * from "./care/growth-ninety-days.ts";
export * from "./care/care-cautions.ts";
export * from "./care/care-rules.ts";
export * from "./care/care-rules-visitors.ts";

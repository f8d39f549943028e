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
export type { GrowthSex, KidSex } from "./kid-sex.ts";
// Reading a head
export { BUD_AGES, HEAD_ROWS, DEFAULT_HEAD_TABLES, chancesFrom, meanChances } from "./heads/head-tables.ts";
export type * from "./heads/head-tables.ts";
export { headNetwork, logLikelihoods, SIGNS } from "./heads/head-network.ts";
export type * from "./heads/head-network.ts";
export * from "./heads/head-reading.ts";
export * from "./heads/head-forecast.ts";
// Learning and keeping the score
export { dirichletDraw } from "./dirichlet.ts";
export type { LearningKid } from "./learning/prepared-kid.ts";
export * from "./learning/head-learning.ts";
export * from "./learning/head-simulation.ts";
export { type CalibrationBin, type Call, type Score, wilson } from "./learning/forecast-score.ts";
export { headScores, type HeadScores, hornsByThumb, type ScoredKid } from "./learning/head-score.ts";
// What grew
export * from "./heads/head-outcome.ts";
export { TECHNIQUES, REGROWTHS, learnRegrowth } from "./learning/regrowth.ts";
export type * from "./learning/regrowth.ts";
// Days
export { type VetFigures, type VetWindow, type WindowByClocks, windowOf, type WindowState } from "./vet-window.ts";
export { expectedDueDay, lengthPlausibility, serviceLikelihood } from "./pregnancy/gestation.ts";
export type * from "./pregnancy/gestation.ts";
export { type LitterFacts, litterSizes } from "./pregnancy/litter.ts";
export { pregnancyOf } from "./pregnancy/pregnancy.ts";
export type * from "./pregnancy/pregnancy.ts";
export type { CheckMethod, CheckResult } from "./pregnancy/pregnancy-check.ts";
// Growth and care
export { expectedBirthKg, kidGrowth } from "./care/growth.ts";
export type * from "./care/growth.ts";
export { ninetyDayKg, type NinetyDayKid } from "./care/growth-ninety-days.ts";
export * from "./care/care-cautions.ts";
export * from "./care/care-rules.ts";
export * from "./care/care-rules-visitors.ts";

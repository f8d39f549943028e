// A kid's head
export { badLosses, DEFAULT_LOSSES, type KidLosses } from "./kid-losses.ts";
export {
  decideKid,
  type KidDecision,
  type WeighedKidAction,
} from "./kid-decision.ts";
export type { KidAction, KidQuestion } from "./kid-endings.ts";
export {
  followPolicy,
  KID_POLICIES,
  type KidCourse,
  type KidPolicy,
  type TrialFarm,
  type TrialKid,
  trialKid,
} from "./kid-policies.ts";
export type { Prospect } from "./look-ahead.ts";
// Programs too large to look through
export { loadSolver, type ProgramAnswer, type ProgramLimits, type ProgramSolver } from "./solver.ts";
// Vet days
export { planVetDays, type VetDaysAnswer, type VisitPlan, weighVisits } from "./vet-days/vet-days.ts";
export type { ComingKids, VetDaysQuestion } from "./vet-days/vet-days-question.ts";
export { type LimitedPlan, planVetDaysWithin, type VisitLimits } from "./vet-days/vet-days-within.ts";
export { visitHeads, type VisitHeads } from "./vet-days/visit-heads.ts";
// Pairings
export { type CommonAncestor, commonAncestors } from "./pairing/common-ancestors.ts";
export { kidCounts, type KidCounts, type KidShares, kidsOf, type Mating } from "./pairing/pair.ts";
export { pairOutlook, type PairOutlook, type PairParent } from "./pairing/pair.ts";
export { AS_GOOD, type NextPlan, type Plan, type PlanAnswer, planPairings, type RulePrice } from "./pairing/plan.ts";
export { brokenRules, type BuckOf, cropKinship, type PlanLoss, planLoss } from "./pairing/plan-loss.ts";
export {
  type PairWish,
  type PlanBuck,
  type PlanPair,
  type PlanQuestion,
  type PlanRule,
  planRules,
} from "./pairing/plan-question.ts";
export { type PairReason, whyNot } from "./pairing/plan-reason.ts";
export { checkPlan, type PlanCheck, type PlanCheckQuestion } from "./pairing/plan-check.ts";
// Forecasts
export type { BreedingPolicy, BuckPlace, ForecastWorld } from "./forecast/breeding-policy.ts";
export {
  forecast,
  type ForecastAnimal,
  type ForecastHerd,
  type ForecastQuestion,
  type ForecastRun,
  type PolicyForecast,
  type Spread,
  startForecast,
  type YearSpread,
} from "./forecast/forecast.ts";
export { type HerdDraw, herdDraw } from "./forecast/herd-draws.ts";
export { YEAR_MEASURES, type YearTally } from "./forecast/year.ts";
// The worth of a test
export {
  beforeTests,
  type TestOutcome,
  testPairs,
  type TestWorth,
  testWorth,
  type TestWorthQuestion,
  type TestWorthStart,
} from "./test-worth.ts";

// A kid's head
export { badLosses, DEFAULT_LOSSES, type KidLosses } from "./kid/kid-losses.ts";
export {
  decideKid,
  type KidDecision,
  type WeighedKidAction,
} from "./kid/kid-decision.ts";
export type { KidAction, KidQuestion } from "./kid/kid-endings.ts";
export {
  followPolicy,
  KID_POLICIES,
  type KidCourse,
  type KidPolicy,
  type TrialFarm,
  type TrialKid,
  trialKid,
} from "./kid/kid-policies.ts";
export type { Prospect } from "./kid/look-ahead.ts";
// Programs too large to look through
export { loadSolver, type ProgramAnswer, type ProgramLimits, type ProgramSolver } from "./solver.ts";
// Vet days
export { planVetDays, type VetDaysAnswer, type VisitPlan } from "./vet-days/vet-days.ts";
export type { ComingKids, VetDaysQuestion } from "./vet-days/vet-days-question.ts";
export { type LimitedPlan, planVetDaysWithin, type VisitLimits } from "./vet-days/vet-days-within.ts";
export { type ParentWorld, visitHeads, type VisitHeads } from "./vet-days/visit-heads.ts";
// Pairings
export { type CommonAncestor, commonAncestors } from "./pairing/common-ancestors.ts";
export * from "./pairing/pair.ts";
export { bestPlan, type NextPlan, type Plan, type PlanAnswer, planPairings, type RulePrice } from "./pairing/plan.ts";
export { brokenRules, type BuckOf, planLoss, type PlanLoss } from "./pairing/plan-loss.ts";
export { planRules } from "./pairing/plan-question.ts";
export type * from "./pairing/plan-question.ts";
export { type PairReason, whyNot } from "./pairing/plan-reason.ts";
export { checkPlan, type PlanCheck, type PlanCheckQuestion } from "./pairing/plan-check.ts";
// Forecasts
export type * from "./forecast/breeding-policy.ts";
export { startForecast, forecast } from "./forecast/forecast.ts";
export type * from "./forecast/forecast.ts";
export { type HerdDraw, herdDraw, type HerdDrawQuestion } from "./forecast/herd-draws.ts";
export type { YearTally } from "./forecast/year.ts";
// The worth of a test
export * from "./test-worth.ts";

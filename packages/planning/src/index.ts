// A kid's head
export { badLosses, DEFAULT_LOSSES, type KidLosses } from "./kid-losses.ts";
export {
  decideKid,
  type KidAction,
  type KidDecision,
  type KidQuestion,
  type WeighedKidAction,
} from "./kid-decision.ts";
export type { Prospect } from "./look-ahead.ts";
// Programs too large to look through
export { loadSolver, type ProgramAnswer, type ProgramLimits, type ProgramSolver } from "./solver.ts";

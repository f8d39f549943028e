import { Bug, present, type Sourced } from "@pollard/base";
import type { ProgramSolver } from "../solver.ts";
import { type BuckOf, brokenRules, crossKinship, cropKinship, type PlanLoss, planLoss } from "./plan-loss.ts";
import { planFrom, planProgram, type PlanProgramParts } from "./plan-program.ts";
import { forbids, type PlanQuestion, type PlanRule, planRules } from "./plan-question.ts";
import { smallestConflict } from "./plan-conflict.ts";

/** A plan and what it is expected to cost. */
export interface Plan {
  readonly buckOf: BuckOf;
  readonly loss: PlanLoss;
}

/** A plan that comes after the best, and whether the difference means anything. */
export interface NextPlan extends Plan {
  /** How much more it costs than the best. */
  readonly more: number;
  readonly asGood: boolean;
  /** Does that go to another buck than in the best plan, by their place. */
  readonly differs: readonly number[];
}

/** What a rule costs: how much the best plan would gain without it. */
export interface RulePrice {
  readonly rule: PlanRule;
  readonly gain: number;
}

/**
 * The best plan and what stands around it; or, where the rules contradict each other, the fewest of them that do.
 *
 * Shape: `next` by rising loss, each differing from the best and from each other in at least a tenth of the does. `prices`
 *        only of rules that cost something, the dearest first. `gap`: the most by which a better plan could beat it.
 */
export type PlanAnswer =
  | {
      readonly kind: "plan";
      readonly best: Plan;
      readonly gap: number;
      readonly next: readonly NextPlan[];
      readonly prices: readonly RulePrice[];
    }
  | { readonly kind: "no-plan"; readonly conflict: readonly PlanRule[] };

/** Differences that nobody could notice, in the unit of the losses: as good as equal. */
export const AS_GOOD: Sourced<number> = { value: 0.02, source: "judgement", checked: "judgement" };

/** How many next-best plans are told, and in how large a share of the does each must differ. */
const NEXT_PLANS = 3;
const REALLY_DIFFERS = 0.1;
/** Most tangents to the crop's kinship, and the gap at which no more are drawn. */
const TANGENTS = 12;
const GAP = 1e-6;

/**
 * The best buck for every doe under all rules, to proven optimality.
 *
 * A mixed-integer program, solved by HiGHS. The weight on the crop's kinship makes it convex: it is bounded from below by
 * tangents, drawn anew at each plan found, until plan and bound meet; what is left between them is told as the gap.
 *
 * Units:  with `around` "nothing" the next plans and the prices are left out, for a first answer in a large herd.
 * Cost:   some milliseconds for a small herd; seconds for 300 does by 10 bucks, and some tens of plans around it.
 * Source: rules PA-4 to PA-8.
 */
export function planPairings(
  question: PlanQuestion,
  solver: ProgramSolver,
  around: "everything" | "nothing" = "everything",
): PlanAnswer {
  const rules = planRules(question);
  const found = bestPlan(question, rules, solver);
  if (found === undefined) return { kind: "no-plan", conflict: smallestConflict(question, rules, solver) };
  const { plan: best, gap } = found;
  return {
    kind: "plan",
    best,
    gap,
    next: around === "nothing" ? [] : nextPlans(question, rules, best, solver),
    prices: around === "nothing" ? [] : rulePrices(question, rules, best, solver),
  };
}

/** The best plan that keeps these rules; nothing if none does. */
export function bestPlan(
  question: PlanQuestion,
  held: readonly PlanRule[],
  solver: ProgramSolver,
  apart: PlanProgramParts["apart"] = [],
): { readonly plan: Plan; readonly gap: number } | undefined {
  const tangents: BuckOf[] = [];
  let best: Plan | undefined;
  let gap = Number.POSITIVE_INFINITY;
  for (let round = 0; round < TANGENTS && gap > GAP; round++) {
    const buckOf = solved(question, { held, apart, tangents }, solver);
    if (buckOf === undefined) return undefined;
    const plan = { buckOf, loss: planLoss(question, buckOf) };
    const bound = plan.loss.total - (question.crop?.weight ?? 0) * slack(question, buckOf, tangents);
    if (best === undefined || plan.loss.total < best.loss.total) best = plan;
    gap = Math.max(0, best.loss.total - bound);
    tangents.push(buckOf);
  }
  return { plan: present(best, "a plan"), gap };
}

/** How far the crop's kinship at a plan lies above the highest of the tangents (0 where it touches one). */
function slack(question: PlanQuestion, plan: BuckOf, tangents: readonly BuckOf[]): number {
  if (question.crop === undefined) return 0;
  const below = tangents.map((at) => 2 * crossKinship(question, at, plan) - cropKinship(question, at));
  return cropKinship(question, plan) - Math.max(0, ...below);
}

/** The plan that solves the program; nothing if none does. */
function solved(question: PlanQuestion, parts: PlanProgramParts, solver: ProgramSolver): BuckOf | undefined {
  const answer = solver.solve(planProgram(question, parts));
  if (answer.kind === "infeasible") return undefined;
  const plan = planFrom(question, answer);
  if (plan !== undefined) return kept(question, parts, plan);
  const again = planFrom(question, solver.solve(planProgram(question, { ...parts, whole: "all" })));
  return kept(question, parts, present(again, "a whole plan"));
}

/** The plan itself, once looked through: a plan that breaks a rule is our mistake or the solver's, never an answer. */
function kept(question: PlanQuestion, { held }: PlanProgramParts, plan: BuckOf): BuckOf {
  const [broken] = brokenRules(question, held, plan);
  if (broken !== undefined) throw new Bug(`plan breaks ${JSON.stringify(broken)}`);
  return plan;
}

/** The next-best plans that really differ. */
function nextPlans(
  question: PlanQuestion,
  held: readonly PlanRule[],
  best: Plan,
  solver: ProgramSolver,
): readonly NextPlan[] {
  const does = Math.max(1, Math.ceil(question.does.length * REALLY_DIFFERS));
  const plans: NextPlan[] = [];
  while (plans.length < NEXT_PLANS) {
    const apart = [best, ...plans].map((plan) => ({ plan: plan.buckOf, does }));
    const found = bestPlan(question, held, solver, apart);
    if (found === undefined) break;
    const more = found.plan.loss.total - best.loss.total;
    plans.push({
      ...found.plan,
      more,
      asGood: more <= AS_GOOD.value,
      differs: found.plan.buckOf.flatMap((b, d) => (b === best.buckOf[d] ? [] : [d])),
    });
  }
  return plans;
}

/** What each rule costs by itself. That every doe is served is the task, and costs nothing. */
function rulePrices(
  question: PlanQuestion,
  rules: readonly PlanRule[],
  best: Plan,
  solver: ProgramSolver,
): readonly RulePrice[] {
  return rules
    .filter((rule) => mayCost(question, rules, best, rule))
    .flatMap((rule) => {
      const without = bestPlan(
        question,
        rules.filter((other) => other !== rule),
        solver,
      );
      const gain = best.loss.total - present(without, "a plan with a rule less").plan.loss.total;
      return gain > AS_GOOD.value ? [{ rule, gain }] : [];
    })
    .sort((a, b) => b.gain - a.gain);
}

/**
 * Whether a rule can cost anything at all. A rule that closes only pairs which others close too cannot; nor can a limit that
 * is not reached, where no buck has a price of his own: then the choices are a linear program, in which a slack limit is
 * as good as none.
 */
function mayCost(question: PlanQuestion, rules: readonly PlanRule[], best: Plan, rule: PlanRule): boolean {
  const { does, bucks, crop } = question;
  switch (rule.kind) {
    case "serve":
      return false;
    case "most": {
      const b = bucks.findIndex(({ id }) => id === rule.buck);
      const isSlack = best.buckOf.filter((chosen) => chosen === b).length < rule.most;
      return !isSlack || crop !== undefined || bucks.some(({ cost }) => cost !== 0);
    }
    case "least":
    case "must":
      return true;
    default: {
      const others = rules.filter((other) => other !== rule);
      return does.some((_, d) =>
        bucks.some((_, b) => forbids(question, rule, d, b) && !others.some((o) => forbids(question, o, d, b))),
      );
    }
  }
}

import { present } from "@pollard/base";
import type { ProgramSolver } from "../solver.ts";
import { AS_GOOD, bestPlan, type Plan } from "./plan.ts";
import { pairLoss } from "./plan-loss.ts";
import { forbids, type PlanQuestion, type PlanRule, planRules } from "./plan-question.ts";

/**
 * Why a doe does not go to another buck.
 *
 * `forbidden`: these rules close the pair, each by itself. `no-plan`: with this pair no plan keeps the rules.
 * `as-good`: nobody could notice the difference. `costs`: the plan would cost `more`; of it `own` is what she herself would
 * cost with him, below 0 where he would suit her better but others would pay for it.
 */
export type PairReason =
  | { readonly kind: "forbidden"; readonly rules: readonly PlanRule[] }
  | { readonly kind: "no-plan" }
  | { readonly kind: "as-good"; readonly more: number }
  | { readonly kind: "costs"; readonly more: number; readonly own: number };

/**
 * Why this buck and not that one: what the whole plan would cost if the doe went to the other.
 *
 * The rest of the plan is chosen anew around the pair asked about, so the answer counts whose place she takes.
 *
 * Units:  `doe` and `buck` are places in the question; `buck` is another than the plan's.
 * Cost:   one plan for each question.
 * Source: rule PA-8.
 */
export function whyNot(
  question: PlanQuestion,
  best: Plan,
  doe: number,
  buck: number,
  solver: ProgramSolver,
): PairReason {
  const rules = planRules(question);
  const against = rules.filter((rule) => forbids(question, rule, doe, buck));
  if (against.length > 0) return { kind: "forbidden", rules: against };
  const wish = {
    kind: "must",
    doe: present(question.does[doe], "a doe"),
    buck: present(question.bucks[buck], "a buck").id,
  } as const;
  const found = bestPlan(question, [...rules, wish], solver);
  if (found === undefined) return { kind: "no-plan" };
  const more = found.plan.loss.total - best.loss.total;
  if (more <= AS_GOOD.value) return { kind: "as-good", more: Math.max(0, more) };
  const chosen = best.buckOf[doe];
  const now = chosen === undefined ? (question.openDoe ?? 0) : pairLoss(question, doe, chosen);
  return { kind: "costs", more, own: pairLoss(question, doe, buck) - now };
}

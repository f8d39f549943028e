import { present } from "@pollard/base";
import type { ProgramSolver } from "../solver.ts";
import { brokenIn, planProgram } from "./plan-program.ts";
import type { PlanQuestion, PlanRule } from "./plan-question.ts";

/**
 * The fewest rules that no plan can keep together.
 *
 * Every way out of the contradiction breaks at least one of them, so a conflict meets every way out. Ways out are gathered
 * one by one: the fewest rules that meet all known ways out are held, and the solver breaks as few of the others as it
 * can; what it broke is one more way out. When nothing can be broken any more the held rules contradict each other, and
 * no smaller set does.
 *
 * Shape:  empty where the rules can all be kept.
 * Source: implicit hitting sets [ignatiev2015]; rule PA-7.
 */
export function smallestConflict(
  question: PlanQuestion,
  rules: readonly PlanRule[],
  solver: ProgramSolver,
): readonly PlanRule[] {
  const waysOut: (readonly number[])[] = [];
  for (;;) {
    const core = smallestMeeting(rules.length, waysOut, solver);
    const soft = rules.filter((_, r) => !core.includes(r));
    const held = core.map((r) => present(rules[r], "a rule"));
    const answer = solver.solve(planProgram(question, { held, soft }));
    if (answer.kind === "infeasible") return held;
    const broken = brokenIn(soft, answer).map((k) => rules.indexOf(present(soft[k], "a soft rule")));
    if (broken.length === 0) return [];
    waysOut.push(broken);
  }
}

/** As few numbers below `count` as can be, with at least one of each list. */
function smallestMeeting(
  count: number,
  lists: readonly (readonly number[])[],
  solver: ProgramSolver,
): readonly number[] {
  if (lists.length === 0) return [];
  const met = [...new Set(lists.flat())];
  const program = [
    "Minimize",
    ` size: ${met.map((r) => `h_${r}`).join("\n + ")}`,
    "Subject To",
    ...lists.map((list, k) => ` w${k}: ${list.map((r) => `h_${r}`).join("\n + ")} >= 1`),
    "Binaries",
    ...met.map((r) => ` h_${r}`),
    "End",
  ].join("\n");
  const { columns } = solver.solve(program);
  return Array.from({ length: count }, (_, r) => r).filter((r) => (columns.get(`h_${r}`) ?? 0) > 0.5);
}

import { present } from "@pollard/base";
import type { ProgramLimits, ProgramSolver } from "../solver.ts";
import { type KidGroup, kidGroups, type VetDaysQuestion } from "./vet-days-question.ts";
import type { VisitPlan } from "./vet-days.ts";

/** A plan under a limit of heads a visit. */
export interface LimitedPlan extends VisitPlan {
  /** Heads expected on each visit, in the order of the visits. */
  readonly perVisit: readonly number[];
  /** Whether it is proven to be the best, or the best that was found in the time there was. */
  readonly proven: "yes" | "no";
}

/** What a day's limit changes in the question. */
export interface VisitLimits extends ProgramLimits {
  /** Most heads a visit can take. */
  readonly heads: number;
  /** Exactly so many visits, fixed ones included. */
  readonly visits?: number;
}

/**
 * Which days to ask the vet for when a visit can take only so many kids.
 *
 * A kid may then have to wait for a later visit inside its window, so the stretches of `planVetDays` do not hold, and the
 * plan is a mixed-integer program: a whole number for each day (visit or not), a share for each group of kids on each day of
 * its window. Once the days are chosen the shares form a transport problem, which needs no whole numbers.
 *
 * Shape:   `undefined` where no plan of so many visits exists.
 * Assumes: the limit holds for the heads that are *expected*; how often more come is told by `visitHeads`.
 * Errors:  none; where the time runs out the best plan so far is given as not proven.
 * Source:  decision 0008; rule KD-35.
 */
export function planVetDaysWithin(
  question: VetDaysQuestion,
  limits: VisitLimits,
  solver: ProgramSolver,
): LimitedPlan | undefined {
  const all = kidGroups(question);
  const groups = all.filter((g) => g.weight >= SLIGHT);
  const days = [...new Set([...question.open, ...question.fixed])].filter((d) => d >= 0).sort((a, b) => a - b);
  const program = visitProgram(question, groups, days, limits);
  const { kind, columns } = solver.solve(program, limits);
  if (kind === "infeasible" || columns.size === 0) return undefined;
  const visits = days.filter((day) => (columns.get(`y_${day}`) ?? 0) > 0.5);
  const place = new Map(groups.map((group, g) => [group, g]));
  const firstVisit = ({ readyIn, endIn }: KidGroup) => visits.find((day) => day >= readyIn && day <= endIn);
  const share = (group: KidGroup, day: number): number => {
    const g = place.get(group);
    return g === undefined ? (firstVisit(group) === day ? 1 : 0) : (columns.get(`x_${g}_${day}`) ?? 0);
  };
  let [loss, heads, missed, lateDays] = [0, 0, 0, 0];
  for (const group of all) {
    const left = Math.max(0, 1 - visits.reduce((sum, day) => sum + share(group, day), 0));
    heads += group.weight;
    missed += group.weight * left;
    loss += group.weight * left * question.losses.missedHorns;
    for (const day of visits) {
      lateDays += group.weight * share(group, day) * group.lateOn(day);
      loss += group.weight * share(group, day) * group.lossOn(day);
    }
  }
  const asked = visits.filter((day) => !question.fixed.includes(day)).length;
  return {
    visits,
    loss: loss + asked * question.visitLoss,
    heads,
    missed,
    lateDays,
    perVisit: visits.map((day) => all.reduce((sum, group) => sum + group.weight * share(group, day), 0)),
    proven: kind === "optimal" ? "yes" : "no",
  };
}

/**
 * Heads expected below which a group is left out of the program, and then counted on its first visit: the far tails of due
 * days, whose tiny factors make the solver slow and change no plan.
 */
const SLIGHT = 1e-4;

type Term = readonly [number, string];

/** The plan in the text format of LP files. Missing a kid is what is lost where nobody is done; its constant is left out. */
function visitProgram(
  { fixed, visitLoss, losses }: VetDaysQuestion,
  groups: readonly KidGroup[],
  days: readonly number[],
  { heads, visits }: VisitLimits,
): string {
  const daysOf = groups.map((g) => days.filter((day) => day >= g.readyIn && day <= g.endIn));
  const cost: Term[] = days.map((day) => [fixed.includes(day) ? 0 : visitLoss, `y_${day}`]);
  const rows: string[] = [];
  const ofDay = new Map<number, Term[]>(days.map((day) => [day, []]));
  for (const [g, group] of groups.entries()) {
    const own = daysOf[g] ?? [];
    for (const day of own) {
      cost.push([group.weight * (group.lossOn(day) - losses.missedHorns), `x_${g}_${day}`]);
      present(ofDay.get(day), "a day").push([group.weight, `x_${g}_${day}`]);
    }
    if (own.length > 0) rows.push(`k${g}: ${sum(own.map((day) => [1, `x_${g}_${day}`]))} <= 1`);
  }
  for (const [day, terms] of ofDay) {
    const expected = terms.reduce((total, [weight]) => total + weight, 0);
    // No visit takes more than all who could come, which ties the shares to the visit more closely than a large limit.
    if (terms.length > 0) rows.push(`d${day}: ${sum([...terms, [-Math.min(heads, expected), `y_${day}`]])} <= 0`);
    if (fixed.includes(day)) rows.push(`f${day}: y_${day} = 1`);
  }
  if (visits !== undefined && days.length > 0) rows.push(`n: ${sum(days.map((day) => [1, `y_${day}`]))} = ${visits}`);
  const whole = days.map((day) => `y_${day}`);
  return `Minimize\nloss: ${sum(cost)}\nSubject To\n${rows.join("\n")}\nBinary\n${whole.join(" ")}\nEnd\n`;
}

/** Terms as the format writes them, a few to a line since lines have a limit. */
const sum = (terms: readonly Term[]): string =>
  terms
    .map(([factor, name], i) => `${factor < 0 ? "-" : "+"} ${Math.abs(factor)} ${name}${i % 8 === 7 ? "\n" : ""}`)
    .join(" ");

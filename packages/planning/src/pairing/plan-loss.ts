import { present } from "@pollard/base";
import { forbids, type PlanQuestion, type PlanRule } from "./plan-question.ts";

/** A buck for every doe: positions in the question's bucks, in the order of its does; `undefined` is left open. */
export type BuckOf = readonly (number | undefined)[];

/** What a plan is expected to cost, by where the loss comes from. */
export interface PlanLoss {
  readonly total: number;
  readonly pairs: number;
  /** Bucks kept or hired. */
  readonly bucks: number;
  readonly open: number;
  /** The weight times the mean kinship of the kids. */
  readonly crop: number;
}

/** The loss of a plan, added up from the question itself: the solver's own sum is not believed. */
export function planLoss(question: PlanQuestion, plan: BuckOf): PlanLoss {
  const used = new Set(plan);
  const pairs = plan.reduce<number>((sum, b, d) => sum + (b === undefined ? 0 : pairLoss(question, d, b)), 0);
  const bucks = question.bucks.reduce((sum, { cost }, b) => sum + (used.has(b) ? cost : 0), 0);
  const open = plan.filter((b) => b === undefined).length * (question.openDoe ?? 0);
  const crop = question.crop === undefined ? 0 : question.crop.weight * cropKinship(question, plan);
  return { total: pairs + bucks + open + crop, pairs, bucks, open, crop };
}

/** The expected loss of one pair by itself. */
export const pairLoss = ({ pairs }: PlanQuestion, doe: number, buck: number): number =>
  present(pairs[doe]?.[buck], "a pair's loss").loss;

/**
 * Mean kinship of the kids of a plan: of two genes drawn from the crop, the chance that they are copies of one.
 *
 * Shape:   each doe's kids weigh alike, an open doe's share is nobody's; so an open doe lowers it a little.
 * Assumes: kids many enough that a kid's kinship with itself does not count apart.
 */
export const cropKinship = (question: PlanQuestion, plan: BuckOf): number => crossKinship(question, plan, plan);

/** Mean kinship between the kids of two plans of one question. */
export function crossKinship(question: PlanQuestion, one: BuckOf, other: BuckOf): number {
  const { crop } = question;
  if (crop === undefined) return 0;
  const right = contributions(question, other);
  return contributions(question, one).reduce(
    (sum, a, i) => sum + (a === 0 ? 0 : a * right.reduce((s, b, j) => s + b * (crop.kinship[i]?.[j] ?? 0), 0)),
    0,
  );
}

/** Each parent's share of the genes of the crop: over the does, then the bucks. */
export function contributions({ does, bucks }: PlanQuestion, plan: BuckOf): readonly number[] {
  const shares = Array.from({ length: does.length + bucks.length }, () => 0);
  plan.forEach((buck, doe) => {
    if (buck === undefined) return;
    for (const parent of [doe, does.length + buck]) shares[parent] = (shares[parent] ?? 0) + 0.5 / does.length;
  });
  return shares;
}

/** The rules that a plan breaks; none for a plan that keeps them all. */
export function brokenRules(question: PlanQuestion, rules: readonly PlanRule[], plan: BuckOf): readonly PlanRule[] {
  const served = (buck: number): number => plan.filter((b) => b === buck).length;
  return rules.filter((rule) => {
    switch (rule.kind) {
      case "serve":
        return plan[question.does.indexOf(rule.doe)] === undefined;
      case "most":
        return served(question.bucks.findIndex(({ id }) => id === rule.buck)) > rule.most;
      case "least":
        return served(question.bucks.findIndex(({ id }) => id === rule.buck)) < rule.least;
      case "must":
        return question.bucks[plan[question.does.indexOf(rule.doe)] ?? -1]?.id !== rule.buck;
      default:
        return plan.some((buck, doe) => buck !== undefined && forbids(question, rule, doe, buck));
    }
  });
}

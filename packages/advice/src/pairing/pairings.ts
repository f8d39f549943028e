import { present } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import {
  bestPlan,
  checkPlan,
  herdDraw,
  type PairReason,
  type Plan,
  type PlanAnswer,
  planPairings,
  planRules,
  type ProgramSolver,
  whyNot,
} from "@pollard/planning";
import { animalRef } from "../animal-ref.ts";
import type { AnimalRef } from "../animal-ref.ts";
import type { Situation } from "../situation.ts";
import { closing, pairModel, ruleModel } from "./pair-model.ts";
import type {
  PairingsModel,
  PairLosses,
  PairModel,
  PairReasonModel,
  PlanModel,
  PlannedDoe,
  PlannedSeason,
} from "./pairing-models.ts";
import type { PairingRules } from "./pairing-rules.ts";
import {
  type CandidateBuck,
  type PairingGround,
  pairingGround,
  type PairingTable,
  pairingTable,
} from "./pairing-table.ts";

/** How pairings are worked out: the keeper's rules if others than those in the settings, chance, and how many seasons. */
export interface PairingOptions {
  readonly rules?: PairingRules;
  readonly seed?: number;
  readonly seasons?: number;
  /** Whether the next plans and the price of each rule are wanted too; in a large herd they take many times longer. */
  readonly around?: "everything" | "nothing";
  /** A buck not bought yet, to see what he would change. */
  readonly candidate?: CandidateBuck;
}

/**
 * Most pairs for which the reasons against are all worked out at once, each by a plan of its own. In a larger herd only
 * closed pairs have theirs, and any other is asked for by itself (`whyNotPair`).
 */
const ALL_REASONS = 150;

/** Seasons simulated to check a plan. */
const SEASONS = 2000;

/**
 * Which buck for which doe: every pair, the best plan under the keeper's rules and what stands around it.
 *
 * Shape:  does and bucks by name; pairs by doe, then buck.
 * Cost:   a joint question for each pair, a plan for each rule, and one for each doe and each other buck.
 * Source: rules PA-1 to PA-9 (planning).
 */
export function pairingsModel(
  situation: Situation,
  solver: ProgramSolver,
  options: PairingOptions = {},
): PairingsModel {
  const ground = pairingGround(situation, options.rules, options.candidate);
  const table = pairingTable(ground, situation.beliefs.answer);
  const { does, leftOut } = ground.stock;
  const pairs = does.map((_, d) => ground.bucks.map((_, b) => pairModel(ground, table, d, b)));
  return {
    today: situation.today,
    does: does.map((d) => animalRef(situation.herd, d.id)),
    bucks: ground.bucks.map((b) => b.ref),
    pairs,
    plan: planModel(ground, table, pairs, solver, options),
    leftOut,
    wishesAside: [...ground.rules.must, ...ground.rules.never]
      .filter(({ doe, buck }) => !does.some((d) => d.id === doe) || !ground.bucks.some((b) => b.id === buck))
      .map(({ doe, buck }) => ({ doe: animalRef(situation.herd, doe), buck: animalRef(situation.herd, buck) })),
  };
}

function planModel(
  ground: PairingGround,
  table: PairingTable,
  pairs: readonly (readonly PairModel[])[],
  solver: ProgramSolver,
  options: PairingOptions,
): PlanModel {
  const { stock } = ground;
  if (stock.does.length === 0) return { kind: "nobody-to-pair", lack: "does" };
  if (ground.bucks.length === 0) return { kind: "nobody-to-pair", lack: "bucks" };
  const answer = planPairings(table.question, solver, options.around);
  if (answer.kind === "no-plan")
    return { kind: "no-plan", conflict: answer.conflict.map((rule) => ruleModel(ground, rule)) };
  const { best } = answer;
  const buckRef = (b: number | undefined): AnimalRef | undefined =>
    b === undefined ? undefined : present(ground.bucks[b], "a buck").ref;
  return {
    kind: "plan",
    does: stock.does.map((_, d) => plannedDoe(ground, table, pairs, best, d, solver)),
    bucks: table.question.bucks.map(({ most }, b) => ({
      buck: present(ground.bucks[b], "a buck").ref,
      does: best.buckOf.filter((chosen) => chosen === b).length,
      most,
    })),
    loss: best.loss.total,
    gap: answer.gap,
    season: plannedSeason(ground, table, pairs, best, options),
    next: nextModels(ground, answer, buckRef),
    prices: answer.prices.map(({ rule, gain }) => ({ rule: ruleModel(ground, rule), gain })),
  };
}

function nextModels(
  { stock, situation }: PairingGround,
  { best, next }: Extract<PlanAnswer, { kind: "plan" }>,
  buckRef: (b: number | undefined) => AnimalRef | undefined,
) {
  return next.map(({ more, asGood, differs, buckOf }) => ({
    more,
    asGood,
    changes: differs.map((d) => ({
      doe: animalRef(situation.herd, present(stock.does[d], "a doe").id),
      from: buckRef(best.buckOf[d]),
      to: buckRef(buckOf[d]),
    })),
  }));
}

function plannedDoe(
  ground: PairingGround,
  table: PairingTable,
  pairs: readonly (readonly PairModel[])[],
  best: Plan,
  doe: number,
  solver: ProgramSolver,
): PlannedDoe {
  const { stock, situation } = ground;
  const chosen = best.buckOf[doe];
  const ref = (b: number): AnimalRef => present(ground.bucks[b], "a buck").ref;
  return {
    doe: animalRef(situation.herd, present(stock.does[doe], "a doe").id),
    buck: chosen === undefined ? undefined : ref(chosen),
    pair: chosen === undefined ? undefined : present(pairs[doe]?.[chosen], "a pair"),
    whyNot: ground.bucks.flatMap((_, b) => {
      if (b === chosen) return [];
      const isLarge = table.question.does.length * ground.bucks.length > ALL_REASONS;
      if (isLarge && closing(table.question, doe, b).length === 0) return [];
      return [{ buck: ref(b), reason: reasonFor(ground, table, best, { doe, buck: b }, solver) }];
    }),
  };
}

function reasonFor(
  ground: PairingGround,
  table: PairingTable,
  best: Plan,
  { doe, buck }: { readonly doe: number; readonly buck: number },
  solver: ProgramSolver,
): PairReasonModel {
  const chosen = best.buckOf[doe];
  const now = chosen === undefined ? undefined : table.losses[doe]?.[chosen];
  return reasonModel(ground, whyNot(table.question, best, doe, buck, solver), table.losses[doe]?.[buck], now);
}

/**
 * Why one doe does not go to one buck, for herds so large that not every reason is worked out beforehand.
 *
 * Shape: `undefined` where the two are not to be paired at all, are paired already, or there is no plan.
 */
export function whyNotPair(
  situation: Situation,
  solver: ProgramSolver,
  pair: { readonly doe: AnimalId; readonly buck: AnimalId },
  options: PairingOptions = {},
): PairReasonModel | undefined {
  const ground = pairingGround(situation, options.rules, options.candidate);
  const table = pairingTable(ground, situation.beliefs.answer);
  const doe = table.question.does.indexOf(pair.doe);
  const buck = table.question.bucks.findIndex(({ id }) => id === pair.buck);
  if (doe < 0 || buck < 0) return undefined;
  const found = bestPlan(table.question, planRules(table.question), solver);
  if (found === undefined || found.plan.buckOf[doe] === buck) return undefined;
  return reasonFor(ground, table, found.plan, { doe, buck }, solver);
}

function reasonModel(
  ground: PairingGround,
  reason: PairReason,
  other: PairLosses | undefined,
  now: PairLosses | undefined,
): PairReasonModel {
  switch (reason.kind) {
    case "forbidden":
      return { kind: "forbidden", rules: reason.rules.map((rule) => ruleModel(ground, rule)) };
    case "no-plan":
      return { kind: "no-plan" };
    case "as-good":
      return { kind: "as-good" };
    case "costs":
      return { kind: "costs", more: reason.more, own: reason.own, most: heaviest(other, now) };
  }
}

/** The part of a pair's losses in which two bucks differ most. */
function heaviest(other: PairLosses | undefined, now: PairLosses | undefined): keyof Omit<PairLosses, "total"> {
  const parts = ["horned", "heads", "intersex", "inbreeding", "barren", "merit"] as const;
  const difference = (part: (typeof parts)[number]): number => Math.abs((other?.[part] ?? 0) - (now?.[part] ?? 0));
  return parts.reduce((a, b) => (difference(b) > difference(a) ? b : a));
}

function plannedSeason(
  { stock, bucks, situation, litters }: PairingGround,
  table: PairingTable,
  pairs: readonly (readonly PairModel[])[],
  best: Plan,
  { seed = 1, seasons = SEASONS }: PairingOptions,
): PlannedSeason {
  const check = checkPlan({
    buckOf: best.buckOf,
    outlooks: best.buckOf.map((b, d) => (b === undefined ? undefined : table.outlooks[d]?.[b])),
    draw: herdDraw({
      problem: situation.beliefs.problem,
      answer: situation.beliefs.answer,
      does: stock.does.map((d) => d.id),
      bucks: bucks.map((b) => b.parent),
    }),
    ppFertile: bucks.map((b) => b.ppFertile),
    litters,
    seasons,
    seed,
  });
  const chosen = best.buckOf.flatMap((b, d) => (b === undefined ? [] : [present(pairs[d]?.[b], "a pair")]));
  const kids = chosen.reduce((sum, p) => sum + p.kids, 0);
  const of = (what: "kids" | "horned" | "intersex") => {
    const line = present(
      check.find((c) => c.of === what),
      "a check",
    );
    return { mean: line.calculated, low: line.low, high: line.high };
  };
  return {
    kids: of("kids"),
    horned: of("horned"),
    intersex: of("intersex"),
    inbreeding: kids === 0 ? 0 : chosen.reduce((sum, p) => sum + p.kids * p.inbreeding, 0) / kids,
    check,
  };
}

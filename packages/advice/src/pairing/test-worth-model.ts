import type { Probability, Sourced } from "@pollard/base";
import { probability } from "@pollard/base";
import type { AnimalId, GenotypeAnswer } from "@pollard/genetics";
import {
  beforeTests,
  bestPlan,
  planRules,
  type ProgramSolver,
  type TestWorth,
  testPairs,
  testWorth,
  type TestWorthStart,
} from "@pollard/planning";
import { animalRef } from "../animal-ref.ts";
import type { AnimalRef } from "../animal-ref.ts";
import { amountSetting } from "../settings.ts";
import type { Situation } from "../situation.ts";
import { openHeadLoss } from "./coming-heads.ts";
import { isUnread } from "./keep-or-sell.ts";
import { pairingGround, pairingTable } from "./pairing-table.ts";

/** What testing an animal, or two together, is worth against its price. Amounts in needless disbuddings. */
export interface TestWorthLine {
  readonly animals: readonly AnimalRef[];
  readonly worth: number;
  readonly price: number;
  readonly advice: "worth-it" | "not-worth-it" | "known-already";
  /** What the laboratory could say, with its chance; empty where nothing was gone through, or the head is not read yet. */
  readonly results: readonly { readonly genotypes: readonly string[]; readonly chance: Probability }[];
}

/** Which animals are worth a test of their genes, each against its price. */
export interface TestWorthModel {
  /** The worthiest first. */
  readonly lines: readonly TestWorthLine[];
  /** Pairs of the worthiest that are worth more together than the two apart. */
  readonly together: readonly TestWorthLine[];
  /** What all decisions are expected to cost as things stand. */
  readonly lossNow: number;
}

/** Weight of a test's price where the keeper has not said: half a needless disbudding. */
const TEST_PRICE: Sourced<number> = { value: 0.5, source: "judgement", checked: "judgement" };
/** Setting that holds it. */
export const TEST_PRICE_SETTING = "loss-dna-test";
/** Belief from which a test is not gone through: it could hardly say anything else. */
const KNOWN = 0.995;
/** How many of the worthiest are looked at together, two by two. */
const TOGETHER = 3;
/** What two tests must be worth beyond the two apart to be told. */
const MORE_TOGETHER = 0.01;

/**
 * What a DNA test of each animal would save: in the coming pairings, and in the decisions about heads that are open now.
 *
 * Rules of the plan that depend on what is believed (polled parents apart, the ceiling on intersex kids) are applied anew
 * after each result. So that there always is a plan to weigh, a doe whom the rules leave without a buck counts as barren.
 *
 * Shape:  breeding stock and kids whose heads are open.
 * Cost:   three inferences and plans for each animal; nine for each of three pairs.
 * Source: rule PA-13 (planning).
 */
export function testWorthModel(situation: Situation, solver: ProgramSolver): TestWorthModel {
  const { herd, beliefs } = situation;
  const start = beforeTests({ problem: beliefs.problem, leastLoss: leastLossOf(situation, solver) });
  const price = amountSetting(herd, TEST_PRICE_SETTING) ?? TEST_PRICE.value;
  const stock = pairingGround(situation).stock;
  const animals = [...stock.bucks, ...stock.does, ...situation.openHeads().map((h) => h.animal)].map((a) => a.id);
  const unread = new Set(
    situation.openHeads().flatMap(({ animal }) => (isUnread(situation, animal) ? [animal.id] : [])),
  );
  const worths = [...new Set(animals)].map((id) => worthOf(situation, start, id));
  const line = (worth: TestWorth, count: number): TestWorthLine => ({
    animals: worth.animals.map((id) => animalRef(herd, id)),
    worth: worth.worth,
    price: price * count,
    advice: worth.outcomes.length === 0 ? "known-already" : worth.worth > price * count ? "worth-it" : "not-worth-it",
    results: worth.animals.some((id) => unread.has(id))
      ? []
      : worth.outcomes.map(({ results, chance }) => ({ genotypes: results, chance: probability(chance) })),
  });
  const ranked = worths.toSorted((a, b) => b.worth - a.worth);
  const best = ranked.filter((w) => w.outcomes.length > 0).slice(0, TOGETHER);
  const alone = new Map(ranked.map((w) => [w.animals[0], w.worth]));
  return {
    lines: ranked.map((w) => line(w, 1)),
    together: testPairs(
      start,
      best.flatMap((w) => w.animals),
    )
      .filter((w) => w.worth > w.animals.reduce((sum, id) => sum + (alone.get(id) ?? 0), 0) + MORE_TOGETHER)
      .map((w) => line(w, 2)),
    lossNow: start.loss,
  };
}

function worthOf({ beliefs }: Situation, start: TestWorthStart, id: AnimalId): TestWorth {
  const { PP, Pp, pp } = beliefs.polled(id);
  return Math.max(PP, Pp, pp) >= KNOWN ? { animals: [id], worth: 0, outcomes: [] } : testWorth(start, [id]);
}

/** The least expected loss of the plan and of the open heads, knowing this much. */
function leastLossOf(situation: Situation, solver: ProgramSolver): (answer: GenotypeAnswer) => number {
  const ground = pairingGround(situation);
  const heads = situation
    .openHeads()
    .map(({ animal }) => ({ id: animal.id, loss: openHeadLoss(situation, animal, ground.headLoss) }));
  const withOpen = { ...ground, rules: { ...ground.rules, openDoe: ground.rules.openDoe ?? ground.rules.barrenDoe } };
  return (answer) => {
    const { question } = pairingTable(withOpen, answer);
    const plan = bestPlan(question, planRules(question), solver);
    const open = heads.reduce((sum, { id, loss }) => sum + loss(answer.belief(id).genotypes[2] ?? 0), 0);
    return (plan?.plan.loss.total ?? 0) + open;
  };
}

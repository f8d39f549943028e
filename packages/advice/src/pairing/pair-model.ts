import { present, type Probability } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import {
  brokenRules,
  commonAncestors,
  kidCounts,
  type PairOutlook,
  type PlanQuestion,
  type PlanRule,
  planRules,
} from "@pollard/planning";
import { animalRef } from "../animal-ref.ts";
import { counted } from "../counted.ts";
import type { AnimalRef } from "../animal-ref.ts";
import type { Counted } from "../counted.ts";
import { lociOutlook } from "./followed-loci.ts";
import type { KidsRange, PairModel, PlanRuleModel } from "./pairing-models.ts";
import { kinshipOf, meanOf, type PairingGround, type PairingTable } from "./pairing-table.ts";

/** Kids over which luck and doubt of a pair are counted out. */
const TEN = 10;
/** Ends between which nine in ten lie. */
const ENDS = { low: 0.05, high: 0.95 } as const;

/** Everything that is said of one doe and one buck, by their places in the stock. */
export function pairModel(ground: PairingGround, table: PairingTable, doe: number, buck: number): PairModel {
  const { situation, stock, litters, kinship } = ground;
  const { herd } = situation;
  const she = present(stock.does[doe], "a doe").id;
  const he = present(ground.bucks[buck], "a buck");
  const outlook = present(table.outlooks[doe]?.[buck], "an outlook");
  const ten = kidCounts(outlook.matings, TEN);
  return {
    doe: animalRef(herd, she),
    buck: he.ref,
    horned: outlook.kids.horned,
    intersex: outlook.kids.intersex,
    infertile: outlook.kids.infertile,
    bothPolled: outlook.bothPolled,
    fertile: outlook.fertile,
    hornedCounted: countedChance(outlook.kids.horned),
    intersexCounted: countedChance(outlook.kids.intersex),
    maybe: maybesOf(outlook),
    ofTen: { ...rangeOf(ten.chances), mean: ten.mean, luck: ten.luck, doubt: ten.doubt },
    kids: meanOf(present(litters[doe], "a litter")) * outlook.fertile,
    inbreeding: kinshipOf(ground, she, he),
    commonAncestors: commonAncestors(kinship.rows, kinship.kin, he.id, she).map(({ ancestor, share }) => ({
      animal: animalRef(herd, ancestor),
      share,
    })),
    loci: lociOutlook(ground.loci, he, present(stock.does[doe], "a doe")),
    losses: present(table.losses[doe]?.[buck], "a pair's losses"),
    closedBy: closing(table.question, doe, buck).map((rule) => ruleModel(ground, rule)),
  };
}

/** A chance that is nought or one by logic is said outright, any other is counted out. */
const countedChance = (chance: Probability): Counted =>
  counted(chance, chance === 0 || chance === 1 ? "proven" : "open");

function maybesOf({ matings }: PairOutlook): PairModel["maybe"] {
  return matings.map((m) => ({ buck: m.sire, doe: m.dam, chance: m.chance, horned: m.kids.horned }));
}

/** The rules that close a pair whatever the rest of the plan. */
export const closing = (question: PlanQuestion, doe: number, buck: number): readonly PlanRule[] =>
  brokenRules(
    question,
    planRules(question).filter(({ kind }) => kind !== "serve" && kind !== "most" && kind !== "least"),
    question.does.map((_, d) => (d === doe ? buck : undefined)),
  ).filter((rule) => rule.kind !== "must" || rule.doe === question.does[doe]);

/** Between which numbers nine in ten cases lie, from the chance of each number from none. */
export function rangeOf(chances: readonly number[]): KidsRange {
  const at = (share: number): number => {
    let sum = 0;
    for (const [k, chance] of chances.entries()) {
      sum += chance;
      if (sum >= share) return k;
    }
    return chances.length - 1;
  };
  return { mean: meanOf(chances), low: at(ENDS.low), high: at(ENDS.high) };
}

/** A rule with its animals named. */
export function ruleModel({ situation: { herd }, bucks }: PairingGround, rule: PlanRule): PlanRuleModel {
  const buckRef = (id: AnimalId): AnimalRef => bucks.find((b) => b.id === id)?.ref ?? animalRef(herd, id);
  switch (rule.kind) {
    case "serve":
      return { kind: rule.kind, doe: animalRef(herd, rule.doe) };
    case "most":
      return { kind: rule.kind, buck: buckRef(rule.buck), most: rule.most };
    case "least":
      return { kind: rule.kind, buck: buckRef(rule.buck), least: rule.least };
    case "must":
    case "never":
      return { kind: rule.kind, doe: animalRef(herd, rule.doe), buck: buckRef(rule.buck) };
    case "inbreeding-ceiling":
    case "intersex-ceiling":
      return { kind: rule.kind, ceiling: rule.ceiling };
    case "polled-together":
      return { kind: rule.kind };
  }
}

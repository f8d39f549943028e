import {
  type AnimalRef,
  countedOf,
  type KeptKid,
  type KidsRange,
  type KidUse,
  type LocusOutlook,
  type NotBred,
  type PairLosses,
  type PairingsModel,
  type PairModel,
  type PairReasonModel,
  type PlanModel,
  type PlanRuleModel,
  type TestWorthLine,
  type TestWorthModel,
  type UseClosed,
} from "@pollard/advice";
import { sayAnimal } from "./animals.ts";
import { otherSide, sayCounted } from "./chances.ts";
import { locusName } from "./loci.ts";
import { list } from "./names.ts";

const opening = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
const hundredth = (n: number): string => (Math.round(n * 100) / 100).toFixed(2);

/** A number of kids with its range: "about 6, 4 to 9". */
const sayKids = ({ mean, low, high }: KidsRange): string =>
  low === high ? `${low}` : `${mean < 0.5 ? "hardly any" : `about ${Math.round(mean)}`}, ${low} to ${high}`;

/** A rule of the plan. */
function sayRule(rule: PlanRuleModel): string {
  switch (rule.kind) {
    case "serve":
      return `${sayAnimal(rule.doe)} is to have a buck`;
    case "most":
      return `${sayAnimal(rule.buck)} serves at most ${rule.most} ${rule.most === 1 ? "doe" : "does"}`;
    case "least":
      return `${sayAnimal(rule.buck)} serves at least ${rule.least} ${rule.least === 1 ? "doe" : "does"}`;
    case "must":
      return `${sayAnimal(rule.doe)} goes to ${sayAnimal(rule.buck)}, as you wish`;
    case "never":
      return `${sayAnimal(rule.doe)} does not go to ${sayAnimal(rule.buck)}, as you wish`;
    case "inbreeding-ceiling":
      return `Kids' inbreeding stays at or below ${hundredth(rule.ceiling)}`;
    case "intersex-ceiling":
      return `Chance of an intersex kid stays at or below ${sayCeiling(rule.ceiling)}`;
    case "polled-together":
      return "No two polled parents";
  }
}

/** A ceiling on a chance, as one in so many. */
const sayCeiling = (chance: number): string => (chance <= 0 ? "none" : `1 in ${Math.round(1 / chance)}`);

/** Why a pair is closed, one rule after another. */
const sayClosed = (rules: readonly PlanRuleModel[]): string =>
  rules
    .map((rule) => {
      switch (rule.kind) {
        case "polled-together":
          return "both are polled";
        case "intersex-ceiling":
          return "too likely an intersex kid";
        case "inbreeding-ceiling":
          return "too much kin";
        case "must":
          return `you wish her with ${sayAnimal(rule.buck)}`;
        case "never":
          return "you do not wish it";
        default:
          return sayRule(rule);
      }
    })
    .join("; ");

const PART: Readonly<Record<keyof Omit<PairLosses, "total">, string>> = {
  horned: "horned kids",
  heads: "heads hard to tell",
  intersex: "intersex kids",
  inbreeding: "kin",
  barren: "no kids at all",
  merit: "your own points",
};

/** Why a doe does not go to another buck. */
function sayReason(reason: PairReasonModel): string {
  switch (reason.kind) {
    case "forbidden":
      return opening(`${sayClosed(reason.rules)}.`);
    case "no-plan":
      return "With him no plan keeps your rules.";
    case "as-good":
      return "He would do as well.";
    case "costs":
      return reason.own < 0
        ? `He would suit her better. Others would pay ${hundredth(reason.more - reason.own)} for it.`
        : `He would cost ${hundredth(reason.more)} more, mostly for ${PART[reason.most]}.`;
  }
}

/** What the kids of a pair would be, both sides. */
function sayPair(pair: PairModel): string {
  const { hornedCounted: horned } = pair;
  if (pair.fertile === 0) return "These two cannot have kids.";
  const heads =
    horned.sense === "proven"
      ? horned.count === 0
        ? "No kid grows horns."
        : "Every kid grows horns."
      : `${opening(sayCounted(horned))} kids grow horns; ${sayCounted(otherSide(horned))} stay hornless.`;
  return `${heads} Intersex: ${sayCounted(pair.intersexCounted)}.`;
}

/** What of a pair's spread is luck and what is not knowing the parents. */
function sayLuckAndDoubt({ ofTen, maybe }: PairModel): string {
  const range = `Of ten kids ${sayKids(ofTen)} would grow horns.`;
  if (maybe.length < 2 || ofTen.doubt < 0.5) return `${range} The spread is luck.`;
  return ofTen.doubt > ofTen.luck
    ? `${range} Most of the spread is not knowing the parents.`
    : `${range} Some of the spread is not knowing the parents.`;
}

/** Through whom the kids would be inbred. */
function sayKin({ inbreeding, commonAncestors }: PairModel): string {
  if (inbreeding === 0) return "No common ancestor is known.";
  const [first, second, third] = commonAncestors.map(({ animal }) => sayAnimal(animal));
  const names = [first, second, third].filter((name) => name !== undefined);
  const more = commonAncestors.length > names.length ? " and others" : "";
  return `Kids' inbreeding ${hundredth(inbreeding)}, through ${list(names)}${more}.`;
}

/** What kids would be at a locus, the likeliest first; what cannot be is left out. */
function sayLocus({ locus, name, genotypes }: LocusOutlook): string {
  const said = genotypes
    .filter((g) => g.chance >= 0.005)
    .toSorted((a, b) => b.chance - a.chance)
    .map(({ genotype, chance }) => `${genotype} ${sayCounted(countedOf(chance, 20))}`);
  return `${locusName({ id: locus, name })}: ${said.join(", ")}.`;
}

/** The plan in a sentence or two; or why there is none. */
function sayPlanOfPairs(plan: PlanModel): readonly string[] {
  switch (plan.kind) {
    case "nobody-to-pair":
      return [plan.lack === "does" ? "There is no doe to pair." : "There is no buck to pair the does with."];
    case "no-plan":
      return [
        "No plan keeps all your rules. These cannot be kept together:",
        ...plan.conflict.map((rule) => `${sayRule(rule)}.`),
      ];
    case "plan":
      return [
        `Kids next season: ${sayKids(plan.season.kids)}.`,
        `Heads to disbud: ${sayKids(plan.season.horned)}.`,
        `Intersex kids: ${sayKids(plan.season.intersex)}.`,
        ...(plan.gap > 0.01 ? [`A better plan could save at most ${hundredth(plan.gap)}.`] : []),
      ];
  }
}

/** A plan that comes after the best. */
function sayNextPlan(next: Extract<PlanModel, { kind: "plan" }>["next"][number]): string {
  const moves = next.changes.map(
    ({ doe, to }) => `${sayAnimal(doe)} ${to === undefined ? "stays open" : `to ${sayAnimal(to)}`}`,
  );
  const shown = moves.slice(0, 3).join(", ");
  const more = moves.length > 3 ? ` and ${moves.length - 3} more` : "";
  return `${next.asGood ? "As good" : `Costs ${hundredth(next.more)} more`}: ${shown}${more}.`;
}

/** What a rule costs. */
const sayPrice = ({ rule, gain }: { readonly rule: PlanRuleModel; readonly gain: number }): string =>
  `Without this rule the plan gains ${hundredth(gain)}: ${sayRule(rule)}.`;

const NOT_BRED: Readonly<Record<NotBred, string>> = {
  "too-young": "too young",
  "intersex-not-ruled-out": "intersex is not ruled out",
  "cannot-breed": "intersex",
};

/** What would settle whether a goat is intersex. */
const SETTLES = "The vet, a DNA test or a kidding settles it: enter what you know.";

/** Who was left out, grouped by the reason. */
function sayLeftOut(leftOut: readonly { readonly animal: AnimalRef; readonly why: NotBred }[]): readonly string[] {
  return (Object.keys(NOT_BRED) as NotBred[]).flatMap((why) => {
    const names = leftOut.filter((l) => l.why === why).map((l) => sayAnimal(l.animal));
    if (names.length === 0) return [];
    const shown = names.length > 6 ? [...names.slice(0, 5), `${names.length - 5} more`] : names;
    const line = `Not paired, ${NOT_BRED[why]}: ${list(shown)}.`;
    return why === "intersex-not-ruled-out" ? [line, SETTLES] : [line];
  });
}

/** A wish that the plan does without. */
const sayWishAside = ({ doe, buck }: PairingsModel["wishesAside"][number]): string =>
  `Your wish for ${sayAnimal(doe)} and ${sayAnimal(buck)} is left aside: one is not to be paired.`;

/** Whether a test is worth its price. */
function sayTestWorth({ animals, worth, price, advice }: TestWorthLine): string {
  const names = list(animals.map(sayAnimal));
  switch (advice) {
    case "known-already":
      return `${names}: known well enough. A test would tell nothing new.`;
    case "worth-it":
      return `${names}: worth testing. It would save about ${sayDisbuddings(worth)}.`;
    case "not-worth-it":
      return worth < 0.005
        ? `${names}: not worth testing. Nothing would be decided otherwise.`
        : `${names}: not worth testing. It would save ${sayDisbuddings(worth)}, and weighs ${hundredth(price)}.`;
  }
}

const sayDisbuddings = (worth: number): string =>
  `${hundredth(worth)} needless ${hundredth(worth) === "1.00" ? "disbudding" : "disbuddings"}`;

/** What is best tested, or that nothing is. */
function sayTests({ lines, together }: TestWorthModel): string {
  const worthIt = lines.filter((l) => l.advice === "worth-it").length;
  if (lines.length === 0) return "There is no animal to test.";
  if (worthIt === 0 && together.every((l) => l.advice !== "worth-it")) return "No test is worth its price now.";
  return worthIt === 1 ? "One test is worth its price." : `${worthIt} tests are worth their price.`;
}

const USE: Readonly<Record<KidUse, string>> = {
  "keep-to-breed": "breeding here",
  "sell-to-breed": "breeding elsewhere",
  wether: "wether",
  "keep-or-sell-as-pet": "company",
};
const CLOSED: Readonly<Record<UseClosed, string>> = {
  "intersex-not-ruled-out": "intersex is not ruled out: test, or ask the vet",
  "a-wether": "a wether",
  "not-a-buckling": "no buckling",
  "head-not-known": "its head is not known yet",
  inbred: "its parents are close kin",
};

/** What a kid is open to. */
const sayUses = ({ open }: KeptKid): string => open.map((use) => USE[use]).join(", ");

/** What it is not open to and why; what goes without saying is left out. */
function sayClosedUses({ closed }: KeptKid): string {
  const reasons = new Set(closed.filter((c) => c.why !== "not-a-buckling").map((c) => c.why));
  return [...reasons].map((why) => CLOSED[why]).join("; ");
}

/** All that is said of pairings. */
export const pairings = {
  kids: sayKids,
  rule: sayRule,
  reason: sayReason,
  pair: sayPair,
  luckAndDoubt: sayLuckAndDoubt,
  kin: sayKin,
  locus: sayLocus,
  plan: sayPlanOfPairs,
  nextPlan: sayNextPlan,
  price: sayPrice,
  leftOut: sayLeftOut,
  wishAside: sayWishAside,
  testWorth: sayTestWorth,
  tests: sayTests,
  uses: sayUses,
  closedUses: sayClosedUses,
  unit: "Losses are in needless disbuddings: your own measure.",
  caution: "Intersex cannot be told by looks alone. Ask the vet before breeding or sale.",
} as const;

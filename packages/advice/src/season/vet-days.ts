import { addDays, type Day, daysFrom } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import { windowOf } from "@pollard/husbandry";
import {
  type ComingKids,
  type ParentWorld,
  planVetDays,
  planVetDaysWithin,
  type ProgramSolver,
  type VetDaysQuestion,
  visitHeads,
  type VisitPlan,
} from "@pollard/planning";
import { animalRef } from "../animal-ref.ts";
import { lossesOf, noticeDaysOf, vetWindowOf } from "../heads/head-advice.ts";
import { hasFinding, headReadingsOf, kidAges } from "../heads/kid-facts.ts";
import type { AnimalRef } from "../animal-ref.ts";
import { vetFiguresOf } from "../settings.ts";
import type { Situation } from "../situation.ts";
import { latestChoice } from "../today/vet-list.ts";
import { hornedKid, pregnancyOn, sireWeights } from "./pregnancies.ts";
import { suits, visitWishes } from "./visit-wishes.ts";

/** One day on which the vet is to come. */
export interface VetDayLine {
  readonly day: Day;
  /** Agreed already, or proposed by the plan. */
  readonly state: "agreed" | "proposed";
  /** Heads expected; nine times in ten the number lies between `low` and `high`. */
  readonly expected: number;
  readonly low: number;
  readonly high: number;
  /** Under a limit: heads that the plan expects to take on this day; the others wait for a later one. */
  readonly taken?: number;
  /** Chance of no head, of one, and so on. */
  readonly chances: readonly number[];
  /**
   * Whose heads: kids that are here, and does whose kids are to come, most first. How many of each are expected is withheld
   * of a kid whose head nobody has read: eyes first.
   */
  readonly from: readonly {
    readonly animal: AnimalRef;
    readonly what: "kid" | "dam";
    readonly expected: number | undefined;
  }[];
}

/** What a plan with another number of visits would change. */
export interface OtherCount {
  readonly days: readonly Day[];
  /** More missed kids, and more late days, than the plan has; below 0 for fewer. */
  readonly missed: number;
  readonly lateDays: number;
}

/** The days to ask the vet for, and what hangs on them. */
export interface VetDaysModel {
  readonly today: Day;
  readonly visits: readonly VetDayLine[];
  /** Horned kids expected in all; of them missed by the plan; days past the best ones over all of them. */
  readonly heads: number;
  readonly missed: number;
  readonly lateDays: number;
  /** One visit fewer and one more; `undefined` where there is none. */
  readonly fewer: OtherCount | undefined;
  readonly more: OtherCount | undefined;
  /** Does that may still kid, and kids whose heads still matter. */
  readonly does: number;
  readonly kids: number;
  /** Most heads a visit takes, and whether the plan keeps to it: in expectation by the solver's proof, or not looked at. */
  readonly limit: { readonly heads: number; readonly kept: "yes" | "best-found" | "not-asked" } | undefined;
  readonly rule: string;
}

/** What may be tried beside what the herd's record says. */
export interface VetDaysOptions {
  /** Days that are to be visits, and days that are not to be. */
  readonly pin?: readonly Day[];
  readonly forbid?: readonly Day[];
  /** Needed where a visit takes only so many heads. */
  readonly solver?: ProgramSolver;
}

/** Most visits that are thought about in one season. */
const MOST_VISITS = 30;
/** Seconds that a plan under a limit may take, and how far from the best it may then be. */
const LIMITS = { seconds: 15, gap: 0.005 } as const;
/** Both sexes are as likely at birth: published ratios scatter around one half. */
const HALF = 0.5;

/**
 * Kids that are here and litters that may come, as a plan of vet days weighs them.
 *
 * A kid whose head is settled, or whom the keeper has chosen to leave, is not among them; nor is a doe most likely empty.
 */
export function comingKids(situation: Situation): readonly (ComingKids & { readonly what: "kid" | "dam" })[] {
  const { herd, beliefs, today } = situation;
  const here = situation.openHeads().flatMap(({ animal, advice }) => {
    if (animal.born === undefined || advice.kind === "ring-vet") return [];
    if (latestChoice(animal)?.choice === "leave") return [];
    const age = daysFrom(animal.born, today);
    return [
      {
        id: animal.id,
        what: "kid" as const,
        births: [{ inDays: -age, kids: 1, chance: 1 }],
        needs: beliefs.polled(animal.id).pp,
        windows: [{ window: vetWindowOf(herd, animal), share: 1 }],
        early: kidAges(herd, animal, today)?.early ?? 0,
      },
    ];
  });
  const figures = vetFiguresOf(herd);
  const windows = (["buck", "doe"] as const).map((sex) => ({ window: windowOf(sex, figures), share: HALF }));
  const toCome = [...herd.animals.values()].flatMap((doe) => {
    if (doe.departure !== undefined) return [];
    const pregnancy = pregnancyOn(herd, doe.id, today);
    if (pregnancy === undefined || pregnancy.births.length === 0) return [];
    return [
      {
        id: doe.id,
        what: "dam" as const,
        births: pregnancy.births.map(({ day, kids, chance }) => ({
          inDays: daysFrom(today, day),
          kids,
          chance: chance * pregnancy.willKid,
        })),
        needs: hornedKid(situation, doe, pregnancy),
        windows,
      },
    ];
  });
  return [...here, ...toCome];
}

/**
 * Which days to ask the vet for, from the kids that are here and those that may come.
 *
 * Agreed visits stay; further ones are chosen so that visits, missed kids and late days cost least together, in the keeper's
 * own losses. One visit fewer and one more are set beside the plan.
 *
 * Assumes: beside the bucks of doubtful genotype, litters are independent of each other.
 * Source:  planning's rules KD-30 to KD-35; rules AD-33 to AD-35.
 */
export function vetDaysModel(
  situation: Situation,
  { pin = [], forbid = [], solver }: VetDaysOptions = {},
): VetDaysModel {
  const { herd, today } = situation;
  const coming = comingKids(situation);
  const wishes = visitWishes(herd);
  const notice = noticeDaysOf(herd);
  const losses = lossesOf(herd);
  const last = coming.reduce((latest, kids) => Math.max(latest, lastDay(kids)), 0);
  const agreed = herd.vetDays.map((v) => v.on).filter((day) => day >= today);
  const fixed = [...new Set([...agreed, ...pin.filter((day) => day >= today)])].filter((day) => !forbid.includes(day));
  const open = Array.from({ length: last + 1 }, (_, d) => d).filter((d) => {
    const day = addDays(today, d);
    return d >= notice && suits(wishes, day) && !forbid.includes(day);
  });
  const question: VetDaysQuestion = {
    coming,
    open,
    fixed: fixed.map((day) => daysFrom(today, day)),
    visitLoss: losses.extraTrip,
    losses,
    mostVisits: MOST_VISITS,
  };
  const { plan, others, limit, taken } = planned(question, wishes.mostHeads, solver);
  const days = plan.visits.map((d) => addDays(today, d));
  const other = (count: number): OtherCount | undefined => {
    const found = others(count);
    return found === undefined
      ? undefined
      : {
          days: found.visits.map((d) => addDays(today, d)),
          missed: found.missed - plan.missed,
          lateDays: found.lateDays - plan.lateDays,
        };
  };
  const line = ({ id, expected }: { readonly id: string; readonly expected: number }) => {
    const of = coming.find((c) => c.id === id);
    const animal = [...herd.animals.values()].find((a) => (a.id as string) === id);
    if (of === undefined || animal === undefined) return [];
    const unread = of.what === "kid" && !headReadingsOf(animal, kidAges(herd, animal, today)).some(hasFinding);
    return [{ animal: animalRef(herd, animal.id), what: of.what, expected: unread ? undefined : expected }];
  };
  return {
    today,
    visits: visitHeads(question, plan.visits, buckWorlds(situation, coming)).map(
      ({ expected, low, high, chances, from }, i) => ({
        day: days[i] ?? today,
        state: agreed.includes(days[i] ?? today) ? "agreed" : "proposed",
        expected,
        low,
        high,
        chances,
        from: from.flatMap(line),
        ...(taken === undefined ? {} : { taken: taken[i] ?? 0 }),
      }),
    ),
    heads: plan.heads,
    missed: plan.missed,
    lateDays: plan.lateDays,
    fewer: plan.visits.length > fixed.length ? other(plan.visits.length - 1) : undefined,
    more: other(plan.visits.length + 1),
    does: coming.filter((c) => c.what === "dam").length,
    kids: coming.filter((c) => c.what === "kid").length,
    limit,
    rule: "AD-33",
  };
}

/** Chance of its likeliest genotype below which a buck is doubtful. */
const DOUBTFUL_BELOW = 0.99;
/** Most doubtful bucks that are thought through together: 27 worlds. */
const MOST_DOUBTFUL = 3;
const GENOTYPES = 3;

/**
 * The ways in which the bucks of doubtful genotype may be, with what each litter to come then needs.
 *
 * The bucks with most kids to come are taken; a fourth is left as he is believed to be on average.
 */
export function buckWorlds(situation: Situation, coming: ReturnType<typeof comingKids>): readonly ParentWorld[] {
  const { herd, beliefs, today } = situation;
  const dams = coming.flatMap(({ id, what }) => {
    const doe = what === "dam" ? [...herd.animals.values()].find((a) => a.id === id) : undefined;
    const pregnancy = doe && pregnancyOn(herd, doe.id, today);
    const known = new Map<string, number>(); // what her kids need, by what her bucks are taken to be
    return doe && pregnancy ? [{ doe, pregnancy, sires: sireWeights(herd, doe, pregnancy), known }] : [];
  });
  const litters = new Map<AnimalId, number>();
  for (const { sires } of dams)
    for (const [sire, weight] of sires) if (sire !== undefined) litters.set(sire, (litters.get(sire) ?? 0) + weight);
  const doubtful = [...litters]
    .filter(([buck]) => Math.max(...Object.values(beliefs.polled(buck))) < DOUBTFUL_BELOW)
    .sort((a, b) => b[1] - a[1])
    .slice(0, MOST_DOUBTFUL)
    .map(([buck]) => buck);
  if (doubtful.length === 0) return [{ chance: 1, needs: new Map() }];
  // A buck who sires has a Y; what only looks like a buck cannot. Given the genotypes, the bucks' sexes are independent.
  const hasY = (buck: AnimalId, genotype: number): number => {
    const { genotypes, bySex } = beliefs.answer.belief(buck);
    return (genotypes[genotype] ?? 0) === 0 ? 0 : (bySex.XY[genotype] ?? 0) / (genotypes[genotype] ?? 1);
  };
  const weighed = beliefs.answer.joint(doubtful).chances.map((joint, place) => {
    const taken = new Map(
      doubtful.map((buck, i) => [buck, Math.floor(place / GENOTYPES ** (doubtful.length - 1 - i)) % GENOTYPES]),
    );
    return { taken, weight: [...taken].reduce((w, [buck, genotype]) => w * hasY(buck, genotype), joint) };
  });
  const total = weighed.reduce((sum, { weight }) => sum + weight, 0);
  return weighed.flatMap(({ taken, weight }) => {
    if (weight === 0) return [];
    const needs = new Map(
      dams
        .filter(({ sires }) => doubtful.some((buck) => sires.has(buck)))
        .map(({ doe, pregnancy, sires, known }) => {
          const own = new Map([...taken].filter(([buck]) => sires.has(buck)));
          const key = [...own.values()].join(" ");
          const need = known.get(key) ?? hornedKid(situation, doe, pregnancy, own);
          known.set(key, need);
          return [doe.id, need];
        }),
    );
    return [{ chance: weight / total, needs }];
  });
}

/** The last day on which a kid of these could still be done. */
const lastDay = ({ births, windows }: ComingKids): number =>
  births.reduce((latest, { inDays }) => Math.max(latest, inDays), Number.NEGATIVE_INFINITY) +
  windows.reduce((latest, { window }) => Math.max(latest, window.end.value), 0);

/** The plan, without a limit where none is asked for or none is reached. */
function planned(question: VetDaysQuestion, mostHeads: number | undefined, solver: ProgramSolver | undefined) {
  const free = planVetDays(question);
  const ofCount = (count: number): VisitPlan | undefined => free.byCount.find((p) => p.visits.length === count);
  if (mostHeads === undefined) return { plan: free.best, others: ofCount, limit: undefined, taken: undefined };
  if (solver === undefined)
    return {
      plan: free.best,
      others: ofCount,
      limit: { heads: mostHeads, kept: "not-asked" as const },
      taken: undefined,
    };
  const within = (visits?: number) =>
    planVetDaysWithin(question, { heads: mostHeads, ...LIMITS, ...(visits === undefined ? {} : { visits }) }, solver);
  const best = within();
  if (best === undefined)
    return {
      plan: free.best,
      others: ofCount,
      limit: { heads: mostHeads, kept: "not-asked" as const },
      taken: undefined,
    };
  const kept = best.proven === "yes" ? ("yes" as const) : ("best-found" as const);
  const limit = { heads: mostHeads, kept };
  return { plan: best, others: (count: number) => within(count), limit, taken: best.perVisit };
}

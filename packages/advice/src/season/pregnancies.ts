import { addDays, type Day, daysFrom, type Probability, probability, type Sourced } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import { type Exposure, type Pregnancy, pregnancyOf } from "@pollard/husbandry";
import { type Animal, hasKidded, type Herd, kiddingsOf, type Service, servicesOf } from "@pollard/records";
import { animalRef } from "../animal-ref.ts";
import type { AnimalRef } from "../animal-ref.ts";
import { herdBreedOf } from "../settings.ts";
import { WRONG_SIRE } from "../belief/sires.ts";
import type { Situation } from "../situation.ts";

/** Share of pregnancies left out at each end of the days to watch: nine in ten fall between. */
const WATCH_TAIL = 0.05;
/** Chance of being in kid below which a doe is not expected to kid any more. */
const HARDLY_IN_KID: Sourced<number> = { value: 0.02, source: "judgement", checked: "judgement" };
/** Age in days below which a doe without a kidding on record is taken not to have kidded before she came. */
const MAIDEN_DAYS: Sourced<number> = { value: 600, source: "judgement", checked: "judgement" };

/** What to expect of one doe that was served. */
export interface ExpectedDoe {
  readonly doe: AnimalRef;
  /** First and last day on which she was served, of those that count. */
  readonly served: { readonly from: Day; readonly to: Day };
  readonly inKid: Probability;
  /** In kid, and none lost before her time. */
  readonly willKid: Probability;
  /** Nine in ten of her kiddings fall between, half of them by `likely`; none where she is no longer expected to kid. */
  readonly days: { readonly from: Day; readonly likely: Day; readonly to: Day } | undefined;
  /** Chance of one kid, two, and so on, if she kids. */
  readonly litter: readonly Probability[];
  readonly meanKids: number;
  /** Likeliest first; `undefined` is a buck that nobody wrote down. */
  readonly sires: readonly { readonly sire: AnimalRef | undefined; readonly chance: Probability }[];
  /** Chance that a kid of hers grows horns. */
  readonly horned: Probability;
  /** Days on which to watch for another heat, those that are not over. */
  readonly returns: readonly { readonly from: Day; readonly to: Day }[];
}

/** The services that count for a doe: those since she last kidded or lost her kids. */
export interface SinceLast {
  readonly services: readonly Service[];
  /** The last kidding or loss; services count from the day after. */
  readonly after: Day | undefined;
}

/** What of a doe's record counts for a coming kidding. */
export function sinceLast(herd: Herd, doe: Animal): SinceLast {
  const kidded = kiddingsOf(herd, doe.id).at(-1)?.on;
  const lost = doe.abortions.at(-1)?.on;
  const after = kidded === undefined || (lost !== undefined && lost > kidded) ? lost : kidded;
  return { after, services: servicesOf(herd, doe.id).filter((s) => after === undefined || s.until > after) };
}

const HOW = { hand: "heat", pen: "pen", insemination: "insemination" } as const;

/**
 * What her services, heats and checks say of a doe's pregnancy; `undefined` where she was not served.
 *
 * With a day, every day without kids up to it counts; without one, only what was entered.
 */
export function pregnancyOn(herd: Herd, id: AnimalId, today?: Day): Pregnancy | undefined {
  const doe = herd.animals.get(id);
  if (doe === undefined) return undefined;
  const { services, after } = sinceLast(herd, doe);
  const counts = ({ on }: { readonly on: Day }) => after === undefined || on > after;
  const heats = doe.heats.filter(counts).map(({ on }) => on);
  const checks = doe.pregnancyChecks.filter(counts);
  const exposures = services.map(({ on, until, way }): Exposure => {
    const from = after !== undefined && on <= after ? addDays(after, 1) : on;
    return { from, to: until, how: HOW[way] };
  });
  const lastEntry = [...exposures.map(({ to }) => to), ...heats, ...checks.map(({ on }) => on)].sort().at(-1);
  if (lastEntry === undefined) return undefined;
  const breed = doe.breed ?? herdBreedOf(herd);
  return pregnancyOf({
    exposures,
    heats,
    checks: checks.map(({ on, way, found, kids }) => ({
      on,
      method: way,
      result: found,
      ...(kids === undefined ? {} : { kids }),
    })),
    ...(breed === undefined ? {} : { breed }),
    ...kiddedBefore(herd, doe, today ?? lastEntry),
    own: { kiddings: herd.kiddings.length, kids: herd.kiddings.reduce((sum, k) => sum + k.kids.length, 0) },
    today: today ?? lastEntry,
  });
}

/** Whether she has kidded before, where that is known: a bought doe may have, elsewhere. */
function kiddedBefore(herd: Herd, doe: Animal, today: Day): { readonly kiddedBefore?: "yes" | "no" } {
  if (hasKidded(herd, doe)) return { kiddedBefore: "yes" };
  const young = doe.born !== undefined && daysFrom(doe.born, today) < MAIDEN_DAYS.value;
  return doe.kidding !== undefined || young ? { kiddedBefore: "no" } : {};
}

/** The day by which so much of the chance of kidding has come. */
function dayByShare(births: Pregnancy["births"], share: number): Day | undefined {
  let sum = 0;
  for (const { day, chance } of births) {
    sum += chance;
    if (sum >= share - 1e-9) return day;
  }
  return births.at(-1)?.day;
}

/**
 * The days on which a doe may kid, by what was entered. `undefined` if she was not served or is most likely empty.
 *
 * Shape: nine in ten of her kiddings fall between `from` and `to`, half of them by `likely`. That she has not kidded yet is
 *        left out, so that an overdue doe shows as one.
 */
export function kiddingDays(herd: Herd, doe: AnimalId): ExpectedDoe["days"] {
  const pregnancy = pregnancyOn(herd, doe);
  return pregnancy === undefined || pregnancy.inKid < HARDLY_IN_KID.value ? undefined : watchDays(pregnancy);
}

function watchDays({ births }: Pregnancy): ExpectedDoe["days"] {
  const from = dayByShare(births, WATCH_TAIL);
  const likely = dayByShare(births, 0.5);
  const to = dayByShare(births, 1 - WATCH_TAIL);
  return from === undefined || likely === undefined || to === undefined ? undefined : { from, likely, to };
}

/** Days after a service on which a doe that is not in kid comes into heat again, once and a second time. Our reckoning. */
const RETURNS: Sourced<readonly (readonly [number, number])[]> = {
  value: [
    [18, 24],
    [39, 45],
  ],
  source: "msd-oestrus",
  checked: "judgement",
};

/** Who the sire of a doe's coming kids may be, with weights that sum to 1. */
export function sireWeights(
  herd: Herd,
  doe: Animal,
  { conceptions }: Pregnancy,
): ReadonlyMap<AnimalId | undefined, number> {
  const { services } = sinceLast(herd, doe);
  const weights = new Map<AnimalId | undefined, number>();
  for (const { exposure, chance } of conceptions) {
    const bucks = services[exposure]?.bucks ?? [];
    for (const buck of bucks)
      weights.set(buck, (weights.get(buck) ?? 0) + ((1 - WRONG_SIRE.value) * chance) / bucks.length);
  }
  if (weights.size > 0) weights.set(undefined, WRONG_SIRE.value);
  return weights;
}

/** Place of the two horned genes among a kid's genotypes. */
const HORNED = 2;

/** Bucks taken to be of this genotype, by its place among the genotypes. */
export type TakenBucks = ReadonlyMap<AnimalId | undefined, number>;

/**
 * Chance that a kid of this doe grows horns, over the bucks that may be its sire.
 *
 * Each pair is asked for jointly: parents may be related, or may have kids together that tell of both. `taken`: as if these
 * bucks were known to have these genotypes.
 */
export function hornedKid(
  { herd, beliefs }: Situation,
  doe: Animal,
  pregnancy: Pregnancy,
  taken: TakenBucks = new Map(),
): Probability {
  const breed = doe.breed ?? herdBreedOf(herd);
  const assuming = breed === undefined ? {} : { breed };
  let [horned, weight] = [0, 0];
  for (const [sire, chance] of sireWeights(herd, doe, pregnancy)) {
    const place = taken.get(sire);
    const only = [0, 1, 2].map((g) => (g === place ? 1 : 0));
    const kid = beliefs.answer.kid(
      sire,
      doe.id,
      place === undefined ? assuming : { ...assuming, sire: { XX: only, XY: only } },
    );
    if (kid.every((p) => p === 0)) continue; // the record says these two cannot be parents
    horned += chance * (kid[HORNED] ?? 0);
    weight += chance;
  }
  return probability(weight === 0 ? 0 : horned / weight);
}

/**
 * Every doe that was served and may kid, the one due first, first.
 *
 * Shape:  does most likely empty are left out; so are those whose time is over by far.
 * Source: rules AD-30 to AD-32.
 */
export function expectedDoes(situation: Situation): readonly ExpectedDoe[] {
  const { herd, today } = situation;
  const found: ExpectedDoe[] = [];
  for (const doe of herd.animals.values()) {
    if (doe.departure !== undefined) continue;
    const pregnancy = pregnancyOn(herd, doe.id, today);
    if (pregnancy === undefined || pregnancy.inKid < HARDLY_IN_KID.value) continue;
    const { services } = sinceLast(herd, doe);
    const days = services.flatMap(({ on, until }) => [on, until]).sort();
    const [first, last] = [days[0], days.at(-1)];
    if (first === undefined || last === undefined) continue;
    found.push({
      doe: animalRef(herd, doe.id),
      served: { from: first, to: last },
      inKid: pregnancy.inKid,
      willKid: pregnancy.willKid,
      days: watchDays(pregnancy),
      litter: pregnancy.litter,
      meanKids: pregnancy.litter.reduce((sum, p, i) => sum + p * (i + 1), 0),
      sires: [...sireWeights(herd, doe, pregnancy)]
        .map(([sire, chance]) => ({
          sire: sire === undefined ? undefined : animalRef(herd, sire),
          chance: probability(chance),
        }))
        .sort((a, b) => b.chance - a.chance),
      horned: hornedKid(situation, doe, pregnancy),
      returns: RETURNS.value
        .map(([from, to]) => ({ from: addDays(last, from), to: addDays(last, to) }))
        .filter(({ to }) => to >= today),
    });
  }
  return found.sort((a, b) => compareText(a.days?.likely ?? "9", b.days?.likely ?? "9"));
}

const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

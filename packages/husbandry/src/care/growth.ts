import type { Sourced } from "@pollard/base";
import { type Probability, probability } from "@pollard/base";
import { normalBelow } from "../pregnancy/gestation.ts";
import type { KidSex } from "../kid-sex.ts";

const amoah = <T>(value: T): Sourced<T> => ({ value, source: "amoah1996", checked: "read-in-source" });
const judged = <T>(value: T): Sourced<T> => ({ value, source: "judgement", checked: "judgement" });

/** Weight at birth of kids of many kinds of goat, and its spread, kg. */
export const BIRTH_KG = amoah({ mean: 3.24, sd: 0.64 });
/** Kids a litter in the same goats, and kg less for every kid more. */
const BIRTH_LITTER = amoah({ mean: 1.85, perExtraKid: -0.45 });
/** Mean weight at birth of the lightest and the heaviest breed of that study, kg; dwarf breeds are taken as Pygmy. */
const BREED_BIRTH_KG: ReadonlyMap<string, Sourced<number>> = new Map([
  ["toggenburg", amoah(3.9)],
  ["pygmy", amoah(1.7)],
  ["nigerian dwarf", { value: 1.7, source: "judgement", checked: "judgement" }],
]);
/** Bucklings and doelings beside their mean: 1.25 and 1.15 kg in one dwarf breed. */
const SEX_FACTOR: Sourced<{ readonly buck: number; readonly doe: number }> = {
  value: { buck: 1.25 / 1.2, doe: 1.15 / 1.2 },
  source: "hagan2014",
  checked: "read-in-source",
};

/** Gain in the first three months: 10 to 15 lb a month, as kg a day; its ends are taken as one spread either way. */
export const GAIN_KG_A_DAY: Sourced<{ readonly mean: number; readonly sd: number }> = {
  value: { mean: 0.187, sd: 0.037 },
  source: "goat-science-growth",
  checked: "read-in-source",
};

/** How far the weight wanders from an even gain in a day, kg: belly full or empty, a cold, a wet week. */
const WANDER_KG = judged(0.08);
/** Error of a weighing: the scale's, and the share of the weight that a kicking kid adds; and of a guess, as a share. */
const SCALE_ERROR = judged({ kg: 0.1, share: 0.02, guessedShare: 0.15 });

/** One weight of a kid. Ages in whole days, the day of birth is 0. */
export interface Weighing {
  readonly ageDays: number;
  readonly kg: number;
  readonly how: "weighed" | "guessed";
}

/** What decides how heavy a kid is expected to be. */
export interface GrowthKid {
  readonly sex: KidSex;
  readonly breed?: string;
  /** Kids born with it, itself included. */
  readonly litterSize?: number;
}

/** A figure with the range that holds it nine times in ten. */
export interface Ranged {
  readonly mean: number;
  readonly low: number;
  readonly high: number;
}

/** `losing`: lighter than before, beyond what the scale may err. `slow`: gains less than half of what kids like it do. */
export type GrowthState = "thriving" | "slow" | "losing" | "unknown";

/** How a kid grows. */
export interface KidGrowth {
  readonly gainKgADay: Ranged;
  /** What a kid like it is expected to gain. */
  readonly expectedGainKgADay: number;
  readonly state: GrowthState;
  /** Chance that it gains less than half of that. */
  readonly slowChance: Probability;
  /** Its weight at an age from the last weighing on. */
  readonly weightAt: (ageDays: number) => Ranged;
}

/** What a kid like this weighs at birth, kg. */
export function expectedBirthKg({ sex, breed, litterSize }: GrowthKid): number {
  const base = BREED_BIRTH_KG.get(breed?.toLowerCase() ?? "")?.value ?? BIRTH_KG.value.mean;
  const litter = litterSize === undefined ? 0 : BIRTH_LITTER.value.perExtraKid * (litterSize - BIRTH_LITTER.value.mean);
  const factor = sex === "buck" || sex === "wether" ? SEX_FACTOR.value.buck : sex === "doe" ? SEX_FACTOR.value.doe : 1;
  return Math.max(0.3 * base, base + (litter * base) / BIRTH_KG.value.mean) * factor;
}

/** Weight and gain as a pair of numbers with their spread, at one age. */
interface Belief {
  readonly ageDays: number;
  readonly kg: number;
  readonly gain: number;
  readonly kgVar: number;
  readonly gainVar: number;
  readonly both: number;
}

/** Standard deviations either way that hold nine in ten. */
const NINE_IN_TEN = 1.645;
/** Chance from which a kid is said to be slow or losing. */
const SURE_ENOUGH = judged(0.9);
/** Share of the expected gain below which a kid is slow. */
const SLOW_SHARE = judged(0.5);
/** Days between two weighings that are set against each other for a loss. */
const APART_DAYS = 1;

/**
 * How a kid grows, from its weights: its gain with a range, its weight to come, whether it falls behind.
 *
 * Weight and gain are followed from weighing to weighing (a Kalman filter): between them the weight rises by the gain and
 * wanders a little; each weighing pulls both towards what it saw, the more the surer it is. Without any weight, what kids
 * like it do is all there is.
 *
 * Units:   days of age, kg, kg a day. Weighings may come in any order.
 * Assumes: an even gain, which holds for about the first four months; a dwarf kid gains in proportion to its birth weight.
 * Source:  [amoah1996], [hagan2014] at birth, [goat-science-growth] gain, [kalman1960]; rules HD-40 to HD-42.
 */
export function kidGrowth(kid: GrowthKid, weighings: readonly Weighing[]): KidGrowth {
  const start = expectedStart(kid);
  const rising = [...weighings].filter((w) => w.ageDays >= 0).sort((a, b) => a.ageDays - b.ageDays);
  const now = rising.reduce((belief, weighing) => seen(later(belief, weighing.ageDays), weighing), start);
  const slowChance = probability(normalBelow((SLOW_SHARE.value * start.gain - now.gain) / Math.sqrt(now.gainVar)));
  return {
    gainKgADay: ranged(now.gain, now.gainVar),
    expectedGainKgADay: start.gain,
    state: stateOf(rising, slowChance),
    slowChance,
    weightAt: (ageDays) => {
      const then = later(now, ageDays);
      return ranged(then.kg, then.kgVar);
    },
  };
}

/** What is expected of a kid at birth, before it was ever weighed. */
function expectedStart(kid: GrowthKid): Belief {
  const kg = expectedBirthKg(kid);
  const scale =
    (BREED_BIRTH_KG.get(kid.breed?.toLowerCase() ?? "")?.value ?? BIRTH_KG.value.mean) / BIRTH_KG.value.mean;
  return {
    ageDays: 0,
    kg,
    gain: GAIN_KG_A_DAY.value.mean * scale,
    kgVar: ((BIRTH_KG.value.sd * kg) / BIRTH_KG.value.mean) ** 2,
    gainVar: (GAIN_KG_A_DAY.value.sd * scale) ** 2,
    both: 0,
  };
}

/** The same kid some days later, unseen. An earlier age leaves it as it is. */
function later(b: Belief, ageDays: number): Belief {
  const days = Math.max(0, ageDays - b.ageDays);
  return {
    ageDays: b.ageDays + days,
    kg: b.kg + days * b.gain,
    gain: b.gain,
    kgVar: b.kgVar + 2 * days * b.both + days ** 2 * b.gainVar + days * WANDER_KG.value ** 2,
    gainVar: b.gainVar,
    both: b.both + days * b.gainVar,
  };
}

/** The same kid after a weighing of that day. */
function seen(b: Belief, weighing: Weighing): Belief {
  const surprise = b.kgVar + weighingVariance(weighing);
  const pullKg = b.kgVar / surprise;
  const pullGain = b.both / surprise;
  const off = weighing.kg - b.kg;
  return {
    ageDays: b.ageDays,
    kg: b.kg + pullKg * off,
    gain: b.gain + pullGain * off,
    kgVar: b.kgVar * (1 - pullKg),
    gainVar: b.gainVar - pullGain * b.both,
    both: b.both * (1 - pullKg),
  };
}

function weighingVariance({ kg, how }: Weighing): number {
  const { kg: scale, share, guessedShare } = SCALE_ERROR.value;
  return how === "guessed" ? (guessedShare * kg) ** 2 : scale ** 2 + (share * kg) ** 2;
}

function stateOf(rising: readonly Weighing[], slowChance: number): GrowthState {
  const last = rising.at(-1);
  const before = last && rising.findLast((w) => last.ageDays - w.ageDays >= APART_DAYS);
  if (last === undefined || before === undefined) return "unknown";
  const spread = Math.sqrt(weighingVariance(last) + weighingVariance(before));
  if (normalBelow((before.kg - last.kg) / spread) >= SURE_ENOUGH.value) return "losing";
  return slowChance >= SURE_ENOUGH.value ? "slow" : "thriving";
}

const ranged = (mean: number, variance: number): Ranged => ({
  mean,
  low: mean - NINE_IN_TEN * Math.sqrt(variance),
  high: mean + NINE_IN_TEN * Math.sqrt(variance),
});

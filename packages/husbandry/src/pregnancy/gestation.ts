import type { Sourced } from "@pollard/base";
import { addDays, type Day, daysFrom, type Probability, probability } from "@pollard/base";

const amoah = <T>(value: T): Sourced<T> => ({ value, source: "amoah1996", checked: "read-in-source" });

/** Mean length of 608 pregnancies of eight kinds of goat, days. */
export const MEAN_GESTATION = amoah(150.6);
/** Its spread (one standard deviation), days; printed as a standard error, which its size rules out. */
export const GESTATION_SD = amoah(2.64);
/** Days less for every kid more in the litter. */
export const DAYS_PER_EXTRA_KID = amoah(-0.92);
/** Kids per kidding in the same goats, 1,147 of 608: the litter the mean belongs to. */
const MEAN_LITTER = amoah(1147 / 608);

/**
 * How many days longer or shorter a breed carries than the mean, by lower-case name.
 *
 * Toggenburg, Alpine and Granadina: differences from 150.6 of the means printed by Mellado 2000; Saanen: Turkish Saanen
 * 2006. For dwarf breeds only the direction is published; two days is our judgement.
 */
export const BREED_GESTATION: ReadonlyMap<string, Sourced<number>> = new Map([
  ["toggenburg", { value: 1.1, source: "mellado2000", checked: "read-in-source" }],
  ["alpine", { value: 0.8, source: "mellado2000", checked: "read-in-source" }],
  ["granadina", { value: -1.6, source: "mellado2000", checked: "read-in-source" }],
  ["saanen", { value: 1.8, source: "turkish-saanen2006", checked: "read-in-source" }],
  ["pygmy", { value: -2, source: "judgement", checked: "judgement" }],
  ["nigerian dwarf", { value: -2, source: "judgement", checked: "judgement" }],
]);

/** What is known of a pregnancy when its length is asked for. */
export interface Carrying {
  readonly breed?: string;
  /** Kids born, once they are. */
  readonly litterSize?: number;
}

/** Days on either side of the mean that the model reaches; beyond 5 standard deviations nothing is left to share out. */
const REACH = 14;

/** The mean length expected of this pregnancy, days. */
export function meanGestation({ breed, litterSize }: Carrying): number {
  const shift = breed === undefined ? 0 : (BREED_GESTATION.get(breed.toLowerCase())?.value ?? 0);
  const litter = litterSize === undefined ? 0 : DAYS_PER_EXTRA_KID.value * (litterSize - MEAN_LITTER.value);
  return MEAN_GESTATION.value + shift + litter;
}

/**
 * The chance of each length of pregnancy.
 *
 * The normal distribution cut into whole days, a day holding what lies within half a day of it.
 *
 * Units:   whole days from service to kidding, and chances.
 * Shape:   rising lengths without a gap; chances sum to 1.
 * Assumes: the litter's effect counts from the mean litter of the study, so an unknown litter has the study's mean.
 * Source:  [amoah1996], [mellado2000]; rule HD-15.
 */
export function gestationLengths(carrying: Carrying): readonly GestationLength[] {
  const mean = meanGestation(carrying);
  const lengths = LENGTHS.get(mean) ?? lengthsAround(mean);
  LENGTHS.set(mean, lengths);
  return lengths;
}

/** A length of pregnancy, whole days, and its chance. */
interface GestationLength {
  readonly days: number;
  readonly chance: Probability;
}

/** Already worked out, by the mean: breeds and sizes of litters are few. */
const LENGTHS = new Map<number, readonly GestationLength[]>();

function lengthsAround(mean: number): readonly GestationLength[] {
  const first = Math.floor(mean) - REACH;
  const below = (x: number) => normalBelow((x - mean) / GESTATION_SD.value);
  const raw = Array.from({ length: 2 * REACH + 2 }, (_, i) => ({
    days: first + i,
    chance: below(first + i + 0.5) - below(first + i - 0.5),
  }));
  const sum = raw.reduce((a, r) => a + r.chance, 0);
  return raw.map((r) => ({ days: r.days, chance: probability(r.chance / sum) }));
}

/** The chance of each day as the day of kidding, for one day of service; rising days, chances sum to 1. */
export const dueDays = (
  service: Day,
  carrying: Carrying,
): readonly { readonly day: Day; readonly chance: Probability }[] =>
  gestationLengths(carrying).map(({ days, chance }) => ({ day: addDays(service, days), chance }));

/** The day a doe served on `service` is expected to kid: the nearest whole day to the mean. */
export const expectedDueDay = (service: Day, carrying: Carrying): Day =>
  addDays(service, Math.round(meanGestation(carrying)));

/** How a recorded length looks. `implausible` = more likely a wrong date or a wrong service than a pregnancy. */
export type LengthPlausibility = "usual" | "unusual" | "implausible";

/** Standard deviations beyond which a length is unusual (1 in 80), or implausible (1 in 16,000). Our judgement. */
const UNUSUAL_SDS = 2.5;
const IMPLAUSIBLE_SDS = 4;

/**
 * Whether this many days from service to kidding can be right.
 *
 * @example
 * lengthPlausibility(120, { litterSize: 2 }); // "implausible"
 */
export function lengthPlausibility(days: number, carrying: Carrying): LengthPlausibility {
  const sds = Math.abs(days - meanGestation(carrying)) / GESTATION_SD.value;
  if (sds > IMPLAUSIBLE_SDS) return "implausible";
  return sds > UNUSUAL_SDS ? "unusual" : "usual";
}

/** Days from one heat to the next. */
const HEAT_CYCLE: Sourced<number> = { value: 21, source: "msd-oestrus", checked: "read-in-source" };

/**
 * How well a service explains a kidding on this day, to weigh the bucks that may be the sire.
 *
 * A service of one day was seen, so the doe was in heat: it counts once. In a pen any day may have been the day: days share
 * one heat among them, and a stay longer than a cycle of 21 days holds a heat in each 21 days.
 *
 * Units:   first and last day of access, both included. The result is relative: compare it between bucks, nothing else.
 * Assumes: the doe came into heat in every cycle, and each heat with a buck about was as likely to take as another.
 * Source:  [amoah1996] lengths; 21-day cycle [msd-oestrus]; rule HD-16.
 */
export function serviceLikelihood(from: Day, to: Day, kidding: Day, carrying: Carrying): number {
  const stay = daysFrom(from, to) + 1;
  const perDay = 1 / Math.min(Math.max(stay, 1), HEAT_CYCLE.value);
  const [shortest, longest] = [daysFrom(to, kidding), daysFrom(from, kidding)];
  return gestationLengths(carrying).reduce(
    (sum, { days, chance }) => (days >= shortest && days <= longest ? sum + chance * perDay : sum),
    0,
  );
}

/**
 * The share of the standard normal distribution below `z`.
 *
 * Source: Abramowitz & Stegun 7.1.26 for the error function, absolute error below 1.5e-7; from memory, checked against the
 *         printed table in the tests.
 */
export function normalBelow(z: number): number {
  const x = Math.abs(z) / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * x);
  const poly = t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  const tail = (poly * Math.exp(-x * x)) / 2;
  return z < 0 ? tail : 1 - tail;
}

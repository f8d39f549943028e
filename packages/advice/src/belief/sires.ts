import type { Sourced } from "@pollard/base";
import { daysFrom } from "@pollard/base";
import type { AnimalId, Member, SireCandidate } from "@pollard/genetics";
import { type Carrying, serviceLikelihood } from "@pollard/husbandry";
import { type Animal, type Herd, type Kidding, kiddingOf, type Service, servicesOf } from "@pollard/records";

/**
 * How often a written sire is not the sire: 32 of 2,500 herd-book entries of horned by horned gave a hornless kid. A floor,
 * since only wrong sires that show are counted.
 */
export const WRONG_SIRE: Sourced<number> = { value: 32 / 2500, source: "asdell-crew1925", checked: "read-in-source" };

/**
 * How often two lambs of one birth had two sires where the ewes ran with several rams: 160 of 539 pairs of twins. Nobody has
 * counted it in goats, as far as was found.
 */
export const TWINS_OF_TWO_SIRES: Sourced<number> = { value: 160 / 539, source: "berry2020", checked: "read-in-source" };

/**
 * How often each kid of a litter draws its own sire where more than one buck could have served the same heat; in all other
 * litters one buck sired all. Twice the share of twins seen to be of two sires, for of two bucks as likely as each other half
 * of such litters have one all the same. That the count of sheep holds for goats is judged.
 */
export const MIXED_LITTERS: Sourced<number> = {
  value: 2 * TWINS_OF_TWO_SIRES.value,
  source: "judgement",
  checked: "judgement",
};

/** Days by which two services may lie apart and be of one heat. */
const ONE_HEAT_DAYS: Sourced<number> = { value: 2, source: "judgement", checked: "judgement" };

/** Longest pregnancy considered when looking back for a service, days. */
const LOOK_BACK_DAYS = 175;

/** The services that could have led to a kidding: of the same doe, in the months before it. */
export function servicesBefore(herd: Herd, kidding: Kidding): readonly Service[] {
  return servicesOf(herd, kidding.dam).filter(
    (s) => s.on <= kidding.on && daysFrom(s.until, kidding.on) <= LOOK_BACK_DAYS,
  );
}

/** What decides how long a pregnancy lasts, as far as it is on record. */
export function carryingOf(herd: Herd, dam: AnimalId, breed: string | undefined, litterSize?: number): Carrying {
  const own = herd.animals.get(dam)?.breed ?? breed;
  return { ...(own === undefined ? {} : { breed: own }), ...(litterSize === undefined ? {} : { litterSize }) };
}

/**
 * Who may be the sire, with weights that sum to 1. `undefined` among them is a buck that nobody wrote down.
 *
 * A single written sire is believed but for the herd books' own error rate. Of several bucks each is weighed by how well
 * his days with the doe explain the day of birth. Where the kidding names nobody, the services tell.
 *
 * Shape:   empty where nothing is on record at all.
 * Assumes: bucks in the pen on the same days are equally likely.
 * Source:  [asdell-crew1925] for the error of records; rule AD-4.
 */
export function sireCandidates(herd: Herd, animal: Animal, breed: string | undefined): readonly SireCandidate[] {
  const kidding = kiddingOf(herd, animal);
  return candidatesAmong(animal, kidding ? weighedBucks(herd, kidding, breed) : new Map());
}

/** The bucks that the record names, or else all that were weighed, and the one that nobody wrote down. */
function candidatesAmong({ sires }: Animal, weighed: ReadonlyMap<AnimalId, number>): readonly SireCandidate[] {
  const named = sires.length > 0 ? sires : [...weighed.keys()];
  if (named.length === 0) return [];
  const raw = named.map((sire) => weighed.get(sire) ?? 0);
  const total = raw.reduce((a, b) => a + b, 0);
  const known = 1 - WRONG_SIRE.value;
  const candidates = named.map((sire, i) => ({
    sire,
    weight: known * (total > 0 ? (raw[i] ?? 0) / total : 1 / named.length),
  }));
  return [...candidates.filter((c) => c.weight > 0), { sire: undefined, weight: WRONG_SIRE.value }];
}

/** Who may be the sire of an animal, and the litter that shares him. */
export type HandedSires = Pick<Member, "sires" | "litter">;

/** The possible sires of every animal of a herd, litter by litter. */
export function herdSires(herd: Herd, breed: string | undefined): ReadonlyMap<AnimalId, HandedSires> {
  const found = new Map<AnimalId, HandedSires>();
  for (const kidding of herd.kiddings)
    for (const [id, handed] of siresOfLitter(herd, kidding, breed)) found.set(id, handed);
  for (const animal of herd.animals.values())
    if (!found.has(animal.id)) found.set(animal.id, { sires: candidatesAmong(animal, new Map()) });
  return found;
}

/**
 * The possible sires of the kids of one kidding.
 *
 * Of a litter whose other kids may be of several bucks, a kid whose own sire was written down has the same ones, with what
 * that record says: so its mates hear of it.
 *
 * Source: rules AD-103, AD-104.
 */
function siresOfLitter(herd: Herd, kidding: Kidding, breed: string | undefined): ReadonlyMap<AnimalId, HandedSires> {
  const weighed = weighedBucks(herd, kidding, breed);
  const kids = kidding.kids
    .flatMap((id) => herd.animals.get(id) ?? [])
    .filter((animal) => animal.kidding === kidding.entry)
    .map((animal) => ({ id: animal.id, own: candidatesAmong(animal, weighed) }));
  const open = kids.reduce<readonly SireCandidate[]>((most, { own }) => (own.length > most.length ? own : most), []);
  const bucks = open.flatMap(({ sire }) => sire ?? []);
  const litter = { id: kidding.entry, mixed: shareAHeat(herd, kidding, bucks, breed) ? MIXED_LITTERS.value : 0 };
  return new Map(
    kids.map(({ id, own }): readonly [AnimalId, HandedSires] => {
      if (kids.length < 2 || own.some(({ sire }) => !open.some((o) => o.sire === sire))) return [id, { sires: own }];
      if (own.length === open.length || own.length === 0) return [id, { sires: own, litter }];
      const weightOf = new Map(own.map(({ sire, weight }) => [sire, weight]));
      return [id, { sires: open.map((o) => ({ ...o, said: (weightOf.get(o.sire) ?? 0) / o.weight })), litter }];
    }),
  );
}

/** Whether two of some bucks could have served the same heat; of bucks whose days nobody wrote down that is open, and they could. */
function shareAHeat(herd: Herd, kidding: Kidding, bucks: readonly AnimalId[], breed: string | undefined): boolean {
  const carrying = carryingOf(herd, kidding.dam, breed, kidding.kids.length);
  const services = servicesBefore(herd, kidding).filter(
    (s) => serviceLikelihood(s.on, s.until, kidding.on, carrying) > 0,
  );
  const of = (buck: AnimalId): readonly Service[] => services.filter((s) => s.bucks.includes(buck));
  return bucks.some((a, i) =>
    bucks.slice(i + 1).some((b) => {
      const [hers, his] = [of(a), of(b)];
      return hers.length === 0 || his.length === 0 || hers.some((s) => his.some((t) => areOfOneHeat(s, t)));
    }),
  );
}

const areOfOneHeat = (a: Service, b: Service): boolean =>
  daysFrom(a.until, b.on) <= ONE_HEAT_DAYS.value && daysFrom(b.until, a.on) <= ONE_HEAT_DAYS.value;

/** Every buck that was with the dam in time, with how well his days explain the birth. */
function weighedBucks(herd: Herd, kidding: Kidding, breed: string | undefined): ReadonlyMap<AnimalId, number> {
  const carrying = carryingOf(herd, kidding.dam, breed, kidding.kids.length);
  const weights = new Map<AnimalId, number>();
  for (const service of servicesBefore(herd, kidding)) {
    const likelihood = serviceLikelihood(service.on, service.until, kidding.on, carrying);
    if (likelihood > 0) for (const buck of service.bucks) weights.set(buck, (weights.get(buck) ?? 0) + likelihood);
  }
  return weights;
}

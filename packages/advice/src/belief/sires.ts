import type { Sourced } from "@pollard/base";
import { daysFrom } from "@pollard/base";
import type { AnimalId, SireCandidate } from "@pollard/genetics";
import { type Carrying, serviceLikelihood } from "@pollard/husbandry";
import type { Animal, Herd, Kidding, Service } from "@pollard/records";

/**
 * How often a written sire is not the sire: 32 of 2,500 herd-book entries of horned by horned gave a hornless kid. A floor,
 * since only wrong sires that show are counted.
 */
export const WRONG_SIRE: Sourced<number> = { value: 32 / 2500, source: "asdell-crew1925", checked: "read-in-source" };

/** Longest pregnancy considered when looking back for a service, days. */
const LOOK_BACK_DAYS = 175;

/** The services that could have led to a kidding: of the same doe, in the months before it. */
export function servicesBefore(herd: Herd, kidding: Kidding): readonly Service[] {
  return herd.services.filter(
    (s) => s.doe === kidding.dam && s.on <= kidding.on && daysFrom(s.until, kidding.on) <= LOOK_BACK_DAYS,
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
 * Assumes: bucks in the pen on the same days are equally likely; every kid of a litter is a fresh draw among them.
 * Source:  [asdell-crew1925] for the error of records; rule AD-4.
 */
export function sireCandidates(herd: Herd, animal: Animal, breed: string | undefined): readonly SireCandidate[] {
  const kidding = herd.kiddings.find((k) => k.entry === animal.kidding);
  const weighed = kidding ? weighedBucks(herd, kidding, breed) : new Map<AnimalId, number>();
  const named = animal.sires.length > 0 ? animal.sires : [...weighed.keys()];
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

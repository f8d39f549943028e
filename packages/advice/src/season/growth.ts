import { type Day, daysFrom } from "@pollard/base";
import { expectedBirthKg, type GrowthState, kidGrowth, ninetyDayKg, type Ranged } from "@pollard/husbandry";
import { type Animal, bornTogether, type Herd } from "@pollard/records";
import { animalRef } from "../animal-ref.ts";
import type { AnimalRef } from "../animal-ref.ts";
import { herdBreedOf } from "../settings.ts";
import type { Situation } from "../situation.ts";

/** How one kid grows, with what it was weighed. */
export interface KidGrowthModel {
  readonly kid: AnimalRef;
  readonly ageDays: number;
  /** The last weight, and what was gained since the one before. */
  readonly last: { readonly kg: number; readonly on: Day; readonly how: "weighed" | "guessed" } | undefined;
  readonly sinceBefore: { readonly kg: number; readonly days: number } | undefined;
  readonly gainKgADay: Ranged;
  readonly expectedGainKgADay: number;
  readonly state: GrowthState;
  /** Its weight today, and on any later day. */
  readonly today: Ranged;
  /** The corrected weight at 90 days, where a weight near that age is on record. */
  readonly ninetyDayKg: number | undefined;
}

/** Age in days up to which a kid's gain is followed: after about four months it is no longer even. */
const FOLLOWED_DAYS = 120;
const YEAR_DAYS = 365.25;

/** The model of a kid's growth, and what it would weigh on any day; `undefined` without a birth date. */
export function growthOf(herd: Herd, animal: Animal) {
  const { born } = animal;
  if (born === undefined) return undefined;
  const litter = bornTogether(herd, animal);
  const breed = animal.breed ?? herdBreedOf(herd);
  const kid = {
    sex: animal.sex,
    ...(breed === undefined ? {} : { breed }),
    ...(litter.length === 0 ? {} : { litterSize: litter.length }),
  };
  const weights = animal.weights.filter((w) => w.on >= born && daysFrom(born, w.on) <= FOLLOWED_DAYS);
  const growth = kidGrowth(
    kid,
    weights.map(({ on, kg, how }) => ({ ageDays: daysFrom(born, on), kg, how })),
  );
  return { kid, litter, weights, growth, born };
}

/** Everything of a kid's growth; `undefined` for animals without a birth date, grown up, gone or born dead. */
export function kidGrowthModel({ herd, today }: Situation, animal: Animal): KidGrowthModel | undefined {
  const found = growthOf(herd, animal);
  if (found === undefined || animal.departure !== undefined || animal.bornAs === "dead") return undefined;
  const { kid, litter, weights, growth, born } = found;
  const ageDays = daysFrom(born, today);
  if (ageDays < 0 || ageDays > FOLLOWED_DAYS) return undefined;
  const last = weights.at(-1);
  const before = last && weights.findLast((w) => w.on < last.on);
  const nearNinety = weights.toSorted(
    (a, b) => Math.abs(daysFrom(born, a.on) - 90) - Math.abs(daysFrom(born, b.on) - 90),
  )[0];
  const dam = animal.dam === undefined ? undefined : herd.animals.get(animal.dam);
  return {
    kid: animalRef(herd, animal.id),
    ageDays,
    last: last && { kg: last.kg, on: last.on, how: last.how },
    sinceBefore: last && before && { kg: last.kg - before.kg, days: daysFrom(before.on, last.on) },
    gainKgADay: growth.gainKgADay,
    expectedGainKgADay: growth.expectedGainKgADay,
    state: growth.state,
    today: growth.weightAt(ageDays),
    ninetyDayKg:
      nearNinety &&
      ninetyDayKg(
        {
          sex: animal.sex,
          bornTogether: Math.max(1, litter.length),
          raisedTogether: Math.max(1, raisedAt(litter, nearNinety.on)),
          damYears: dam?.born === undefined ? undefined : Math.floor(daysFrom(dam.born, born) / YEAR_DAYS),
          birthKg: weights.find((w) => w.on === born)?.kg ?? expectedBirthKg(kid),
        },
        daysFrom(born, nearNinety.on),
        nearNinety.kg,
      ),
  };
}

const raisedAt = (litter: readonly Animal[], on: Day): number =>
  litter.filter((kid) => kid.bornAs !== "dead" && (kid.departure === undefined || kid.departure.on > on)).length;

/**
 * Every kid whose growth is followed, those falling behind first, then the youngest.
 *
 * Source: rules AD-36, AD-37.
 */
export function growthModels(situation: Situation): readonly KidGrowthModel[] {
  const rank = { losing: 0, slow: 1, unknown: 2, thriving: 2 } as const;
  return [...situation.herd.animals.values()]
    .flatMap((animal) => kidGrowthModel(situation, animal) ?? [])
    .sort((a, b) => rank[a.state] - rank[b.state] || a.ageDays - b.ageDays);
}

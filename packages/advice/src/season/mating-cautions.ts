import { addDays, type Day, daysFrom, type Sourced } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import { BUCK_LOAD, FIRST_BREEDING } from "@pollard/husbandry";
import { type Animal, type Herd, kiddingsOf } from "@pollard/records";
import { animalRef } from "../animal-ref.ts";
import type { AnimalRef } from "../animal-ref.ts";

/** What speaks against a service before it is written down, or right after. It warns, it never forbids. */
export type ServiceCaution =
  | { readonly code: "doe-too-young"; readonly doe: AnimalRef; readonly ageDays: number }
  | { readonly code: "doe-too-light"; readonly doe: AnimalRef; readonly kg: number; readonly readyKg: number }
  | { readonly code: "doe-not-weighed"; readonly doe: AnimalRef; readonly readyKg: number }
  | { readonly code: "buck-too-young"; readonly buck: AnimalRef; readonly ageDays: number }
  | { readonly code: "buck-has-enough"; readonly buck: AnimalRef; readonly does: number; readonly most: number };

/** Age in days from which doelings are bred at all: seven months. */
const YOUNGEST_DOE: Sourced<number> = { value: 212, source: "langston-stages", checked: "read-in-source" };
/** Ages in days from which a buck serves ten does, and thirty. */
const HALF_YEAR = 182;
const YEAR = 365;
/** A doe is grown, for her weight to stand for what others will weigh, from two years on. */
const GROWN_DAYS = 730;
/** Days for which a weight still tells what an animal weighs, young and grown. */
const WEIGHT_HOLDS = { young: 45, grown: 730 } as const;
/** Days in which the does of one season are served. */
const SEASON_DAYS = 90;

/** A service that somebody thinks of. */
export interface ServiceAsked {
  readonly doe: AnimalId;
  readonly bucks: readonly AnimalId[];
  readonly on: Day;
}

/**
 * What speaks against serving this doe with these bucks on a day: too young, too light, a buck with does enough.
 *
 * A doe who has kidded is grown enough. What a young doe should weigh is a share of what the herd's grown does weigh; without
 * such weights, the handbook's figure for dairy goats.
 *
 * Shape:  empty where nothing speaks against it.
 * Source: [langston-stages], [unh-goats]; rule AD-49.
 */
export function serviceCautions(herd: Herd, { doe, bucks, on }: ServiceAsked): readonly ServiceCaution[] {
  const found = herd.animals.get(doe);
  return [
    ...(found === undefined ? [] : doeCautions(herd, found, on)),
    ...bucks.flatMap((id) => {
      const buck = herd.animals.get(id);
      return buck === undefined ? [] : buckCautions(herd, buck, doe, on);
    }),
  ];
}

function doeCautions(herd: Herd, doe: Animal, on: Day): readonly ServiceCaution[] {
  if (doe.born === undefined || kiddingsOf(herd, doe.id).some((k) => k.on <= on)) return [];
  const ref = animalRef(herd, doe.id);
  const ageDays = daysFrom(doe.born, on);
  if (ageDays >= GROWN_DAYS) return [];
  const readyKg = readyWeight(herd, on);
  const last = doe.weights.findLast((w) => w.on <= on && daysFrom(w.on, on) <= WEIGHT_HOLDS.young);
  return [
    ...(ageDays < YOUNGEST_DOE.value ? [{ code: "doe-too-young", doe: ref, ageDays } as const] : []),
    ...(last === undefined
      ? [{ code: "doe-not-weighed", doe: ref, readyKg } as const]
      : last.kg < readyKg
        ? [{ code: "doe-too-light", doe: ref, kg: last.kg, readyKg } as const]
        : []),
  ];
}

/** What a doe of this herd should weigh before her first service, kg. */
export function readyWeight(herd: Herd, on: Day): number {
  const grown = [...herd.animals.values()].flatMap((animal) => {
    if (animal.sex !== "doe" || animal.born === undefined || daysFrom(animal.born, on) < GROWN_DAYS) return [];
    const born = animal.born;
    const last = animal.weights.findLast(
      (w) => w.on <= on && daysFrom(w.on, on) <= WEIGHT_HOLDS.grown && daysFrom(born, w.on) >= GROWN_DAYS,
    );
    return last === undefined ? [] : [last.kg];
  });
  const { share, dairyKg } = FIRST_BREEDING.value;
  return grown.length === 0 ? dairyKg : (share[0] * grown.reduce((a, b) => a + b, 0)) / grown.length;
}

function buckCautions(herd: Herd, buck: Animal, doe: AnimalId, on: Day): readonly ServiceCaution[] {
  const ref = animalRef(herd, buck.id);
  const ageDays = buck.born === undefined ? YEAR : daysFrom(buck.born, on);
  if (ageDays < HALF_YEAR) return [{ code: "buck-too-young", buck: ref, ageDays }];
  const { atSixMonths, atOneYear } = BUCK_LOAD.value;
  const most = ageDays < YEAR ? atSixMonths : atOneYear;
  const does = new Set(
    herd.services
      .filter((s) => s.bucks.includes(buck.id) && s.way !== "insemination")
      .filter((s) => s.until >= addDays(on, -SEASON_DAYS) && s.on <= on)
      .map((s) => s.doe),
  ).add(doe);
  return does.size > most ? [{ code: "buck-has-enough", buck: ref, does: does.size, most }] : [];
}

import type { AnimalId } from "@pollard/genetics";
import { type HeadReading, SIGNS } from "@pollard/husbandry";
import { type Animal, bornTogether, type Herd } from "@pollard/records";
import { animalRef } from "../animal-ref.ts";
import { headReadingsOf, kidAges } from "./kid-facts.ts";
import { kidModel } from "./kid-model.ts";
import type { AnimalRef } from "../animal-ref.ts";
import { findingOf } from "./readers-apart.ts";
import type { ComparedKid, ComparisonModel } from "./record-models.ts";
import type { Situation } from "../situation.ts";

/** The litter mates of a kid that were born alive, itself among them, in the order of the kidding. */
export function litterOf(herd: Herd, id: AnimalId): readonly AnimalRef[] {
  const animal = herd.animals.get(id);
  const kids = animal === undefined ? [] : bornTogether(herd, animal);
  return kids.filter(({ bornAs }) => bornAs !== "dead").map((kid) => animalRef(herd, kid.id));
}

/** Two kids side by side: their latest signs, what is believed of each, and why. `undefined` where one has no birth date. */
export function comparedKids(situation: Situation, one: AnimalId, other: AnimalId): ComparisonModel | undefined {
  const [left, right] = [comparedKid(situation, one), comparedKid(situation, other)];
  if (left === undefined || right === undefined) return undefined;
  return { kids: [left, right], litter: litterOf(situation.herd, one) };
}

function comparedKid(situation: Situation, id: AnimalId): ComparedKid | undefined {
  const kid = kidModel(situation, id);
  const animal = situation.herd.animals.get(id);
  if (kid === undefined || animal === undefined) return undefined;
  const readings = readingsOf(situation, animal);
  return {
    kid,
    signs: SIGNS.map((sign) => {
      const reading = readings.findLast((r) => r.signs[sign] !== undefined);
      const finding = reading === undefined ? undefined : findingOf(reading.signs, sign);
      return {
        sign,
        found:
          reading === undefined || finding === undefined
            ? undefined
            : { finding, ageDays: reading.ageDays, by: reading.reader },
      };
    }),
  };
}

const readingsOf = ({ herd, today }: Situation, animal: Animal): readonly HeadReading[] =>
  headReadingsOf(animal, kidAges(herd, animal, today));

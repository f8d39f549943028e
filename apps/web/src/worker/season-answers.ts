import {
  type AnimalRef,
  animalRef,
  type ExpectedDoe,
  expectedDoes,
  pregnancyOn,
  type Situation,
  vetDaysModel,
  type VetDaysModel,
  type VisitWishes,
  visitWishes,
} from "@pollard/advice";
import type { Day } from "@pollard/base";
import type { Herd, VetDay } from "@pollard/records";
import { VET_NAME } from "./season-settings.ts";
import { solver } from "./solver.ts";

/** A doe that may kid, with every day on which she may. */
export interface DueDoe {
  readonly expected: ExpectedDoe;
  /** By day; the chances sum to 1, given that she kids. */
  readonly births: readonly { readonly day: Day; readonly chance: number }[];
}

/** A kid whose head is still open: when it was born, and the last day of its window. */
export interface OpenKid {
  readonly kid: AnimalRef;
  readonly born: Day;
  readonly end: Day;
}

/** Days that are tried out on the screen, beside those that the record holds. */
export interface TriedDays {
  readonly pin: readonly Day[];
}

/** The season as far as it can be seen: who kids when, when the vet had best come, and what the vet is asked for. */
export interface SeasonModel {
  readonly due: readonly DueDoe[];
  readonly kids: readonly OpenKid[];
  readonly plan: VetDaysModel;
  readonly wishes: VisitWishes;
  /** The entries of the days that are agreed, to be called off by. */
  readonly agreed: readonly VetDay[];
  /** Who comes, for the next day that is agreed. */
  readonly vet: string | undefined;
}

/** The vet's name as it was set, else the one that stands on the last visit that names one. */
function vetOf({ settings, vetDays }: Herd): string | undefined {
  const set = settings.get(VET_NAME);
  return typeof set === "string" && set !== "" ? set : vetDays.findLast(({ vet }) => vet !== undefined)?.vet;
}

/** What the screens of the season ask. */
export interface SeasonAnswers {
  season(today: Day, tried: TriedDays): Promise<SeasonModel>;
  visitWishes(): VisitWishes & { readonly vet: string | undefined };
}

/** The season's answers of whichever herd is open. */
export function seasonAnswers(herdNow: () => Herd, situationOn: (today: Day) => Situation): SeasonAnswers {
  return {
    visitWishes: () => ({ ...visitWishes(herdNow()), vet: vetOf(herdNow()) }),
    async season(today, { pin }) {
      const situation = situationOn(today);
      const { herd } = situation;
      const wishes = visitWishes(herd);
      const limited = wishes.mostHeads === undefined ? {} : { solver: await solver() };
      return {
        due: expectedDoes(situation).map((expected) => ({
          expected,
          births: pregnancyOn(herd, expected.doe.id, today)?.births.map(({ day, chance }) => ({ day, chance })) ?? [],
        })),
        kids: situation
          .openHeads()
          .flatMap(({ animal, advice }) =>
            animal.born === undefined || advice.end < today
              ? []
              : [{ kid: animalRef(herd, animal.id), born: animal.born, end: advice.end }],
          ),
        plan: vetDaysModel(situation, { pin, ...limited }),
        wishes,
        agreed: herd.vetDays.filter((visit) => visit.on >= today),
        vet: vetOf(herd),
      };
    },
  };
}

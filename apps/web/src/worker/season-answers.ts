import {
  type AnimalRef,
  animalRef,
  barnCard,
  type BarnCardModel,
  calendarItems,
  type CalendarItem,
  type CareGiven,
  careGiven,
  type CareTask,
  careTasks,
  careWishes,
  type ExpectedDoe,
  expectedDoes,
  heldBack,
  type KidGrowthModel,
  kidGrowthModel,
  kidPaper,
  type KidPaperModel,
  pregnancyOn,
  type ServiceAsked,
  type ServiceCaution,
  serviceCautions,
  type Situation,
  vetDaysModel,
  type VetDaysModel,
  vetList,
  type VetListModel,
  type VisitorsModel,
  visitorsModel,
  type VisitWishes,
  visitWishes,
} from "@pollard/advice";
import type { Day } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import { CARE_RULES, type CareRule, careRulesFor, type CareTaskCode } from "@pollard/husbandry";
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

/** An animal whose milk or meat is held back, as the vet said. */
export type HeldBack = ReturnType<typeof heldBack>[number];

/** Everything of care that is open, and whose milk or meat is held back. */
export interface CareModel {
  readonly tasks: readonly CareTask[];
  readonly held: readonly HeldBack[];
}

/** One animal's care: what is open or coming up, what was answered (newest first), and how it grows. */
export interface AnimalCare {
  readonly tasks: readonly CareTask[];
  readonly given: readonly CareGiven[];
  readonly held: HeldBack | undefined;
  readonly growth: KidGrowthModel | undefined;
}

/** One task of care as it stands here: whether it reminds, when, and whose word that is. */
export interface CareRuleLine {
  readonly code: CareTaskCode;
  readonly kind: CareRule["kind"];
  readonly anchor: CareRule["from"];
  readonly state: "on" | "off";
  readonly from: number;
  readonly by: number;
  /** What it would be without the vet's word, and by which source. */
  readonly usual: { readonly from: number; readonly by: number; readonly source: string };
}

/** Every task, in the order of a season, those that are off among them. */
function careRuleLines(herd: Herd): readonly CareRuleLine[] {
  const wishes = careWishes(herd);
  const reminding = new Set(careRulesFor(wishes).map(({ code }) => code));
  const on = careRulesFor(new Map([...wishes].map(([code, wish]) => [code, { ...wish, state: "on" }])));
  return CARE_RULES.map((rule) => {
    const { days } = on.find(({ code }) => code === rule.code) ?? rule;
    return {
      code: rule.code,
      kind: rule.kind,
      anchor: rule.from,
      state: reminding.has(rule.code) ? "on" : "off",
      from: days.value.from,
      by: days.value.by,
      usual: { from: rule.days.value.from, by: rule.days.value.by, source: rule.days.source },
    };
  });
}

/** Which sheet: the blank card, the gate, the vet's list of a day, or a goat's paper with what was ticked. */
export type SheetAsked =
  | { readonly kind: "barn" | "gate" }
  | { readonly kind: "vet"; readonly day: Day }
  | { readonly kind: "kid"; readonly id: AnimalId; readonly notes: "show" | "keep-private" };

/** What a sheet is made from. */
export type SheetMatter =
  | { readonly kind: "barn"; readonly model: BarnCardModel }
  | { readonly kind: "gate"; readonly model: VisitorsModel }
  | { readonly kind: "vet"; readonly model: VetListModel }
  | { readonly kind: "kid"; readonly model: KidPaperModel };

/** Days before its window in which a task shows on the animal's own page. */
const COMING_DAYS = 14;

/** What the screens of the season ask. */
export interface SeasonAnswers {
  season(today: Day, tried: TriedDays): Promise<SeasonModel>;
  care(today: Day): CareModel;
  careOf(id: AnimalId, today: Day): AnimalCare | undefined;
  careRules(): readonly CareRuleLine[];
  visitors(today: Day): VisitorsModel;
  serviceCautions(asked: ServiceAsked): readonly ServiceCaution[];
  sheet(asked: SheetAsked, today: Day): SheetMatter | undefined;
  calendar(today: Day): readonly CalendarItem[];
  visitWishes(): VisitWishes & { readonly vet: string | undefined };
}

/** The season's answers of whichever herd is open. */
export function seasonAnswers(herdNow: () => Herd, situationOn: (today: Day) => Situation): SeasonAnswers {
  return {
    care: (today) => ({ tasks: careTasks(situationOn(today)), held: heldBack(situationOn(today)) }),
    careOf(id, today) {
      const situation = situationOn(today);
      const animal = situation.herd.animals.get(id);
      return (
        animal && {
          tasks: careTasks(situation, COMING_DAYS, [animal]),
          given: careGiven(animal),
          held: heldBack(situation).find((each) => each.animal.id === id),
          growth: kidGrowthModel(situation, animal),
        }
      );
    },
    careRules: () => careRuleLines(herdNow()),
    visitors: (today) => visitorsModel(situationOn(today)),
    serviceCautions: (asked) => serviceCautions(herdNow(), asked),
    sheet(asked, today) {
      const situation = situationOn(today);
      switch (asked.kind) {
        case "barn":
          return { kind: "barn", model: barnCard(situation) };
        case "gate":
          return { kind: "gate", model: visitorsModel(situation) };
        case "vet":
          return { kind: "vet", model: vetList(situation, asked.day) };
        case "kid": {
          const model = kidPaper(situation, asked.id, asked.notes === "show" ? { notes: "show" } : {});
          return model && { kind: "kid", model };
        }
      }
    },
    calendar: (today) => calendarItems(situationOn(today)),
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

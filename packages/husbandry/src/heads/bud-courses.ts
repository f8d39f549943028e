import { present } from "@pollard/base";
import { BUD_AGES, CLOCKS, PACE_DAYS, PACES } from "./head-tables.ts";
import { BUCK_SHARE, GROWTH_SEXES, type GrowthSex, type KidSex } from "../kid-sex.ts";

/** One way a horned kid's buds may come: by which sex's rows, when first felt, how fast, and by which clock. */
export interface BudCourse {
  readonly sex: GrowthSex;
  /** Places in the rows of bud ages, paces and clocks. */
  readonly age: number;
  readonly pace: number;
  readonly clock: number;
  /** Age at which the bud is felt, the breed's delay taken in. */
  readonly budAge: number;
  /** How far the kid follows that sex's rows, times the part of a day that the breed's delay sends here. */
  readonly share: number;
}

/** Every way a kid's buds may come, whatever the chances of each. */
export interface BudCourses {
  readonly courses: readonly BudCourse[];
  /** For each course, the place in `HORNED_STAGES` it has reached on that day. */
  stagesAt(ageDays: number, fromDueDays: number | undefined): readonly number[];
}

/** The ways in which a kid of this sex, of a breed whose buds come `delayDays` later, may get its buds. */
export function budCourses(sex: KidSex, delayDays: number): BudCourses {
  const courses = GROWTH_SEXES.flatMap((growth) => {
    const follows = growth === "buck" ? BUCK_SHARE[sex] : 1 - BUCK_SHARE[sex];
    if (follows === 0) return [];
    return BUD_AGES.flatMap((_age, age) =>
      delayedPlaces(age, delayDays).flatMap(({ place, share }) =>
        PACES.flatMap((_pace, pace) =>
          CLOCKS.map((_clock, clock): BudCourse => {
            const budAge = present(BUD_AGES[place], "bud age");
            return { sex: growth, age, pace, clock, budAge, share: follows * share };
          }),
        ),
      ),
    );
  });
  const known = new Map<number, Map<number | undefined, readonly number[]>>();
  const stagesAt = (ageDays: number, fromDueDays: number | undefined): readonly number[] => {
    const ofAge = known.get(ageDays) ?? new Map<number | undefined, readonly number[]>();
    const stages = ofAge.get(fromDueDays) ?? courses.map((c) => stageOf(c, ageDays, fromDueDays));
    known.set(ageDays, ofAge.set(fromDueDays, stages));
    return stages;
  };
  return { courses, stagesAt };
}

/** The place in `HORNED_STAGES` that a course has reached on that day. */
function stageOf(course: BudCourse, ageDays: number, fromDueDays: number | undefined): number {
  const { pointed, tip } = PACE_DAYS.value[present(PACES[course.pace], "pace")];
  const age = CLOCKS[course.clock] === "due" && fromDueDays !== undefined ? fromDueDays : ageDays;
  const since = age - course.budAge;
  if (since < 0) return 0;
  if (since < pointed) return 1;
  return since < tip ? 2 : 3;
}

/**
 * Where a place in the row of bud ages goes in a breed whose buds come `days` later (earlier when negative).
 *
 * A part of a day is shared between the two whole days beside it; what falls before birth counts at birth, what falls
 * after day 14 in the last class.
 */
export function delayedPlaces(
  age: number,
  days: number,
): readonly { readonly place: number; readonly share: number }[] {
  const whole = Math.floor(days);
  const rest = days - whole;
  const inRow = (place: number) => Math.min(BUD_AGES.length - 1, Math.max(0, place));
  if (rest === 0) return [{ place: inRow(age + whole), share: 1 }];
  return [
    { place: inRow(age + whole), share: 1 - rest },
    { place: inRow(age + whole + 1), share: rest },
  ];
}

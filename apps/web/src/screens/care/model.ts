import { careSetting, type CareTask, type KidGrowthModel } from "@pollard/advice";
import type { Day } from "@pollard/base";
import { CARE_RULES } from "@pollard/husbandry";
import type { AnimalId } from "@pollard/genetics";
import type { BodyOf, CareAnswer, Fact } from "@pollard/records";

/** One task, for all animals whose turn it is; the first to end first. */
export interface CareGroup {
  readonly code: CareTask["code"];
  readonly kind: CareTask["kind"];
  readonly source: string;
  readonly tasks: readonly CareTask[];
}

/**
 * Open tasks gathered by what is to be done.
 *
 * Shape: groups and the tasks in them in the order in which they come.
 */
export function careGroups(tasks: readonly CareTask[]): readonly CareGroup[] {
  const groups = new Map<string, { readonly first: CareTask; readonly tasks: CareTask[] }>();
  for (const task of tasks) {
    const group = groups.get(task.code);
    if (group === undefined) groups.set(task.code, { first: task, tasks: [task] });
    else group.tasks.push(task);
  }
  return [...groups.values()].map(({ first, tasks: all }) => ({
    code: first.code,
    kind: first.kind,
    source: first.source,
    tasks: all,
  }));
}

/** Tasks whose days are on, and those whose days are past and that wait for an answer all the same. */
export function careByDays(
  tasks: readonly CareTask[],
  today: Day,
): { readonly due: readonly CareGroup[]; readonly past: readonly CareGroup[] } {
  return {
    due: careGroups(tasks.filter(({ by }) => by >= today)),
    past: careGroups(tasks.filter(({ by }) => by < today)),
  };
}

/** How pressing a task is today. */
export function careStatus({ from, by, state }: CareTask, today: Day): "now" | "soon" | "planned" {
  if (from > today || (state === "put-off" && by > today)) return "planned";
  return by <= today ? "now" : "soon";
}

/** Reasons that are ready to tap; `other` is typed. */
export const REASONS = ["no-time", "not-well", "vet-says", "nothing-here", "not-ours", "other"] as const;
export type Reason = (typeof REASONS)[number];

export interface CareAnswers {
  readonly answer?: CareAnswer;
  readonly on: Day;
  readonly until?: Day;
  readonly reason?: Reason;
  readonly reasonText: string;
  readonly means: string;
  readonly hold: "no" | "yes" | undefined;
  readonly noMilkUntil?: Day;
  readonly noMeatUntil?: Day;
}

export const firstCare = (today: Day): CareAnswers => ({ on: today, reasonText: "", means: "", hold: undefined });

/** What is still to be said before it can be stored. */
export function careMissing(answers: CareAnswers, today: Day): "answer" | "until" | "because" | "held" | undefined {
  const { answer, until, reason, reasonText, hold, noMilkUntil, noMeatUntil } = answers;
  if (answer === undefined) return "answer";
  if (answer === "put-off" && (until === undefined || until <= today)) return "until";
  if (answer !== "done" && (reason === undefined || (reason === "other" && reasonText.trim() === ""))) return "because";
  if (answer === "done" && hold === "yes" && noMilkUntil === undefined && noMeatUntil === undefined) return "held";
  return undefined;
}

/**
 * The entry of an answer, for one animal or several; nothing while something is missing.
 *
 * `sayReason` gives the words of a reason that was tapped: they are what the record keeps.
 */
export function careFact(
  answers: CareAnswers,
  task: string,
  animals: readonly AnimalId[],
  today: Day,
  sayReason: (reason: Exclude<Reason, "other">) => string,
): Fact | undefined {
  const { answer, on, until, reason, reasonText, means, hold, noMilkUntil, noMeatUntil } = answers;
  if (answer === undefined || careMissing(answers, today) !== undefined || animals.length === 0) return undefined;
  const because = reason === undefined ? "" : reason === "other" ? reasonText.trim() : sayReason(reason);
  const held = answer === "done" && hold === "yes";
  const body: BodyOf<"care"> = {
    animals: [...animals],
    task,
    answer,
    ...(answer === "put-off" && until !== undefined ? { until } : {}),
    ...(answer !== "done" && because !== "" ? { because } : {}),
    ...(answer === "done" && means.trim() !== "" ? { means: means.trim() } : {}),
    ...(held && noMilkUntil !== undefined ? { noMilkUntil } : {}),
    ...(held && noMeatUntil !== undefined ? { noMeatUntil } : {}),
  };
  return { kind: "care", on: answer === "done" ? on : today, body };
}

/** A task's title; a code that this version does not know stands as it was written. */
export function taskTitle(code: string, title: (code: CareTask["code"]) => string): string {
  const known = CARE_RULES.find((rule) => rule.code === code);
  return known === undefined ? code : title(known.code);
}

/** Which end of a task's days is moved. */
export type DayEnd = "from" | "by";

/** Settings of a task's days after one end was moved by a step; the ends never cross. */
export function movedDays(
  code: CareTask["code"],
  days: { readonly from: number; readonly by: number },
  end: DayEnd,
  way: "less" | "more",
): readonly { readonly key: string; readonly value: number }[] {
  const moved = { ...days, [end]: days[end] + (way === "more" ? 1 : -1) };
  if (moved.from > moved.by) return [];
  // Both ends are the vet's word from then on: a usual end beside one of the vet's would be nobody's.
  return (["from", "by"] as const).map((each) => ({ key: careSetting(code, each), value: moved[each] }));
}

/** Done today for these animals, in one tap. */
export const doneToday = (task: string, animals: readonly AnimalId[], today: Day): Fact => ({
  kind: "care",
  on: today,
  body: { animals: [...animals], task, answer: "done" },
});

/** Whether a kid gains too little or loses. */
export const isBehind = ({ state }: Pick<KidGrowthModel, "state">): boolean => state === "slow" || state === "losing";

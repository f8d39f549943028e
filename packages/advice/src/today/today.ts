import { addDays, type Day, daysFrom, type Sourced } from "@pollard/base";
import type { Animal, Herd } from "@pollard/records";
import { animalRef } from "../animal-ref.ts";
import { noticeDaysOf, type OpenHead } from "../heads/head-advice.ts";
import { headReadingsOf, kidAges } from "../heads/kid-facts.ts";
import type { AnimalRef } from "../animal-ref.ts";
import type { DatedTask, Task, TodayModel, Urgency } from "./today-models.ts";
import { herdProblems } from "../problems.ts";
import { type CareTask, careTasks } from "../season/care.ts";
import { growthModels } from "../season/growth.ts";
import { kiddingDays } from "../season/pregnancies.ts";
import type { Situation } from "../situation.ts";
import { forVet, latestChoice, visitOf } from "./vet-list.ts";

/** Days ahead within which a thing to do counts as soon. */
const SOON_DAYS = 3;
/** Days before the first likely day on which a doe due to kid comes onto the list. */
const KIDDING_NOTICE_DAYS: Sourced<number> = { value: 7, source: "judgement", checked: "judgement" };
/** Days past the last likely day after which a doe is taken as not in kid and leaves the list. */
const OVERDUE_DAYS: Sourced<number> = { value: 14, source: "judgement", checked: "judgement" };
/** Ages in days between which the three-month check is asked for: from three months, better by five [ricordeau1972]. */
const GROWTH_CHECK: Sourced<{ readonly from: number; readonly by: number; readonly until: number }> = {
  value: { from: 84, by: 120, until: 240 },
  source: "ricordeau1972",
  checked: "read-in-source",
};
/** Days after a loss of kids for which it stands on the list. */
const LOSS_DAYS: Sourced<number> = { value: 3, source: "judgement", checked: "judgement" };
/** Days after a weighing for which it still speaks of today. */
const BEHIND_DAYS: Sourced<number> = { value: 14, source: "judgement", checked: "judgement" };
/** Days ahead within which a planned visit is on the list. */
const VISIT_NOTICE_DAYS = 7;

/**
 * What needs doing, the most pressing first: heads to read, kids for the vet, does to watch, heads to check weeks later.
 *
 * Each kid is on the list once, with the thing that comes first for it. A reminder that the keeper has answered with a
 * choice does not come again, unless what is known has changed since.
 *
 * Shape:  ordered by urgency, then by day. Empty when there is nothing to do.
 * Source: rules AD-10 to AD-14.
 */
export function todayModel(situation: Situation): TodayModel {
  const { herd, today } = situation;
  const heads = situation.openHeads();
  const kidding = kiddingTasks(herd, today);
  const problems = herdProblems(situation).length;
  const tasks = [
    ...heads.flatMap(({ animal, advice }) => headTask(herd, animal, advice, today)),
    ...vetTasks(situation, heads),
    ...kidding.filter((t) => t.by <= addDays(today, KIDDING_NOTICE_DAYS.value)),
    ...growthTasks(herd, today),
    ...lossTasks(situation),
    ...behindTasks(situation),
    ...careTasksToday(situation),
    ...(problems > 0 ? [dated({ kind: "problems", count: problems }, addDays(today, SOON_DAYS + 1), today)] : []),
  ];
  return {
    today,
    tasks: tasks.sort((a, b) => rank(a) - rank(b) || (a.by < b.by ? -1 : a.by > b.by ? 1 : 0)),
    kidsInWindow: heads.filter(({ advice }) => advice.kind !== "ring-vet").length,
    doesToKid: kidding.length,
  };
}

const RANK: Readonly<Record<Urgency, number>> = { now: 0, soon: 1, planned: 2 };
const rank = (t: DatedTask): number => (t.task.kind === "ring-vet" ? -1 : RANK[t.urgency]);

function dated(task: Task, by: Day, today: Day): DatedTask {
  const daysLeft = daysFrom(today, by);
  const urgency: Urgency =
    task.kind === "ring-vet" || daysLeft <= 0 ? "now" : daysLeft <= SOON_DAYS ? "soon" : "planned";
  return { task, by, daysLeft, urgency };
}

/** What a kid's head asks for; nothing where the keeper has chosen and the choice still holds. */
function headTask(herd: Herd, animal: Animal, advice: OpenHead["advice"], today: Day): readonly DatedTask[] {
  const kid = animalRef(herd, animal.id);
  const chosen = animal.choices.at(-1);
  switch (advice.kind) {
    case "ring-vet":
      return [dated({ kind: "ring-vet", kid, end: advice.end }, today, today)];
    case "read-head":
      return [dated({ kind: "read-head", kid, from: advice.from, by: advice.by, end: advice.end }, advice.by, today)];
    case "finish-reading":
      return [dated({ kind: "finish-reading", kid, by: advice.by, end: advice.end }, advice.by, today)];
    case "leave":
    case "look-again":
    case "vet-list": {
      if (chosen?.choice === "look-again" && chosen.day !== undefined && !lookedSince(animal, chosen.day))
        return [dated({ kind: "look-again", kid, day: chosen.day, end: advice.end }, chosen.day, today)];
      const settled = chosen !== undefined && !lookedSince(animal, chosen.on, chosen.at);
      if (settled && chosen.choice !== "look-again") {
        const changed = advice.kind !== chosen.choice && !(advice.kind === "look-again");
        if (!changed) return [];
        const task: Task = {
          kind: "advice-changed",
          kid,
          chosen: chosen.choice,
          advised: advice.kind,
          end: advice.end,
        };
        return [dated(task, advice.day ?? advice.end, today)];
      }
      if (advice.kind !== "look-again" || advice.day === undefined) return [];
      return [dated({ kind: "look-again", kid, day: advice.day, end: advice.end }, advice.day, today)];
    }
  }
}

/** Whether the head was read on or after a day (after a moment, where that is known). */
const lookedSince = (animal: Animal, day: Day, at?: string): boolean =>
  animal.readings.some((r) => r.on > day || (r.on === day && (at === undefined || r.at > at)));

/**
 * Visits that are planned, visits of which nothing was entered, and visits to ask for: kids that need the vet on a day on which
 * nobody comes.
 */
function vetTasks(situation: Situation, heads: readonly OpenHead[]): readonly DatedTask[] {
  const { herd, today } = situation;
  const planned = herd.vetDays.filter((v) => v.on >= today && daysFrom(today, v.on) <= VISIT_NOTICE_DAYS);
  const visits = planned.map((v) => {
    const { list, lookFirst } = forVet(situation, v.on);
    const refs = (kids: typeof list) => kids.map(({ animal }) => animalRef(herd, animal.id));
    const unread = refs(lookFirst.filter((l) => l.why === "unread"));
    return dated({ kind: "vet-visit", day: v.on, kids: refs(list), unread }, v.on, today);
  });
  const unentered = herd.vetDays.flatMap(({ on: day }) => {
    const kids = heads.filter((head) => isUnentered(head, day, today)).map(({ animal }) => animalRef(herd, animal.id));
    return kids.length === 0 ? [] : [dated({ kind: "vet-work-to-enter", day, kids }, today, today)];
  });
  const wanted = new Map<Day, { kids: AnimalRef[]; end: Day }>();
  for (const { animal, advice } of heads) {
    const day = extraVisitFor(situation, animal, advice);
    if (day === undefined || herd.vetDays.some((v) => v.on === day)) continue;
    const at = wanted.get(day) ?? { kids: [], end: advice.end };
    at.kids.push(animalRef(herd, animal.id));
    wanted.set(day, { kids: at.kids, end: advice.end < at.end ? advice.end : at.end });
  }
  const asks = [...wanted].map(([day, { kids, end }]) =>
    dated({ kind: "ask-vet-to-come", day, end, kids }, lastDayToAsk(herd, day, today), today),
  );
  return [...unentered, ...visits, ...asks];
}

/**
 * By when the vet is asked for a day: tomorrow, or today where that leaves less notice than the vet wants.
 *
 * Tomorrow, however far the day: by then the vet's days may be full.
 */
function lastDayToAsk(herd: Herd, day: Day, today: Day): Day {
  return addDays(today, Math.max(0, Math.min(1, daysFrom(today, day) - noticeDaysOf(herd))));
}

/** Whether a kid was on the list of a visit that is over, nothing was entered of it, and its head still matters. */
function isUnentered({ animal, advice }: OpenHead, visit: Day, today: Day): boolean {
  const chosen = latestChoice(animal);
  if (visit >= today || advice.kind === "ring-vet" || chosen?.choice !== "vet-list") return false;
  return chosen.day === visit && !animal.disbuddings.some(({ on }) => on >= visit);
}

/**
 * The day on which a kid needs a visit that nobody has planned: the keeper's choice first, else the advice.
 *
 * A chosen day that went by without a visit is today, unless a visit to come is soon enough.
 */
function extraVisitFor(situation: Situation, animal: Animal, advice: OpenHead["advice"]): Day | undefined {
  const { herd, today } = situation;
  const chosen = latestChoice(animal);
  if (chosen !== undefined) {
    if (chosen.choice !== "vet-list" || advice.kind === "ring-vet") return undefined;
    if (chosen.day !== undefined && chosen.day >= today) return chosen.day;
    if (chosen.day !== undefined && herd.vetDays.some(({ on }) => on === chosen.day)) return undefined;
    return visitOf(situation, animal, chosen.day) === undefined ? today : undefined;
  }
  return advice.kind === "vet-list" && advice.visit === "extra" ? advice.day : undefined;
}

/** Does served and not yet kidded, with the days on which to watch them. */
function kiddingTasks(herd: Herd, today: Day): readonly DatedTask[] {
  const tasks: DatedTask[] = [];
  for (const doe of herd.animals.values()) {
    if (doe.departure !== undefined) continue;
    const days = kiddingDays(herd, doe.id);
    if (days === undefined || today > addDays(days.to, OVERDUE_DAYS.value)) continue;
    const task: Task = { kind: "kidding-due", doe: animalRef(herd, doe.id), ...days, overdue: today > days.to };
    // From the first day of watching to the last she is a matter of today; only after it is she late.
    const by = today < days.from ? days.from : today > days.to ? days.to : today;
    tasks.push(dated(task, by, today));
  }
  return tasks;
}

/** Does that lost their kids these last days. */
function lossTasks({ herd, today }: Situation): readonly DatedTask[] {
  return [...herd.animals.values()].flatMap((doe) => {
    const lost = doe.abortions.findLast(({ on }) => on <= today && daysFrom(on, today) <= LOSS_DAYS.value);
    if (lost === undefined || doe.departure !== undefined) return [];
    return [dated({ kind: "lost-kids", doe: animalRef(herd, doe.id), on: lost.on }, today, today)];
  });
}

/** Kids that lose weight, or gain far too little; the last weight tells since when. */
function behindTasks(situation: Situation): readonly DatedTask[] {
  const { today } = situation;
  return growthModels(situation).flatMap(({ kid, state, last }) => {
    if ((state !== "losing" && state !== "slow") || last === undefined) return [];
    if (daysFrom(last.on, today) > BEHIND_DAYS.value) return [];
    const by = state === "losing" ? today : addDays(today, 1);
    return [dated({ kind: "falling-behind", kid, how: state, lastKg: last.kg, weighed: last.on }, by, today)];
  });
}

/** Care whose days have come, a task for all whose turn it is. What is past its days waits with the animal, not here. */
function careTasksToday(situation: Situation): readonly DatedTask[] {
  const { today } = situation;
  const groups = new Map<string, { by: Day; tasks: CareTask[] }>();
  for (const task of careTasks(situation)) {
    if (task.by < today) continue;
    const group = groups.get(task.code) ?? { by: task.by, tasks: [] };
    group.tasks.push(task);
    groups.set(task.code, { by: task.by < group.by ? task.by : group.by, tasks: group.tasks });
  }
  return [...groups.values()].flatMap(({ by, tasks }) => {
    const [first] = tasks;
    if (first === undefined) return [];
    const task: Task = { kind: "care", code: first.code, animals: tasks.map((t) => t.animal), by, ask: first.kind };
    return [dated(task, by, today)];
  });
}

/** Kids old enough to show what grew, whose check is not yet on record. */
function growthTasks(herd: Herd, today: Day): readonly DatedTask[] {
  const tasks: DatedTask[] = [];
  for (const animal of herd.animals.values()) {
    const ages = kidAges(herd, animal, today);
    if (ages === undefined || animal.departure !== undefined || animal.bornAs === "dead") continue;
    const { from, by, until } = GROWTH_CHECK.value;
    if (ages.ageDays < from || ages.ageDays > until) continue;
    const checked = animal.outcomes.some((o) => daysFrom(ages.born, o.on) >= from - SOON_DAYS);
    if (checked || (animal.kidding === undefined && headReadingsOf(animal, ages).length === 0)) continue;
    const task: Task = {
      kind: "check-growth",
      animal: animalRef(herd, animal.id),
      from: addDays(ages.born, from),
      by: addDays(ages.born, by),
    };
    tasks.push(dated(task, addDays(ages.born, by), today));
  }
  return tasks;
}

import { addDays, type Day, daysFrom } from "@pollard/base";
import { CARE_CAUTIONS, pressingCautions } from "@pollard/husbandry";
import type { Animal } from "@pollard/records";
import { animalRef } from "../animal-ref.ts";
import { type Counted, recounted } from "../counted.ts";
import { vetWindowOf } from "../heads/head-advice.ts";
import { hornsBelief } from "../heads/horns-belief.ts";
import { kidAges } from "../heads/kid-facts.ts";
import type { VetListLine, VetListModel } from "./today-models.ts";
import { damBooster } from "../season/care.ts";
import { growthOf } from "../season/growth.ts";
import type { Situation } from "../situation.ts";

/** Notes shown beside a kid for the vet: the latest few. */
const NOTES_SHOWN = 3;

/** A goat for the vet on a day, and why. */
export interface ForVet {
  readonly animal: Animal;
  readonly why: VetListLine["why"];
}

/**
 * Which kids the vet is to see on a day, and which heads to look at before the vet goes.
 *
 * A kid is listed by the keeper's choice, or by the advice where nothing was chosen since the last reading. A kid whose
 * safe window ends before that day is not listed: the vet is to be rung. The keeper's choice of another day wins while that
 * day is ahead and the vet comes on it; otherwise the kid is on the next visit's list too, so that nobody is forgotten.
 *
 * Shape:  the oldest kid first, in both lists.
 * Source: rules AD-15 to AD-17.
 */
export function forVet(
  situation: Situation,
  day: Day,
): { readonly list: readonly ForVet[]; readonly lookFirst: readonly ForVet[] } {
  const { herd } = situation;
  const list: ForVet[] = [];
  const lookFirst: ForVet[] = [];
  for (const { animal, advice } of situation.openHeads()) {
    const chosen = latestChoice(animal);
    if (chosen?.choice === "vet-list") {
      if (chosen.day === day || visitOf(situation, animal, chosen.day) === day) list.push({ animal, why: "chosen" });
    } else if (chosen?.choice === "leave" || !inWindow(situation, animal, day)) continue;
    else if (advice.kind === "vet-list" && advice.day === day) list.push({ animal, why: "advised" });
    else if (advice.kind === "read-head" || advice.kind === "finish-reading") lookFirst.push({ animal, why: "unread" });
    else if (advice.kind === "look-again" && advice.day !== undefined && advice.day <= day)
      lookFirst.push({ animal, why: "undecided" });
  }
  const seen = [...herd.animals.values()]
    .filter((a) => a.disbuddings.some((d) => d.on === day))
    .map((animal): ForVet => ({ animal, why: "chosen" }));
  const age = ({ animal }: ForVet): number => (animal.born === undefined ? 0 : daysFrom(animal.born, day));
  const oldestFirst = (kids: readonly ForVet[]) => kids.toSorted((a, b) => age(b) - age(a));
  return {
    list: oldestFirst([...seen, ...list.filter((l) => !seen.some((s) => s.animal.id === l.animal.id))]),
    lookFirst: oldestFirst(lookFirst),
  };
}

/**
 * The planned visit at which a kid of the keeper's choice is seen: the chosen day's, else the next one within its window.
 *
 * Shape: `undefined` where no visit fits: the vet is to be asked to come.
 */
export function visitOf(
  { herd, today, ...situation }: Situation,
  animal: Animal,
  chosen: Day | undefined,
): Day | undefined {
  const ahead = herd.vetDays.map(({ on }) => on).filter((on) => on >= today);
  if (chosen !== undefined && ahead.includes(chosen)) return chosen;
  return ahead.sort().find((on) => inWindow({ herd, today, ...situation }, animal, on));
}

/** The vet's list of a day, with everything that is to be known of each kid. */
export function vetList(situation: Situation, day: Day): VetListModel {
  const visit = situation.herd.vetDays.find((v) => v.on === day);
  const { list, lookFirst } = forVet(situation, day);
  const lineFor = ({ animal, why }: ForVet) => lineOf(situation, animal, day, why);
  const lines = [...list, ...lookFirst].map(lineFor);
  const finest = finestOf(lines);
  return {
    day,
    planned: visit !== undefined,
    vet: visit?.vet,
    list: lines.slice(0, list.length).map((line) => countedAs(line, finest)),
    lookFirst: lines.slice(list.length).map((line) => countedAs(line, finest)),
    cautions: CARE_CAUTIONS.map((c) => c.code),
  };
}

/** The finest denominator that a kid of the list needs, so that all of them are counted alike. */
const finestOf = (lines: readonly VetListLine[]): Counted["of"] =>
  lines.reduce<Counted["of"]>((most, { belief }) => {
    const of = belief === undefined || belief.counted.sense === "proven" ? 4 : belief.counted.of;
    return of > most ? of : most;
  }, 4);

const countedAs = (line: VetListLine, of: Counted["of"]): VetListLine =>
  line.belief === undefined
    ? line
    : { ...line, belief: { ...line.belief, counted: recounted(line.belief.counted, line.belief.horns, of) } };

/** What the keeper chose last, unless the head was read again since. */
export function latestChoice(animal: Animal): Animal["choices"][number] | undefined {
  const chosen = animal.choices.at(-1);
  if (chosen === undefined) return undefined;
  return animal.readings.some((r) => r.on > chosen.on || (r.on === chosen.on && r.at > chosen.at)) ? undefined : chosen;
}

function inWindow(situation: Situation, animal: Animal, day: Day): boolean {
  if (animal.born === undefined) return false;
  const age = daysFrom(animal.born, day);
  const window = vetWindowOf(situation.herd, animal);
  return age >= window.lookFrom.value && age <= window.end.value;
}

function lineOf(situation: Situation, animal: Animal, day: Day, why: VetListLine["why"]): VetListLine {
  const { herd } = situation;
  const onDay = kidAges(herd, animal, day);
  const born = animal.born ?? day;
  const weight = animal.weights.at(-1);
  const growth = growthOf(herd, animal)?.growth;
  const cover = animal.care.findLast((c) => c.task === "tetanus-cover" && c.answer === "done")?.on;
  const booster = damBooster(herd, animal);
  return {
    kid: animalRef(herd, animal.id),
    dam: animal.dam === undefined ? undefined : animalRef(herd, animal.dam),
    born,
    ageOnDay: onDay?.ageDays ?? 0,
    daysFromDueOnDay: onDay?.daysFromDue,
    weight: weight === undefined ? undefined : { kg: weight.kg, on: weight.on, how: weight.how },
    belief: hornsBelief(situation, animal),
    why,
    since: listedSince(animal, born),
    expectedKg: weight === undefined ? undefined : growth?.weightAt(daysFrom(born, day)),
    growth: growth?.state ?? "unknown",
    gainKgADay: growth === undefined || growth.state === "unknown" ? undefined : growth.gainKgADay,
    tetanus: { damBooster: booster, kid: cover },
    colostrum: animal.care.some((c) => c.task === "colostrum" && c.answer === "done") ? "given" : "not-recorded",
    pressing: pressingCautions({
      ...(weight === undefined ? {} : { weightKg: weight.kg }),
      weighed: weight === undefined ? "never" : weight.on === day ? "that-morning" : "earlier",
      tetanus: cover !== undefined || booster !== undefined ? "covered" : "unknown",
    }),
    end: addDays(born, vetWindowOf(herd, animal).end.value),
    notes: animal.notes.slice(-NOTES_SHOWN).map((n) => n.text),
    done: animal.disbuddings.findLast((d) => d.on === day),
  };
}

/** The day of the choice or the reading that put a kid on the list; its birth where neither did. */
function listedSince(animal: Animal, born: Day): Day {
  const days = [latestChoice(animal)?.on, animal.readings.at(-1)?.on].flatMap((on) => (on === undefined ? [] : [on]));
  return days.sort().at(-1) ?? born;
}

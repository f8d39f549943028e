import type { Sourced } from "@pollard/base";
import { type Day, daysFrom } from "@pollard/base";
import { expectedDueDay, type HeadKid, type HeadReading, serviceLikelihood } from "@pollard/husbandry";
import { type Animal, type Herd, kiddingOf } from "@pollard/records";
import type { KidAges } from "./kid-models.ts";
import { herdBreedOf } from "../settings.ts";
import { carryingOf, servicesBefore } from "../belief/sires.ts";

/**
 * Days before its due date from which a kid counts as early, so that its buds may count their age from that date: one and a
 * half standard deviations of a pregnancy's length. Fewer are the ordinary spread.
 */
const EARLY_FROM_DAYS: Sourced<number> = { value: 4, source: "judgement", checked: "judgement" };

/** The day a kid was due, where one day of service explains its birth; a pen period names no day. */
function dueDayOf(herd: Herd, animal: Animal): Day | undefined {
  const kidding = kiddingOf(herd, animal);
  if (!kidding) return undefined;
  const carrying = carryingOf(herd, kidding.dam, herdBreedOf(herd), kidding.kids.length);
  const single = servicesBefore(herd, kidding)
    .filter((s) => s.until === s.on)
    .map((s) => ({ on: s.on, fits: serviceLikelihood(s.on, s.on, kidding.on, carrying) }))
    .sort((a, b) => b.fits - a.fits || (a.on < b.on ? 1 : -1));
  const [best] = single;
  return best === undefined ? undefined : expectedDueDay(best.on, carrying);
}

/** How old a kid is today, by its birth and, if it came early, by its due date. `undefined` without a birth date. */
export function kidAges(herd: Herd, animal: Animal, today: Day): KidAges | undefined {
  if (animal.born === undefined) return undefined;
  const due = dueDayOf(herd, animal);
  const early = due === undefined ? 0 : daysFrom(animal.born, due);
  const isEarly = early >= EARLY_FROM_DAYS.value && due !== undefined;
  return {
    born: animal.born,
    ageDays: daysFrom(animal.born, today),
    early: isEarly ? early : undefined,
    daysFromDue: isEarly ? daysFrom(due, today) : undefined,
  };
}

/** What of a kid decides which tables of heads speak for it. */
export function headKidOf(animal: Animal, herd: Herd): HeadKid {
  const breed = animal.breed ?? herdBreedOf(herd);
  return { sex: animal.sex, ...(breed === undefined ? {} : { breed }) };
}

/**
 * A kid's head readings as the model of heads takes them, oldest first: those made before it was disbudded, since what is felt
 * afterwards is the operation's. Empty without a birth date.
 */
export function headReadingsOf(animal: Animal, ages: KidAges | undefined): readonly HeadReading[] {
  if (ages === undefined) return [];
  const disbudded = animal.disbuddings.find((d) => d.done !== "not-done");
  return animal.readings
    .filter((r) => r.on >= ages.born && (disbudded === undefined || r.on <= disbudded.on))
    .map((r) => ({
      reading: r.entry,
      ageDays: daysFrom(ages.born, r.on),
      ...(ages.early === undefined ? {} : { fromDueDays: daysFrom(ages.born, r.on) - ages.early }),
      reader: r.by,
      signs: r.signs,
      ...(r.budSites === undefined ? {} : { budSites: r.budSites }),
    }));
}

/** Whether a reading found anything to go by: at least one sign looked at and told. */
export const hasFinding = (reading: HeadReading): boolean =>
  Object.values(reading.signs).some((sign) => {
    const said = typeof sign === "string" ? [sign] : "both" in sign ? [sign.both] : [sign.left, sign.right];
    return said.some((value) => value !== undefined && value !== "unsure" && value !== "not-looked");
  });

/** Which sides had been disbudded by a day. */
export function disbuddedBy(animal: Animal, day: Day): { readonly left: boolean; readonly right: boolean } {
  const done = animal.disbuddings.filter((d) => d.on <= day).map((d) => d.done);
  const both = done.includes("both-sides");
  return { left: both || done.includes("left"), right: both || done.includes("right") };
}

import type { CalendarItem, ExpectedDoe, OtherCount, VetDayLine, VetDaysModel } from "@pollard/advice";
import { type Day, weekday } from "@pollard/base";
import { sayAnimal, sayHeadOf } from "./animals.ts";
import { care } from "./care.ts";
import { sayDay } from "./days.ts";

/** A count with a fraction as a person says it: "about 3", "hardly any". */
function sayAbout(n: number): string {
  if (n < 0.05) return "hardly any";
  if (n < 0.3) return "hardly one";
  if (n < 0.75) return "perhaps one";
  return `about ${Math.round(n)}`;
}

/** The same of heads: one head stands alone, none and several in the plural. */
const sayAboutHeads = (n: number): string => `${sayAbout(n)} ${n < 0.05 || n >= 1.5 ? "heads" : "head"}`;

const tenth = (n: number): string => (Math.round(n * 10) / 10).toFixed(1).replace(/\.0$/, "");

const SHORT = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];

/** Weekday and date, short and always with both, for tables and letters: "Tue 2026-03-24". */
export const sayTableDay = (day: Day): string => `${SHORT[weekday(day)]} ${day}`;

/** How many heads a visit is expected to have: "3 heads, 1 to 5". */
function sayHeads({ expected, low, high, taken }: VetDayLine): string {
  const here = low === high ? `${low} ${low === 1 ? "head" : "heads"}` : `${sayAbout(expected)}, ${low} to ${high}`;
  return taken === undefined ? here : `${here}; takes ${tenth(taken)}`;
}

/** Whose heads a visit is for, the likeliest first. */
function sayVisitFrom({ from }: VetDayLine, most = 6): string {
  const said = from
    .filter(({ expected }) => expected === undefined || expected >= 0.05)
    .map(({ animal, what }) => (what === "kid" ? sayAnimal(animal) : `kids of ${sayAnimal(animal)}`));
  const more = said.length - most;
  return more > 0 ? `${said.slice(0, most).join(", ")} and ${more} more` : said.join(", ");
}

/** What one visit fewer, or one more, would change. */
function sayOtherCount(other: OtherCount, which: "fewer" | "more"): string {
  const kids = Math.abs(other.missed);
  const days = Math.abs(other.lateDays);
  const kid = `${tenth(kids)} ${tenth(kids) === "1" ? "kid" : "kids"}`;
  const late = `${tenth(days)} ${tenth(days) === "1" ? "day" : "days"}`;
  if (which === "fewer")
    return `One visit fewer: ${kid} more ${other.missed >= 0 ? "missed" : "reached"}, ${late} ${other.lateDays >= 0 ? "later" : "earlier"} in all.`;
  return `One visit more: ${kid} ${other.missed <= 0 ? "fewer" : "more"} missed, ${late} ${other.lateDays <= 0 ? "earlier" : "later"} in all.`;
}

/** Whether the plan keeps to the vet's limit. */
function sayLimit({ heads, kept }: NonNullable<VetDaysModel["limit"]>): string {
  const most = `At most ${heads} heads a visit`;
  switch (kept) {
    case "yes":
      return `${most}: kept, in what is expected. More may come.`;
    case "best-found":
      return `${most}: kept, by the best plan found in time.`;
    case "not-asked":
      return `${most} was asked for. This plan does not keep to it.`;
  }
}

/** The plan in a sentence. */
function sayPlan({ visits, heads, missed, does, kids }: VetDaysModel): string {
  if (does + kids === 0) return "No doe is due and no kid's head is open.";
  if (visits.length === 0) return "No visit is worth asking for.";
  const days = visits.length === 1 ? "1 visit" : `${visits.length} visits`;
  return `${days} for ${sayAboutHeads(heads)}; ${sayAbout(missed)} missed.`;
}

/** A doe that may kid: when, and how surely. */
function sayExpected({ doe, inKid, days, served }: ExpectedDoe, today: Day): string {
  const name = sayAnimal(doe);
  if (days === undefined) return `${name} was served, but is most likely empty.`;
  if (served.to > today) return `${name} is due from about ${sayDay(days.from, today)}. She is still with the buck.`;
  const sure = inKid > 0.97 ? "" : inKid < 0.5 ? " She may well be empty." : " Not sure she is in kid.";
  return `${name} is due about ${sayDay(days.likely, today)}.${sure}`;
}

/** An entry of the calendar: its title, and a note below it. */
function sayCalendar({ matter }: CalendarItem, today: Day): { readonly title: string; readonly note: string } {
  switch (matter.kind) {
    case "due":
      return {
        title: `${sayAnimal(matter.doe)} is due to kid`,
        note: `Most likely ${sayTableDay(matter.likely)}. Nine in ten does kid within these days.`,
      };
    case "look":
      return {
        title: `Look at ${sayHeadOf(sayAnimal(matter.kid))}`,
        note: `The vet's window ends ${sayDay(matter.end, today)}.`,
      };
    case "vet":
      return {
        title: matter.vet === undefined ? "The vet comes" : `The vet comes: ${matter.vet}`,
        note: "Weigh the kids in the morning. Print the list the evening before.",
      };
    case "care":
      return { title: `${care.title(matter.code)}: ${sayAnimal(matter.animal)}`, note: care.why(matter.code) };
  }
}

/** Words of the season that stand on a screen, a sheet or in the terminal. */
export const season = {
  tableDay: sayTableDay,
  heads: sayHeads,
  visitFrom: sayVisitFrom,
  otherCount: sayOtherCount,
  limit: sayLimit,
  plan: sayPlan,
  expected: sayExpected,
  calendar: sayCalendar,
  calendarName: (herd: string | undefined): string => (herd === undefined ? "Goats" : `Goats of ${herd}`),
  states: { agreed: "agreed", proposed: "to ask for" },
  fewerHow: "Days past the best ones are counted over all kids together.",
  whyRange: "Nine times in ten the number lies in the range.",
} as const;

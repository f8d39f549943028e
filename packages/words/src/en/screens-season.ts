import type { Day } from "@pollard/base";
import { sayShortDay } from "./days.ts";

/** Words of the screens that show the season: does due, vet days, what was seen of a doe. */

const heads = (n: number): string => (n === 1 ? "1 head" : `${n} heads`);

export const seasonWords = {
  working: "Working out the vet days …",
  timeline: "What lies ahead, day by day",
  timelineSaid: (does: number, kids: number, visits: number) =>
    `${does === 1 ? "1 doe" : `${does} does`} due, ${kids === 1 ? "1 kid" : `${kids} kids`} in the window, ${visits === 1 ? "1 vet day" : `${visits} vet days`}.`,
  timelineTable: "The same as a table",
  timelineMore: (n: number) => `${n} more does further on are in the table.`,
  columns: { who: "Who", from: "From", likely: "Most likely", to: "To", what: "What" },
  rows: { doe: "may kid", kid: "window of its head", visit: "vet day" },
  key: {
    watch: "18 of 20 kiddings",
    likely: "half are over",
    window: "a kid's window",
    agreed: "vet day, agreed",
    proposed: "vet day, to ask for",
  },
  agreed: "Agreed",
  proposed: "To ask for",
  trying: "Trying this day",
  noHeadsYet: "Read the head first. The count comes after.",
  headsDots: (low: number, high: number) =>
    low === high ? `In 18 of 20 such seasons: ${heads(low)}.` : `In 18 of 20 such seasons: ${low} to ${heads(high)}.`,
  dotIs: "Each dot is 1 of 20 seasons that are equally likely.",
  headsAxis: "heads on that day",
  agree: "The vet agreed",
  notThisDay: "Not this day",
  callOff: "Called off",
  letGo: "Let it go",
  agreedNow: (day: string) => `Vet day: ${day}.`,
  blockedNow: (day: string) => `Not ${day}. The plan is made anew.`,
  calledOffNow: (day: string) => `Called off: ${day}.`,
  undo: "Undo",
  tryDay: "Try another day",
  tryWhich: "Which day would you try?",
  tryIt: "Show what it changes",
  whenVet: "When can the vet come?",
  whyPlan: "Why these days?",
  why: [
    "Every kid and every litter to come counts with its own days.",
    "A head is done best inside its window. Late days and missed heads cost.",
    "Each visit costs too. What weighs how much is yours to set.",
    "The vet and the law decide. Ask before you count on a day.",
  ],
  wishesTitle: "When the vet can come",
  keepName: "Keep this name",
  weekdays: "On which weekdays does the vet come?",
  weekdayNames: ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"],
  everyDay: "None ticked: any day will do.",
  blocked: "Days on which nobody can come",
  blockedNone: "No day is blocked.",
  blockDay: "Block a day",
  free: "Free again",
  mostHeads: "Most heads at one visit",
  noLimit: "No limit",
  shortDay: (day: Day): string => sayShortDay(day),
  dueDots: (day: string) => `Half of such kiddings are over by ${day}.`,
  dueRange: (from: string, to: string) => `18 of 20 fall between ${from} and ${to}.`,
  dueDotIs: "Each dot is 1 of 20 kiddings that are equally likely.",
  inKid: (chance: string) => `In kid: ${chance}.`,
  inKidSure: "In kid, as checked.",
  litter: (kids: string) => `Most likely ${kids}.`,
  litters: { one: "one kid", two: "two kids", three: "three kids", more: "four kids or more" },
  sireOf: (sires: string) => `By ${sires}.`,
  returns: (from: string, to: string) => `Watch for heat ${from} to ${to}.`,
  earlierMatings: (n: number) => (n === 1 ? "1 earlier mating" : `${n} earlier matings`),
  emptyLikely: "She was served, but is most likely empty.",
  enterSeen: "Enter what you saw",
  openDoe: "Open her page",
} as const;

/** What was seen of a doe that was served: heat, a check, kids lost. */
export const doeSeenWords = {
  title: "What did you see?",
  of: (doe: string) => `${doe}: what you saw`,
  kinds: { heat: "In heat again", "pregnancy-check": "A pregnancy check", abortion: "She lost her kids" },
  kindHints: {
    heat: "A sign that she did not take",
    "pregnancy-check": "Scan, blood, milk or hand",
    abortion: "Before her time",
  },
  on: "Which day?",
  way: "How was it checked?",
  ways: {
    ultrasound: "Scan",
    blood: "Blood or milk, for pregnancy",
    progesterone: "Progesterone",
    radiograph: "X-ray",
    belly: "By hand and eye",
  },
  found: "What was found?",
  findings: { pregnant: "In kid", empty: "Empty", unsure: "Not sure" },
  kids: "How many kids were counted?",
  kidCounts: { "0": "Not counted", "1": "1", "2": "2", "3": "3", "4": "4", "5": "5" },
  store: "Store this",
  needs: { kind: "Say first what you saw.", day: "Choose the day.", check: "Say how, and what was found." },
  lossCare: "Gloves on. Keep her apart, keep what was lost, and ring the vet.",
  lossPeople: "Some causes harm people. Pregnant women keep away.",
} as const;

/** When kids are being born: what people must know. */
export const safetyWords = {
  banner: "Kids are being born here",
  bannerUntil: (day: string) => `Kidding time until about ${day}.`,
  bannerSay: "Pregnant women keep away from births, newborn kids and bedding.",
  title: "Kidding time: who keeps away",
  open: "What visitors must know",
} as const;

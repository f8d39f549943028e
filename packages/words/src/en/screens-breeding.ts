import type { GrowthState } from "@pollard/husbandry";

/** Words of the screens that plan the breeding: pairings, the coming years, tests, the review, whom to keep. */

const STATE: Readonly<Record<GrowthState, string>> = {
  thriving: "",
  slow: ", slow",
  losing: ", losing weight",
  unknown: "",
};

const does = (n: number): string => (n === 1 ? "1 doe" : `${n} does`);

export const pairingsWords = {
  title: "Pairings",
  lead: "Which buck for which doe",
  working: "Working out the pairings …",
  stillWorking: "Working out the plan anew. The one below is the last.",
  stop: "Stop",
  again: "Work it out",
  stopped: "Stopped. There is no plan yet.",
  stoppedOld: "Stopped. The plan below is older than the last entries.",
  plan: "The plan",
  planFor: (doe: string, buck: string | undefined) =>
    buck === undefined ? `${doe} stays open` : `${doe} with ${buck}`,
  open: "stays open",
  bucksUse: (buck: string, n: number) => `${buck}: ${n === 0 ? "no doe" : does(n)}`,
  everyPair: "Every pair",
  gridSaid: "Each number: of 20 kids so many grow horns. Arrow keys move, Enter opens.",
  gridName: "Does by bucks",
  doe: "Doe",
  chosen: "in the plan",
  closed: "closed",
  cell: (doe: string, buck: string, horned: number, state: string) =>
    `${doe} with ${buck}: ${horned} in 20 kids with horns${state === "" ? "" : `, ${state}`}`,
  key: { chosen: "in the plan", open: "open", closed: "closed by a rule" },
  otherPlans: "Other good plans",
  prices: "What your rules cost",
  leftOut: "Who is not paired",
  why: "Why not another buck?",
  whyNot: (buck: string, reason: string) => `${buck}: ${reason}`,
  mustNow: (doe: string, buck: string) => `Your wish is kept: ${doe} with ${buck}.`,
  neverNow: (doe: string, buck: string) => `Your wish is kept: not ${doe} with ${buck}.`,
  freeNow: (doe: string) => `No wish for ${doe} any more.`,
  must: "She goes to him",
  never: "Not these two",
  free: "No wish",
  wish: "Your wish for these two",
  kids: "What the kids would be",
  squares: "Filled: grow horns. Hollow: stay hornless.",
  doubtTitle: "What is luck, and what is doubt",
  maybe: (buck: string, buckIs: string, doe: string, doeIs: string, chance: string) =>
    `${buck} ${buckIs}, ${doe} ${doeIs}: ${chance}`,
  kin: "Kin",
  otherLoci: "Other traits you follow",
  notEntered: "A plan is no mating. Enter each mating on the day it happens.",
  print: "Print this plan",
  more: "More to plan with",
  toForecast: "The coming years",
  toTests: "Is a test worth it?",
  toReview: "The season looked back on",
  toKept: "Whom to keep",
} as const;

export const forecastWords = {
  title: "The coming years",
  lead: "What becomes of the herd, one way of breeding beside another",
  years: "How many years?",
  yearsOne: (n: number) => (n === 1 ? "1 year" : `${n} years`),
  start: "Work it out",
  cancel: "Stop",
  progress: (done: number, of: number) => `${done} of ${of} simulated herds`,
  stopped: (done: number) => `Stopped. These numbers rest on ${done} simulated herds.`,
  table: "Year by year",
  inYear: (n: number) => `In year ${n}`,
  what: "What",
  year: (n: number) => `Year ${n}`,
  first: "The others are compared with this one.",
} as const;

export const testsWords = {
  title: "Is a test worth it?",
  lead: "What a DNA test would save, against its price",
  working: "Working out what each test would change …",
  more: (n: number) => (n === 1 ? "1 more animal" : `${n} more animals`),
  together: "Two tests together",
  verdict: { "worth-it": "Worth it", "not-worth-it": "Not worth it", "known-already": "Known already" },
  settles: (results: string) => `Settles: ${results}`,
  settlesNothing: "Read its head first.",
  saves: (worth: string, price: string) => `Saves ${worth}, weighs ${price}`,
} as const;

export const reviewWords = {
  title: "The season looked back on",
  surprises: "Kids that surprised",
  noSurprise: "No kid surprised.",
  learnt: "What it taught about the parents",
  nothingLearnt: "It moved no belief.",
  sires: "By sire",
  sire: (buck: string) => `Horned kids of ${buck}`,
  print: "Print this page",
  toScore: "How the readings came out",
} as const;

export const keptWords = {
  title: "Whom to keep",
  lead: "The young goats side by side, on what is known",
  none: "There is no young goat to decide about.",
  noScore: "There is no score here. What counts is yours to say.",
  headUnread: "Head not read yet",
  openTo: "Open to",
  known: (kid: string) => `What is known of ${kid}`,
  notOpen: "Not open to breeding",
  inbreeding: "Inbreeding",
  litter: "Born in a litter of",
  damKids: (dam: string) => `Kids of ${dam} so far`,
  weight: "Weight",
  gain: "Gain a day",
  gainSaid: (gain: string, state: GrowthState) => `${gain}${STATE[state]}`,
} as const;

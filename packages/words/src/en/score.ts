import type { CallLine, LearntModel, ReaderRecord, RegrowthGroup } from "@pollard/advice";
import { FEW } from "../where-words-change.ts";
import type { LessonSaid } from "../words.ts";
import { sayCounted } from "./chances.ts";

const CAME: Readonly<Record<CallLine["came"], string>> = {
  "as-called": "That is as called.",
  "fewer-horned": "Fewer horned than called: these calls leaned too far to horns.",
  "more-horned": "More horned than called: these calls leaned too far to hornless.",
};

/** Calls of about one chance, and what came of them. Both sides, as counts. */
export function sayCall({ kids, horned, said, came }: CallLine): string {
  const heads = kids === 1 ? "1 head" : `${kids} heads`;
  const result = `Of ${heads} called ${sayCounted(said)} for horns: ${horned} horned, ${kids - horned} hornless.`;
  const verdict = came === "as-called" && kids < FEW ? "Too few to judge." : CAME[came];
  return `${result} ${verdict}`;
}

/** How one reader's calls came out, kindly: what was right first, and that heads can fool anybody. */
export function sayReader({ reader, kids, right, wrong, open }: ReaderRecord): string {
  const read = `${reader} read ${kids === 1 ? "1 head" : `${kids} heads`} that are known since.`;
  const clear = right + wrong;
  if (clear === 0) return `${read} All were left open, which is an honest answer.`;
  const came =
    wrong === 0
      ? clear === 1
        ? "The clear call was right."
        : `All ${clear} clear calls were right.`
      : `${right} of ${clear} clear calls were right.`;
  const left = open === 0 ? "" : ` ${open === 1 ? "1 was" : `${open} were`} left open.`;
  const kind = wrong === 0 ? "" : " Such heads fool anybody: a second look helps.";
  const few = kids < FEW ? " Too few to say more." : "";
  return `${read} ${came}${left}${kind}${few}`;
}

const LESSONS: Readonly<Record<LearntModel["lessons"][number]["code"], string>> = {
  "whorls-on-horned": "Kids that grew horns: whorls over the buds",
  "whorls-on-polled": "Kids that stayed hornless: whorls over the buds",
  "flat-on-horned": "Kids that grew horns: flat hair on the crown",
  "flat-on-polled": "Kids that stayed hornless: flat hair on the crown",
  "early-bud-buck": "Horned bucks: a bud to be felt by day 3",
  "early-bud-doe": "Horned does: a bud to be felt by day 3",
  "bump-on-smooth": "A smooth head felt as a bump",
  "pointed-told": "A pointed bud felt as pointed",
};

/** What one row of the tables said before this herd's own kids, what it says now, and from how many heads. */
export function sayLesson({ code, before, after, seen }: LearntModel["lessons"][number]): LessonSaid {
  const heads = Math.round(seen);
  return {
    about: LESSONS[code],
    before: sayCounted(before),
    after: sayCounted(after),
    from: heads === 0 ? "No head of yours yet." : heads === 1 ? "From 1 head." : `From ${heads} heads.`,
  };
}

/** What grew again on some buds, and what to expect of the next. */
export function sayRegrowth({ buds, grew, again, low, high }: RegrowthGroup): string {
  const some = buds - grew.nothing;
  const parts = [
    [grew.scur, "scur", "scurs"],
    [grew["soft-lump"], "soft lump", "soft lumps"],
    [grew.horn, "horn", "horns"],
  ] as const;
  const what = parts.flatMap(([n, one, many]) => (n === 0 ? [] : [`${n} ${n === 1 ? one : many}`])).join(", ");
  const seen = `Of ${buds === 1 ? "1 bud" : `${buds} buds`}, something grew again on ${some === 0 ? "none" : some}${some === 0 ? "" : `: ${what}`}.`;
  const range =
    sayCounted(low) === sayCounted(high)
      ? ""
      : ` Between ${low.count} and ${high.count} in ${high.of} would not surprise.`;
  return `${seen} Expect it on ${sayCounted(again)}.${range}`;
}

/** Words of the page on how the readings' calls came out. */
export const scoreWords = {
  title: "How our calls came out",
  short: "Our calls so far",
  none: "No head that was read has shown what it is yet.",
  noneHow: "Enter what grew at three months, or what the vet found. Then this page fills.",
  lead: (kids: number, horned: number) =>
    `${kids === 1 ? "1 head" : `${kids} heads`} read and known since: ${horned} horned, ${kids - horned} hornless.`,
  waiting: (n: number) =>
    n === 0
      ? ""
      : n === 1
        ? "1 more head was read; what it is nobody knows yet."
        : `${n} more were read; what they are nobody knows yet.`,
  knownFrom: "How we know",
  truths: {
    growth: "what grew",
    "dna-test": "a laboratory",
    "grown-head": "the grown head",
    "vet-finding": "what the vet found",
  },
  truthLine: (n: number, how: string) => `${n} from ${how}`,
  vetMayErr: "The vet may be wrong too, but seldom.",
  honest: "Each head is called with what was known before its season. What it grew has no say in its call.",
  picture: "What we called, and what came",
  pictureSays: (called: string) => `Each ring is a group of calls. ${called}`,
  onLine: "On the slanted line it came as called. The bar shows what luck alone allows.",
  axisCalled: "called for horns",
  axisCame: "were horned",
  asTable: "The same as a table",
  columns: { called: "Called", heads: "Heads", horned: "Horned", range: "Luck allows" },
  rangeOf: (low: number, high: number) => `${low} to ${high} in 20`,
  rivals: "Are the sums worth it?",
  rivalsHow: "Four ways of calling the same heads. Lower is nearer to what came.",
  ways: {
    together: "Signs and family together",
    pedigreeAlone: "Family alone",
    signsAlone: "Signs alone",
    ruleOfThumb: "Rule of thumb",
  },
  thumbIs: "The rule of thumb counts the last look's signs. The majority wins.",
  closest: (way: string) => `Nearest here: "${way}".`,
  notOurs: "So on these heads Pollard's own way was not the nearest. Trust your fingers too.",
  luck: "With so few heads a small difference may be luck.",
  way: "Way",
  miss: "Miss",
  surprise: "Surprise",
  missHow: "Miss: mean square of the distance. Surprise: mean of minus the log. Lower is better.",
  readers: "Reader by reader",
  readersHow: "Each by their own readings, with the family. Nobody reads every head right.",
  learnt: "What your own kids have taught",
  learntFrom: (n: number) =>
    n === 0
      ? "Nothing yet: the tables are keepers' judgement."
      : n === 1
        ? "1 kid of yours has moved the tables."
        : `${n} kids of yours have moved the tables.`,
  withoutThem: (before: string, kids: number) =>
    `By the first tables alone ${before}. ${kids === 1 ? "1 kid" : `${kids} kids`} of yours moved it.`,
  unmoved: "Not moved so far",
  before: "Before",
  now: "Now",
  breedLater: (breed: string, days: number) => `${breed}: buds come about ${days} days later.`,
  breedEarlier: (breed: string, days: number) => `${breed}: buds come about ${days} days earlier.`,
  ownTables: (readers: string) => `Kids enough for tables of their own: ${readers}.`,
  regrowth: "After disbudding",
  regrowthHow: "Buds looked at about three months later. It says nothing of a goat's genes.",
  regrowthNone: "No disbudded bud has been looked at since.",
  regrowthNotSeen: (n: number) => (n === 1 ? "1 bud has not been looked at." : `${n} buds have not been looked at.`),
  regrowthNoTechnique: (n: number) => `How ${n === 1 ? "1 bud was" : `${n} buds were`} done is not written down.`,
  techniques: { "bud-removed": "Bud taken out", "bud-left": "Bud left in" },
  byHand: "By hand and by age",
  byOperator: (name: string) => `By ${name}`,
  byAge: (days: string) => `At ${days} days`,
  ages: { "0-3": "0 to 3", "4-7": "4 to 7", "8-14": "8 to 14", "15-": "15 or more" },
  vetDecides: "How it is done is the vet's to decide.",
} as const;

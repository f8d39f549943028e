import type { Day } from "@pollard/base";
import type { CareCaution, HeadSigns, Sided } from "@pollard/husbandry";
import type {
  AdviceProblem,
  AnimalRef,
  CallLine,
  Counted,
  DatedTask,
  GenotypeSaid,
  KidAdvice,
  LearntModel,
  ReaderRecord,
  RegrowthGroup,
  Urgency,
  WeighedFact,
} from "@pollard/advice";

/** A problem in the keeper's words: what happened, and what to do. Nothing entered is ever lost by a problem. */
export interface ProblemSaid {
  readonly what: string;
  readonly mend: string;
}

/** A thing to do: the line itself, by when, and why in a sentence. */
export interface TaskSaid {
  readonly title: string;
  readonly when: string;
  readonly why: string;
}

/** Advice about a kid's head: what to do, by when, why; and which way it would turn. */
export interface AdviceSaid {
  readonly title: string;
  readonly when: string | undefined;
  readonly why: string;
}

/** One thing that the herd's own kids have taught: what it is about, what the tables said, what they say now, from how many. */
export interface LessonSaid {
  readonly about: string;
  readonly before: string;
  readonly after: string;
  readonly from: string;
}

/**
 * Everything that a person reads and a program works out, in one language. Screens, sheets and the terminal all speak
 * through it, so one answer has one wording. Sentences have at most 15 words (WO-1).
 */
export interface Words {
  readonly language: string;
  /** The goat's name, tag or, failing both, whose kid it is. */
  label(ref: AnimalRef): string;
  /** A day as said aloud: today, tomorrow, else weekday and date; the year where it is not this one's. */
  day(day: Day, today: Day): string;
  /** A figure with so many places, its decimals set off as the language does; without `places` as many as it has. */
  number(n: number, places?: number): string;
  /** Which of two names comes first where names stand in order, as a reader of this language looks them up; 9 before 10. */
  inOrder(one: string, other: string): number;
  /** Names in a row, the last set off by a word: "Ines and Tobias". */
  named(names: readonly string[]): string;
  /** "in 3 days", "today", "2 days ago". */
  daysFrom(today: Day, day: Day): string;
  /** "about 3 in 4", "fewer than 1 in 100", "all". */
  counted(chance: Counted): string;
  /** Both sides of a kid's chances in one sentence. */
  horns(kidsLikeThis: Counted): string;
  urgency(urgency: Urgency, daysLeft: number): string;
  task(task: DatedTask, today: Day): TaskSaid;
  advice(advice: KidAdvice, today: Day): AdviceSaid;
  /** One fact and which way it speaks, e.g. "Pointed bump on both sides: speaks strongly for horns". */
  weighed(fact: WeighedFact): string;
  /** A finding of one sign, without what it means. */
  finding(sign: keyof HeadSigns, finding: Sided<string>): string;
  /** Calls of about one chance, and what came of them. */
  call(line: CallLine): string;
  /** How one reader's calls came out, kindly. */
  reader(record: ReaderRecord): string;
  lesson(lesson: LearntModel["lessons"][number]): LessonSaid;
  /** What grew again on some disbudded buds, and what to expect of the next. */
  regrowth(group: RegrowthGroup): string;
  genotype(said: GenotypeSaid): string;
  problem(problem: AdviceProblem, today: Day): ProblemSaid;
  caution(code: CareCaution | "very-small-kid"): string;
}

import type { Situation } from "@pollard/advice";
import type { Day } from "@pollard/base";
import type { Herd, HerdId } from "@pollard/records";
import type { BreedingAnswers } from "./breeding-answers.ts";
import type { ListAnswers } from "./list-answers.ts";
import type { SeasonAnswers } from "./season-answers.ts";

/** The same questions, each answered once the code behind them is here. */
type Later<T> = {
  readonly [K in keyof T]: T[K] extends (...asked: infer A) => infer R ? (...asked: A) => Promise<Awaited<R>> : never;
};

/**
 * Answers whose code is fetched when one of them is first asked for, so that nobody waits for it at the start.
 *
 * Assumes: `names` are all of the questions; a question that needs no code of its own costs the same.
 */
function later<T extends object>(names: Readonly<Record<keyof T, true>>, fetch: () => Promise<T>): Later<T> {
  let here: Promise<T> | undefined;
  const asked =
    (name: string) =>
    async (...about: unknown[]) => {
      here ??= fetch();
      const answers = (await here) as Readonly<Record<string, (...about: unknown[]) => unknown>>;
      return answers[name]?.(...about);
    };
  return Object.fromEntries(Object.keys(names).map((name) => [name, asked(name)])) as unknown as Later<T>;
}

/** What a phone need not have read before its first page stands there: the season, breeding, lists and tables. */
export type LaterAnswers = Later<SeasonAnswers> & Later<BreedingAnswers> & Later<ListAnswers>;

const SEASON = {
  season: true,
  care: true,
  careOf: true,
  careRules: true,
  visitors: true,
  serviceCautions: true,
  sheet: true,
  calendar: true,
  visitWishes: true,
} as const;
const BREEDING = {
  pairings: true,
  testWorth: true,
  review: true,
  kept: true,
  carried: true,
  why: true,
  diversity: true,
  forecastBegin: true,
  wishesFor: true,
  forecastStep: true,
  forecastResult: true,
} as const;
const LISTS = { takeList: true, listPlan: true, listFacts: true, tables: true } as const;

export function laterAnswers(herd: () => Herd, situation: (today: Day) => Situation, id: () => HerdId): LaterAnswers {
  return {
    ...later<SeasonAnswers>(SEASON, async () => (await import("./season-answers.ts")).seasonAnswers(herd, situation)),
    ...later<BreedingAnswers>(BREEDING, async () =>
      (await import("./breeding-answers.ts")).breedingAnswers(herd, situation),
    ),
    ...later<ListAnswers>(LISTS, async () => (await import("./list-answers.ts")).listAnswers(herd, id)),
  };
}

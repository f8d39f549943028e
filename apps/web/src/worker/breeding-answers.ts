import {
  type AnimalRef,
  breedingStock,
  carriedBeside,
  type CarriedLine,
  type Diversity,
  forecastModel,
  type ForecastModel,
  forecastQuestion,
  type ForecastWish,
  herdDiversity,
  keepOrSell,
  type KeptKid,
  pairingRulesOf,
  type PairingsModel,
  pairingsModel,
  reviewModel,
  type ReviewModel,
  type Situation,
  testWorthModel,
  type TestWorthModel,
  whyBelieved,
  type WhyModel,
} from "@pollard/advice";
import { Bug, type Day } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import { type ForecastRun, startForecast } from "@pollard/planning";
import type { Herd } from "@pollard/records";
import { solver } from "./solver.ts";

/** The keeper's wishes for one doe, by the bucks' ids. */
export interface DoeWishes {
  readonly must: string | undefined;
  readonly never: readonly string[];
}

/** What the screens of breeding ask: which buck for which doe, the coming years, tests, the season's review, whom to keep. */
export interface BreedingAnswers {
  /** Every pair and the best plan under the keeper's rules. */
  pairings(today: Day): Promise<PairingsModel>;
  testWorth(today: Day): Promise<TestWorthModel>;
  review(today: Day): ReviewModel;
  kept(today: Day): readonly KeptKid[];
  /** What an animal most likely carries at the loci that the herd follows besides horns. */
  carried(id: AnimalId, today: Day): readonly CarriedLine[];
  /** What that rests on, at one locus. */
  why(id: AnimalId, locus: string, today: Day): WhyModel | undefined;
  /** How kin the herd's young are, and whom their genes come from. */
  diversity(today: Day): Diversity<AnimalRef> | undefined;
  /** Begins a forecast, in place of one that is under way. */
  forecastBegin(today: Day, wish: ForecastWish): number;
  /** What the keeper wishes for a doe: the one buck she is to go to, and those she is not. */
  wishesFor(doe: string): DoeWishes;
  /**
   * Goes on with the forecast for so many runs; answers how many are done.
   *
   * Between two calls the worker is free for other questions, and a forecast that nobody goes on with is simply left.
   */
  forecastStep(begun: number, runs: number): number;
  /** What the runs done so far say. */
  forecastResult(begun: number): ForecastModel;
}

/** Most pairs for which the next plans and the price of every rule are worked out on a phone; each is a plan of its own. */
const ALL_AROUND = 300;

/** The breeding answers of whichever herd is open. */
export function breedingAnswers(herdNow: () => Herd, situationOn: (today: Day) => Situation): BreedingAnswers {
  let begun = 0;
  let run: ForecastRun | undefined;
  let model: (() => ForecastModel) | undefined;
  return {
    async pairings(today) {
      const situation = situationOn(today);
      const { does, bucks } = breedingStock(situation);
      const around = does.length * bucks.length > ALL_AROUND ? "nothing" : "everything";
      return pairingsModel(situation, await solver(), { around });
    },
    testWorth: async (today) => testWorthModel(situationOn(today), await solver()),
    review: (today) => reviewModel(situationOn(today)),
    wishesFor(doe) {
      const { must, never } = pairingRulesOf(herdNow());
      return {
        must: must.find((wish) => wish.doe === doe)?.buck,
        never: never.filter((wish) => wish.doe === doe).map((wish) => wish.buck),
      };
    },
    kept: (today) => keepOrSell(situationOn(today)),
    carried: (id, today) => carriedBeside(situationOn(today), id),
    why: (id, locus, today) => whyBelieved(situationOn(today), id, locus),
    diversity: (today) => herdDiversity(situationOn(today)),
    forecastBegin(today, wish) {
      const situation = situationOn(today);
      const question = forecastQuestion(situation, wish);
      const started = startForecast(question);
      run = started;
      model = () => forecastModel(situation, question, started.result());
      begun += 1;
      return begun;
    },
    forecastStep(which, runs) {
      if (which !== begun || run === undefined) return 0;
      run.step(runs);
      return run.done;
    },
    forecastResult(which) {
      if (which !== begun || model === undefined) throw new Bug(`forecastResult: ${which} is not under way`);
      return model();
    },
  };
}

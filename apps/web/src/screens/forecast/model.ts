import type { ForecastModel } from "@pollard/advice";
import type { PolicyForecast, YearTally } from "@pollard/planning";
import type { BandStep } from "../../parts/pictures/band-plot.tsx";

/** What is shown of each year, in the order of a keeper's interest. */
export const shownMeasures = ({ money }: ForecastModel): readonly (keyof YearTally)[] => [
  "horned",
  "visits",
  ...(money === "said" ? (["cost"] as const) : []),
  "polledKids",
  "polledDoes",
  "intersex",
  "infertile",
  "inbreeding",
  "does",
];

/** The measures that decide between two ways of breeding, shown first. */
export const DECIDING = [
  "horned",
  "polledDoes",
  "intersex",
  "inbreeding",
] as const satisfies readonly (keyof YearTally)[];

/** The first year, the middle one and the last: a table that fits a phone. Places count from 0. */
export function shownYears({ years }: PolicyForecast): readonly number[] {
  const last = years.length - 1;
  return [...new Set([0, Math.floor(last / 2), last])].filter((year) => year >= 0);
}

/** Simulated herds: enough for a range that does not jump, few enough for a phone. */
export const RUNS = 200;
/** Runs between two looks at whether somebody stopped it. */
export const STEP = 10;
/** The same luck on every device. */
export const SEED = 1;

/**
 * Goes on in steps until all runs are done or somebody stops.
 *
 * Shape: answers how many runs were done.
 */
export async function runInSteps(
  step: (runs: number) => Promise<number>,
  wanted: () => boolean,
  onDone: (done: number) => void,
): Promise<number> {
  let done = 0;
  while (done < RUNS && wanted()) {
    const reached = await step(Math.min(STEP, RUNS - done));
    if (reached <= done) break;
    done = reached;
    onDone(done);
  }
  return done;
}

/** What is drawn year by year: the heads to disbud, and how many does are polled. */
export const DRAWN = ["horned", "polledDoes"] as const satisfies readonly (keyof YearTally)[];

/** Shares are drawn out of ten, as they are said. */
const drawnAs = (measure: (typeof DRAWN)[number], x: number): number => (measure === "polledDoes" ? x * 10 : x);

/** A measure year by year, as it is drawn; years count from 1. */
export const bandOf = (policy: PolicyForecast, measure: (typeof DRAWN)[number]): readonly BandStep[] =>
  policy.years.map((year, i) => ({
    at: i + 1,
    low: drawnAs(measure, year[measure].low),
    middle: drawnAs(measure, year[measure].median),
    high: drawnAs(measure, year[measure].high),
  }));

/** The highest that any policy reaches, so that every picture of a measure has one scale. */
export const mostOf = ({ policies }: ForecastModel, measure: (typeof DRAWN)[number]): number =>
  Math.max(...policies.flatMap((policy) => bandOf(policy, measure).map(({ high }) => high)));

import type { ForecastModel, PolicyCode } from "@pollard/advice";
import type { PolicyForecast, Spread, YearTally } from "@pollard/planning";

const POLICY: Readonly<Record<PolicyCode, string>> = {
  "as-now": "Bucks as now, polled parents apart",
  "two-lines": "One polled and one horned buck, polled parents apart",
  "two-lines-polled-first": "The same, polled daughters kept first",
  "two-lines-doubled": "One buck with two polled genes and one horned buck, polled parents apart",
  "own-bucks": "One polled and one horned buck, from your own kids",
  "polled-together": "Polled bucks on all does",
  "horned-bucks": "Horned bucks on all does",
};

const MEASURE: Readonly<Record<keyof YearTally, string>> = {
  does: "Does",
  openDoes: "Does left open",
  kids: "Kids",
  horned: "Heads to disbud",
  intersex: "Intersex kids",
  infertile: "Kids that cannot breed",
  visits: "Vet visits",
  cost: "Cost",
  inbreeding: "Kids' inbreeding",
  kinship: "Kinship in the herd",
  polledKids: "Polled kids in 10",
  polledDoes: "Polled does in 10",
};

/** What a policy is called; a policy of the keeper's own goes by its own name. */
const sayPolicy = (name: string): string => POLICY[name as PolicyCode] ?? name;

/** What is measured. */
const sayMeasure = (measure: keyof YearTally): string => MEASURE[measure];

const SHARES: ReadonlySet<keyof YearTally> = new Set(["polledKids", "polledDoes"]);
const FINE: ReadonlySet<keyof YearTally> = new Set(["inbreeding", "kinship"]);

/** A measure as a number: whole counts, shares of ten, kinship with two places. */
function sayNumber(measure: keyof YearTally, x: number): string {
  if (SHARES.has(measure)) return `${Math.round(x * 10)}`;
  if (FINE.has(measure)) return x.toFixed(2);
  return `${Math.round(x)}`;
}

/** Median with the ends between which nine runs in ten lie: "12 (8 to 16)". */
function saySpread(measure: keyof YearTally, { low, median, high }: Spread): string {
  const [from, middle, to] = [low, median, high].map((x) => sayNumber(measure, x));
  return from === to ? `${middle}` : `${middle} (${from} to ${to})`;
}

/** How a policy compares with the first, run by run on the same chances. */
function sayAgainst({ againstFirst }: PolicyForecast, years: number): string {
  const { horned, intersex } = againstFirst;
  const heads = sayDifference(horned, "head", "heads");
  const kids = sayDifference(intersex, "intersex kid", "intersex kids");
  return `In ${years} ${years === 1 ? "year" : "years"}: ${heads}; ${kids}.`;
}

function sayDifference({ low, median, high }: Spread, one: string, many: string): string {
  const count = Math.round(Math.abs(median));
  if (count === 0) return `about as many ${many}`;
  const sure = low > 0 || high < 0 ? "" : "perhaps ";
  return `${sure}${count} ${count === 1 ? one : many} ${median > 0 ? "more" : "fewer"}`;
}

/** What the numbers rest on, and what they do not know. */
function sayForecastNote({ runs, money }: ForecastModel): readonly string[] {
  return [
    `From ${runs} simulated herds; nine in ten lie between the numbers in brackets.`,
    ...(money === "not-said" ? ["Costs show once you set the prices of a visit and a head."] : []),
    "Bought bucks are taken as unrelated. Luck with names and fences is not in it.",
  ];
}

/** All that is said of forecasts. */
export const forecasts = {
  policy: sayPolicy,
  measure: sayMeasure,
  spread: saySpread,
  against: sayAgainst,
  note: sayForecastNote,
} as const;

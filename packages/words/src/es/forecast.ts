import type { ForecastModel, PolicyCode } from "@pollard/advice";
import type { PolicyForecast, Spread, YearTally } from "@pollard/planning";
import { decimal } from "./numbers.ts";

const POLICY: Readonly<Record<PolicyCode, string>> = {
  "as-now": "Machos como ahora, padres mochos separados",
  "two-lines": "Un macho mocho y uno con cuernos, mochos separados",
  "two-lines-polled-first": "Lo mismo, conservando antes hijas mochas",
  "two-lines-doubled": "Un macho PP y uno con cuernos, mochos separados",
  "own-bucks": "Un macho mocho y uno con cuernos, de sus crías",
  "polled-together": "Machos mochos con todas las cabras",
  "horned-bucks": "Machos con cuernos con todas las cabras",
};

const MEASURE: Readonly<Record<keyof YearTally, string>> = {
  does: "Cabras",
  openDoes: "Cabras vacías",
  kids: "Crías",
  horned: "Cabezas por desbotonar",
  intersex: "Crías intersexuales",
  infertile: "Crías que no pueden reproducirse",
  visits: "Visitas del veterinario",
  cost: "Costo",
  inbreeding: "Consanguinidad de las crías",
  kinship: "Parentesco en el rebaño",
  polledKids: "Crías mochas de 10",
  polledDoes: "Cabras mochas de 10",
};

const SHARES: ReadonlySet<keyof YearTally> = new Set(["polledKids", "polledDoes"]);
const FINE: ReadonlySet<keyof YearTally> = new Set(["inbreeding", "kinship"]);

function sayNumber(measure: keyof YearTally, x: number): string {
  if (SHARES.has(measure)) return `${Math.round(x * 10)}`;
  if (FINE.has(measure)) return decimal(x, 2);
  return `${Math.round(x)}`;
}

function saySpread(measure: keyof YearTally, { low, median, high }: Spread): string {
  const [from, middle, to] = [low, median, high].map((x) => sayNumber(measure, x));
  return from === to ? `${middle}` : `${middle} (${from} a ${to})`;
}

function sayAgainst({ againstFirst }: PolicyForecast, years: number): string {
  const { horned, intersex } = againstFirst;
  const heads = sayDifference(horned, "cabeza", "cabezas");
  const kids = sayDifference(intersex, "cría intersexual", "crías intersexuales");
  return `En ${years} ${years === 1 ? "año" : "años"}: ${heads}; ${kids}.`;
}

function sayDifference({ low, median, high }: Spread, one: string, many: string): string {
  const count = Math.round(Math.abs(median));
  if (count === 0) return `más o menos las mismas ${many}`;
  const sure = low > 0 || high < 0 ? "" : "quizá ";
  return `${sure}${count} ${count === 1 ? one : many} ${median > 0 ? "más" : "menos"}`;
}

function sayForecastNote({ runs, money }: ForecastModel): readonly string[] {
  return [
    `De ${runs} rebaños simulados; nueve de cada diez caen entre los números del paréntesis.`,
    ...(money === "not-said" ? ["El costo aparece al fijar el precio de una visita y una cabeza."] : []),
    "Los machos comprados se toman por no emparentados. El azar de las cercas no está dentro.",
  ];
}

/** Todo lo que se dice de los pronósticos. */
export const forecasts = {
  policy: (name: string): string => POLICY[name as PolicyCode] ?? name,
  measure: (measure: keyof YearTally): string => MEASURE[measure],
  spread: saySpread,
  against: sayAgainst,
  note: sayForecastNote,
} as const;

import { daysFrom, present, probability, type Sourced } from "@pollard/base";
import type { PolledBelief } from "@pollard/genetics";
import { litterSizes, windowOf } from "@pollard/husbandry";
import {
  type BreedingPolicy,
  type BuckPlace,
  type ForecastQuestion,
  type ForecastWorld,
  herdDraw,
  type PolicyForecast,
} from "@pollard/planning";
import { type Animal, type Herd, type Kidding, kiddingsOf } from "@pollard/records";
import { vetFiguresOf } from "../settings.ts";
import type { Situation } from "../situation.ts";
import { breedingStock, hasSired } from "./breeding-stock.ts";
import { herdKinship } from "./herd-kinship.ts";
import { moneyOf } from "./money.ts";
import { pairingRulesOf } from "./pairing-rules.ts";

/** Policies that are offered for comparison; a screen may add the keeper's own. */
export const POLICY_CODES = [
  "as-now",
  "two-lines",
  "two-lines-polled-first",
  "two-lines-doubled",
  "own-bucks",
  "polled-together",
  "horned-bucks",
] as const;
export type PolicyCode = (typeof POLICY_CODES)[number];

/** A policy with its code, by which it is named in words. */
export interface CodedPolicy extends BreedingPolicy {
  readonly name: PolicyCode;
}

/** What the herd would come to under each policy. */
export interface ForecastModel {
  readonly years: number;
  readonly runs: number;
  readonly seed: number;
  /** The first is what the others are compared with. */
  readonly policies: readonly PolicyForecast[];
  /** Whether costs are in money: only where the keeper said the prices. */
  readonly money: "said" | "not-said";
}

/** Chance that a kid born lives to the days in which its head matters: to 25 days, born after 148 to 152 days. */
const KID_LIVES: Sourced<number> = { value: 0.87, source: "mellado2000", checked: "read-in-source" };
/** Share of does lost in a year, for whatever reason but age. */
const DOE_LOST: Sourced<number> = { value: 0.08, source: "judgement", checked: "judgement" };
/** Seasons that a doe is bred, and a buck serves, before they leave. */
const DOE_YEARS: Sourced<number> = { value: 7, source: "judgement", checked: "judgement" };
const BUCK_YEARS: Sourced<number> = { value: 2, source: "judgement", checked: "judgement" };
/** Days over which kiddings spread, where no season of the herd says so. */
const KIDDING_DAYS: Sourced<number> = { value: 42, source: "judgement", checked: "judgement" };
/** Days without a kidding that part two seasons. */
export const SEASON_GAP: Sourced<number> = { value: 60, source: "judgement", checked: "judgement" };

const surely = (genotype: keyof PolledBelief): PolledBelief => ({
  PP: probability(genotype === "PP" ? 1 : 0),
  Pp: probability(genotype === "Pp" ? 1 : 0),
  pp: probability(genotype === "pp" ? 1 : 0),
});
const polledPlace = (bought: PolledBelief): BuckPlace => ({
  from: "bought",
  look: "polled",
  bought,
  years: BUCK_YEARS.value,
});
const HORNED_PLACE: BuckPlace = { from: "bought", look: "horned", bought: surely("pp"), years: BUCK_YEARS.value };

/**
 * The policies offered, made from the herd as it stands.
 *
 * `as-now`: the herd's own bucks by their looks, polled parents kept apart. `two-lines`: a polled and a horned buck side by
 * side, so that every doe has one; `two-lines-polled-first` keeps polled daughters before horned ones, in
 * `two-lines-doubled` the polled buck is tested PP, in `own-bucks` both are chosen from the herd's own kids. `polled-together`:
 * polled bucks on all does. `horned-bucks`: horned ones.
 *
 * Shape: in the order of `POLICY_CODES`. Other bought polled bucks are tested carriers (Pp).
 */
export function offeredPolicies(situation: Situation): readonly CodedPolicy[] {
  const { does, bucks } = breedingStock(situation);
  const looks = bucks.map((b) => (situation.beliefs.polled(b.id).pp > 0.5 ? HORNED_PLACE : polledPlace(surely("Pp"))));
  const base = {
    pairing: "apart",
    doesPerBuck: pairingRulesOf(situation.herd).mostDoes,
    does: does.length,
    polledShare: undefined,
    doeYears: DOE_YEARS.value,
  } as const;
  const both = [polledPlace(surely("Pp")), HORNED_PLACE];
  const offers: Readonly<Record<PolicyCode, CodedPolicy>> = {
    "as-now": { ...base, name: "as-now", bucks: looks },
    "two-lines": { ...base, name: "two-lines", bucks: both },
    "two-lines-polled-first": { ...base, name: "two-lines-polled-first", bucks: both, polledShare: 1 },
    "two-lines-doubled": { ...base, name: "two-lines-doubled", bucks: [polledPlace(surely("PP")), HORNED_PLACE] },
    "own-bucks": { ...base, name: "own-bucks", bucks: both.map((place) => ({ ...place, from: "own" })) },
    "polled-together": { ...base, name: "polled-together", pairing: "any", bucks: [polledPlace(surely("Pp"))] },
    "horned-bucks": { ...base, name: "horned-bucks", bucks: [HORNED_PLACE] },
  };
  return POLICY_CODES.map((code) => offers[code]);
}

/** What is asked of a forecast. */
export interface ForecastWish {
  readonly years: number;
  readonly runs: number;
  readonly seed: number;
  readonly policies?: readonly BreedingPolicy[];
}

/**
 * The herd's own question for a forecast; whoever asks runs it (`startForecast`), in steps if it is to be left early.
 *
 * Source: rules PA-10 to PA-12 (planning).
 */
export function forecastQuestion(situation: Situation, wish: ForecastWish): ForecastQuestion {
  const { herd, beliefs } = situation;
  const stock = breedingStock(situation);
  const does = stock.does.toSorted(oldestFirst);
  // A place goes to a proven sire before a buck that may turn out barren.
  const bucks = stock.bucks.toSorted((a, b) => Number(hasSired(situation, b.id)) - Number(hasSired(situation, a.id)));
  const kinship = herdKinship(situation).kin;
  const ids = [...does, ...bucks].map((a) => a.id);
  return {
    herd: {
      does: does.map(({ id }) => {
        const seasons = kiddingsOf(herd, id).length;
        return { seasons, hadKids: seasons > 0 ? "yes" : "no" };
      }),
      bucks: bucks.map(({ id }) => ({ seasons: 0, hadKids: hasSired(situation, id) ? "yes" : "no" })),
      draw: herdDraw({
        problem: beliefs.problem,
        answer: beliefs.answer,
        does: does.map((d) => d.id),
        bucks: bucks.map((b) => b.id),
      }),
      kinship: ids.map((a) => ids.map((b) => kinship.kinship(a, b))),
    },
    policies: wish.policies ?? offeredPolicies(situation),
    world: forecastWorld(herd),
    years: wish.years,
    runs: wish.runs,
    seed: wish.seed,
  };
}

const oldestFirst = (a: Animal, b: Animal): number => {
  const [x, y] = [a.born ?? "", b.born ?? ""];
  return x < y ? -1 : x > y ? 1 : a.id < b.id ? -1 : 1;
};

/** What holds under every policy, from the herd's own records where they say it. */
function forecastWorld(herd: Herd): ForecastWorld {
  const kiddings = herd.kiddings.filter((k) => k.kids.length > 0);
  const own = { kiddings: kiddings.length, kids: kiddings.reduce((sum, k) => sum + k.kids.length, 0) };
  const season = latestSeason(herd);
  const [first, last] = [season[0], season.at(-1)];
  const windows = (["buck", "doe"] as const).map((sex) => windowOf(sex, vetFiguresOf(herd)));
  const mean = (of: "aimFrom" | "amberAfter"): number =>
    Math.round(windows.reduce((sum, w) => sum + w[of].value, 0) / windows.length);
  const money = moneyOf(herd);
  return {
    litter: [0, ...litterSizes({ own })],
    kidLives: KID_LIVES.value,
    doeLost: DOE_LOST.value,
    kiddingDays: Math.max(1, first && last && first !== last ? daysFrom(first.on, last.on) + 1 : KIDDING_DAYS.value),
    visitAges: { from: mean("aimFrom"), to: mean("amberAfter") },
    visitCost: money.visit ?? 0,
    headCost: money.head ?? 0,
  };
}

/** The kiddings of the latest season, by day: back from the last one to a stretch of two months without any. */
export function latestSeason(herd: Herd): readonly Kidding[] {
  const byDay = herd.kiddings.toSorted((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0));
  let from = byDay.length - 1;
  while (from > 0) {
    const [earlier, later] = [present(byDay[from - 1], "a kidding"), present(byDay[from], "a kidding")];
    if (daysFrom(earlier.on, later.on) > SEASON_GAP.value) break;
    from--;
  }
  return from < 0 ? [] : byDay.slice(from);
}

/** A finished forecast, with what it rests on. */
export function forecastModel(
  { herd }: Situation,
  question: ForecastQuestion,
  policies: readonly PolicyForecast[],
): ForecastModel {
  const { visit, head } = moneyOf(herd);
  return {
    years: question.years,
    runs: question.runs,
    seed: question.seed,
    policies,
    money: visit === undefined && head === undefined ? "not-said" : "said",
  };
}

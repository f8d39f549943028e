import { addDays, type Day, probability, type Sourced } from "@pollard/base";
import { type AnimalId, explanations, type PolledBelief } from "@pollard/genetics";
import type { Animal } from "@pollard/records";
import { animalRef } from "../animal-ref.ts";
import { countedOf } from "../counted.ts";
import { headRecord } from "../heads/head-record.ts";
import { showsBothSexes } from "../belief/intersex-look.ts";
import { latestSeason } from "../pairing/forecast-model.ts";
import { moneyOf } from "../pairing/money.ts";
import { rangeOf } from "../pairing/pair-model.ts";
import type { Situation } from "../situation.ts";
import { truthOf } from "../heads/truths.ts";
import { binomialChances, tailOf } from "./count-chances.ts";
import type {
  SurpriseReason,
  LearntOfParent,
  ReviewModel,
  SeenAgainstExpected,
  SireSeason,
  Surprise,
  Verdict,
} from "./review-models.ts";
import { type SeasonForecast, seasonForecast } from "./season-forecast.ts";

/** Chances below which a count is called unusual, and very unusual. */
const UNUSUAL: Sourced<{ readonly unusual: number; readonly very: number }> = {
  value: { unusual: 0.05, very: 0.005 },
  source: "judgement",
  checked: "judgement",
};
/** Chance of what was seen below which a kid is a surprise: less than the one in four that two carriers give. */
const SURPRISING = 0.2;
/** Share of a belief that must have moved for it to be told. */
const MOVED = 0.05;
/** Days after the last birth in which a visit still belongs to the season. */
const AFTER_LAST_BIRTH = 30;
/** Share of bucklings at birth: sex ratios scatter around one half in the published herds. */
const BUCKLINGS = 0.5;

/**
 * The latest season, or that of a given year, against what was to be expected of it before its first birth.
 *
 * Shape:  surprises by rising chance of what was seen; parents by how far the belief about them moved.
 * Cost:   one inference more, and those of the readings' record.
 * Source: exact tests and posterior predictive checks; rules PA-14 to PA-16.
 */
export function reviewModel(situation: Situation, year?: number): ReviewModel {
  const { herd } = situation;
  const until = year === undefined ? undefined : `${String(year).padStart(4, "0")}-12-31`;
  const season = latestSeason({
    ...herd,
    kiddings: herd.kiddings.filter(
      (k) => until === undefined || (k.on <= until && k.on >= `${until.slice(0, 4)}-01-01`),
    ),
  });
  const [first, last] = [season[0], season.at(-1)];
  if (first === undefined || last === undefined) return { kind: "no-season" };
  const kids = season.flatMap((k) => k.kids.flatMap((id) => herd.animals.get(id) ?? []));
  const forecast = seasonForecast(herd, first.on, kids);
  const known = kids.filter((k) => truthOf(k) !== undefined);
  const seenIntersex = kids.filter(showsBothSexes).length;
  const sexed = kids.filter((k) => k.sex === "doe" || k.sex === "buck" || k.sex === "wether");
  return {
    kind: "season",
    from: first.on,
    to: last.on,
    kiddings: season.length,
    kids: kids.length,
    bornDead: kids.filter((k) => k.bornAs === "dead").length,
    horned: against(hornedAmong(known), forecast.horned(known)),
    notKnown: kids.length - known.length,
    intersex: against(seenIntersex, forecast.intersex(kids)),
    bucks: against(sexed.filter((k) => k.sex !== "doe").length, binomialChances(sexed.length, BUCKLINGS)),
    sires: siresOf(situation, known, forecast),
    surprises: surprisesOf(situation, known, forecast),
    learnt: learntOf(situation, kids, forecast),
    readings: headRecord(situation),
    vet: vetWork(situation, kids, first.on, last.on),
  };
}

const hornedAmong = (kids: readonly Animal[]): number => kids.filter((k) => truthOf(k)?.head === "horned").length;

/** A count against the chances of every count. */
function against(seen: number, chances: readonly number[]): SeenAgainstExpected {
  const p = tailOf(chances, seen, "two-sided");
  const verdict: Verdict =
    p < UNUSUAL.value.very ? "very-unusual" : p < UNUSUAL.value.unusual ? "unusual" : "as-expected";
  return { seen, of: chances.length - 1, ...rangeOf(chances), p, verdict };
}

/** Sires by how many of their kids' heads are known; a kid of several possible sires is nobody's here. */
function siresOf(
  { herd, beliefs }: Situation,
  known: readonly Animal[],
  forecast: SeasonForecast,
): readonly SireSeason[] {
  const bySire = new Map<AnimalId, Animal[]>();
  for (const kid of known) {
    const [likeliest] = beliefs.sires(kid.id);
    if (likeliest?.[0] === undefined || likeliest[1] < 0.5) continue;
    bySire.set(likeliest[0], [...(bySire.get(likeliest[0]) ?? []), kid]);
  }
  return [...bySire]
    .sort((a, b) => b[1].length - a[1].length)
    .map(([buck, kids]) => ({
      buck: animalRef(herd, buck),
      horned: against(hornedAmong(kids), forecast.horned(kids)),
    }));
}

function surprisesOf(situation: Situation, known: readonly Animal[], forecast: SeasonForecast): readonly Surprise[] {
  return known
    .flatMap((animal): Surprise[] => {
      const truth = truthOf(animal);
      if (truth === undefined) return [];
      const { pp } = forecast.beliefs.polled(animal.id);
      const expected = probability(truth.head === "horned" ? pp : 1 - pp);
      if (expected >= SURPRISING) return [];
      const explanations = explanationsOf(situation, animal, truth.head);
      return [
        { kid: animalRef(situation.herd, animal.id), head: truth.head, from: truth.from, expected, explanations },
      ];
    })
    .sort((a, b) => a.expected - b.expected);
}

/**
 * What may lie behind a surprise, the likeliest first: another sire or dam than written, a head misread or written under
 * another kid, or a parent that carries something else than was thought. Luck alone is none of them: known parents give
 * horns one time in four or never, and hornless heads one time in two or never.
 *
 * Each record about the kid is supposed wrong in turn and the whole herd weighed anew (genetics). What is left for
 * everything being as written is split by what is believed of the kid now.
 */
function explanationsOf({ beliefs }: Situation, kid: Animal, head: "horned" | "polled"): readonly SurpriseReason[] {
  const facts = beliefs.facts(kid.id).map((f) => f.fact);
  const member = beliefs.problem.members.find((m) => m.id === kid.id);
  const links = [
    ...((member?.sires.length ?? 0) > 0 ? [{ kid: kid.id, parent: "sire" as const }] : []),
    ...(member?.dam === undefined ? [] : [{ kid: kid.id, parent: "dam" as const }]),
  ];
  const found = explanations(beliefs.problem, { facts, links });
  const sum = (is: (e: (typeof found)[number]) => boolean): number =>
    found.reduce((total, e) => total + (is(e) ? e.chance : 0), 0);
  const asWritten = sum((e) => e.kind === "as-written");
  const now = beliefs.polled(kid.id);
  const misread = head === "horned" ? 1 - now.pp : now.pp;
  const all: Omit<SurpriseReason, "counted">[] = [
    { kind: "other-sire", chance: probability(sum((e) => e.kind === "wrong-parent" && e.link.parent === "sire")) },
    { kind: "other-dam", chance: probability(sum((e) => e.kind === "wrong-parent" && e.link.parent === "dam")) },
    { kind: "misread", chance: probability(sum((e) => e.kind === "wrong-fact") + asWritten * misread) },
    { kind: "parent-not-as-thought", chance: probability(asWritten * (1 - misread)) },
  ];
  return all
    .filter((e) => e.chance > 0)
    .sort((x, y) => y.chance - x.chance)
    .map((e) => ({ ...e, counted: countedOf(e.chance, 10) }));
}

/** Share of a belief that a season moved; 0 for an animal that was not known before it. */
function movedBy({ beliefs }: SeasonForecast, id: AnimalId, now: PolledBelief): number {
  if (!beliefs.problem.members.some((m) => m.id === id)) return 0;
  const before = beliefs.polled(id);
  return (Math.abs(before.PP - now.PP) + Math.abs(before.Pp - now.Pp) + Math.abs(before.pp - now.pp)) / 2;
}

function learntOf(
  { herd, beliefs }: Situation,
  kids: readonly Animal[],
  forecast: SeasonForecast,
): readonly LearntOfParent[] {
  const parents = new Set(kids.flatMap((k) => [k.dam, ...k.sires]).filter((id) => id !== undefined));
  const known = new Set(forecast.beliefs.problem.members.map((m) => m.id));
  return [...parents]
    .filter((id) => known.has(id) && herd.animals.has(id))
    .map((id) => {
      const now = beliefs.polled(id);
      return {
        animal: animalRef(herd, id),
        before: forecast.beliefs.polled(id),
        now,
        moved: movedBy(forecast, id, now),
      };
    })
    .filter(({ moved }) => moved >= MOVED)
    .sort((a, b) => b.moved - a.moved);
}

function vetWork({ herd, today }: Situation, kids: readonly Animal[], from: Day, last: Day) {
  const to = addDays(last, AFTER_LAST_BIRTH);
  const visits = new Set(herd.vetDays.map((v) => v.on).filter((on) => on >= from && on <= to && on <= today)).size;
  const done = kids.flatMap((k) => k.disbuddings);
  const heads = kids.filter((k) => k.disbuddings.some((d) => d.done !== "not-done")).length;
  const money = moneyOf(herd);
  const cost =
    money.visit === undefined && money.head === undefined
      ? undefined
      : visits * (money.visit ?? 0) + heads * (money.head ?? 0);
  return { visits, heads, leftAlone: done.filter((d) => d.done === "not-done").length, cost, money };
}

import { fromLogOdds, logOdds, type Probability, probability, seededRandom } from "@pollard/base";
import { DEFAULT_HEAD_TABLES, type HeadReading, hornsAfter, hornsInterval, signWeights } from "@pollard/husbandry";
import type { Animal, EntryId } from "@pollard/records";
import type { OwnFact } from "../belief/own-facts.ts";
import { counted } from "../counted.ts";
import { hasFinding, headKidOf, headReadingsOf, kidAges } from "./kid-facts.ts";
import type { HornsBelief, WeighedFact } from "./kid-models.ts";
import type { Situation } from "../situation.ts";

/** Seed of the draws behind the range: the same herd shows the same range on every device. */
const INTERVAL_SEED = 4;
/** Log-odds beyond which a chance is shown as its edge: e^30 to one is beyond any fact. */
const EDGE = 30;
/** Log-odds below which a fact that is not about horns (a look at birth, having had young) is not worth a line. */
const SPEAKS = 0.05;

/**
 * What is believed of a kid's horns, and what each fact added. `undefined` until a reading of its head is stored: eyes first,
 * forecast after.
 *
 * Units:  natural log-odds. The forecast's log-odds and the weights add up to those of `horns`, but for facts that speak of
 *         horns only by the way and are not worth a line.
 * Source: rules AD-5, AD-7, AD-23.
 */
export function hornsBelief(situation: Situation, animal: Animal): HornsBelief | undefined {
  const { herd, beliefs, today } = situation;
  const ages = kidAges(herd, animal, today);
  const readings = headReadingsOf(animal, ages);
  if (!readings.some(hasFinding)) return undefined;
  const facts = beliefs.facts(animal.id);
  const forecast = beliefs.forecast(animal.id);
  const kid = headKidOf(animal, herd);
  const { heads } = beliefs;
  const afterReadings = beliefs.forecast(
    animal.id,
    facts.filter((f) => f.about !== "readings").map((f) => f.fact),
  );
  const weighed = [
    ...signWeights(readings, kid, heads.tables, forecast).map((w) => signFact(w, readings)),
    ...otherFacts(situation, animal, facts, odds(afterReadings.pp)),
  ];
  const later = odds(beliefs.polled(animal.id).pp) - odds(afterReadings.pp);
  const { low, high } = hornsInterval(forecast, readings, kid, heads.sure(), seededRandom(INTERVAL_SEED));
  const horns = beliefs.polled(animal.id).pp;
  return {
    horns,
    low: shifted(low, later),
    high: shifted(high, later),
    forecast: forecast.pp,
    counted: counted(horns, "open"),
    unlearnt: shifted(hornsAfter(forecast, readings, kid, DEFAULT_HEAD_TABLES), later),
    learntFrom: heads.learnt.kids,
    weighed,
    readings: readings.filter(hasFinding).length,
    readers: [...new Set(readings.map((r) => r.reader))],
  };
}

const odds = (p: Probability): number => Math.max(-EDGE, Math.min(EDGE, logOdds(p)));
const shifted = (p: Probability, by: number): Probability => (by === 0 ? p : probability(fromLogOdds(odds(p) + by)));

function signFact(
  { reading, sign, weight }: { reading: string; sign: keyof HeadReading["signs"]; weight: number },
  readings: readonly HeadReading[],
): WeighedFact {
  const of = readings.find((r) => r.reading === reading);
  const found = of?.signs[sign];
  const finding = found === undefined || typeof found === "string" ? { both: found ?? "unsure" } : found;
  return {
    fact: { kind: "sign", sign, finding },
    logOdds: weight,
    entry: reading as EntryId,
    ageDays: of?.ageDays,
    by: of?.reader,
  };
}

/** What each further fact of the kid itself added to the readings, one after the other. */
function otherFacts(
  { beliefs }: Situation,
  animal: Animal,
  facts: readonly OwnFact[],
  afterReadings: number,
): readonly WeighedFact[] {
  const others = facts.filter((f) => f.about !== "readings");
  const weighed: WeighedFact[] = [];
  let before = afterReadings;
  for (const [i, own] of others.entries()) {
    const after = odds(
      beliefs.forecast(
        animal.id,
        others.slice(i + 1).map((f) => f.fact),
      ).pp,
    );
    const logOdds = after - before;
    if (own.said !== undefined || Math.abs(logOdds) >= SPEAKS)
      weighed.push({
        fact: own.said ?? { kind: "other" },
        logOdds,
        entry: own.entries[0],
        ageDays: undefined,
        by: undefined,
      });
    before = after;
  }
  return weighed;
}

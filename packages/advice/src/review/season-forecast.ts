import { type Day, seededRandom } from "@pollard/base";
import { type AnimalId, INTERSEX_LOOKS, type SiresTogether } from "@pollard/genetics";
import { herdDraw } from "@pollard/planning";
import type { Animal, Herd } from "@pollard/records";
import { type Beliefs, believe } from "../belief/beliefs.ts";
import { herdBefore } from "../heads/herd-before.ts";
import { herdBreedOf } from "../settings.ts";
import { hitChances } from "./count-chances.ts";

/** What was to be expected of a season's kids on the morning before its first birth. */
export interface SeasonForecast {
  readonly beliefs: Beliefs;
  /** Chance of each number of horned kids among these, and of kids seen to be intersex; doubt about parents included. */
  horned(kids: readonly Animal[]): readonly number[];
  intersex(kids: readonly Animal[]): readonly number[];
}

/** Draws of what the parents may be; given each the chances of the counts are exact, so few are enough. */
const DRAWS = 600;
const SEED = 20_240_229;

/**
 * The season as it could have been forecast: with everything found before its first day, the kids known by their parents only.
 *
 * The kids of one parent share its doubt, so counts spread more than as many coins would. Parents are drawn together as
 * likely as they were believed, a litter's sires among those possible; given the draw the count's chances are exact.
 *
 * Source:  posterior predictive check; rule PA-15.
 */
export function seasonForecast(herd: Herd, from: Day, kids: readonly Animal[]): SeasonForecast {
  const before = herdBefore(herd, from, new Set(kids.map((k) => k.id)));
  const beliefs = believe(before);
  const dams = [...new Set(kids.flatMap((k) => (k.dam === undefined ? [] : [k.dam])))].filter((id) =>
    before.animals.has(id),
  );
  const sires = [...new Set(kids.flatMap((k) => beliefs.sires(k.id).map(([sire]) => sire)))].filter(
    (id): id is AnimalId => id !== undefined && !dams.includes(id),
  );
  const { problem, answer } = beliefs;
  const draw = herdDraw({ problem, answer, does: dams, bucks: sires });
  const random = seededRandom(SEED);
  const litters = littersOf(kids).map((litter) => ({ litter, ways: beliefs.siresTogether(litter) }));
  const draws = Array.from({ length: DRAWS }, () => ({
    genotypes: draw(random),
    sires: new Map(litters.flatMap(({ litter, ways }) => siresDrawn(litter, ways, random.next()))),
  }));
  const placeOf = new Map([...dams, ...sires].map((id, i) => [id, i]));
  const breed = herdBreedOf(herd);
  const [, Pp = 0, pp = 0] = answer.kid(undefined, undefined, breed === undefined ? {} : { breed });
  const stranger = Pp / 2 + pp;

  /** Chance that a parent hands on `p`; a parent nobody knows does so as often as the breed has it. */
  const handsOn = (id: AnimalId | undefined, genotypes: Uint8Array): number => {
    const place = id === undefined ? undefined : placeOf.get(id);
    return place === undefined ? stranger : (genotypes[place] ?? 0) / 2;
  };
  const counts = (of: readonly Animal[], chance: (fromDam: number, fromSire: number) => number): readonly number[] => {
    const total = Array.from({ length: of.length + 1 }, () => 0);
    for (const { genotypes, sires: drawn } of draws) {
      const each = of.map((kid) => chance(handsOn(kid.dam, genotypes), handsOn(drawn.get(kid.id), genotypes)));
      hitChances(each).forEach((p, k) => {
        total[k] = (total[k] ?? 0) + p / draws.length;
      });
    }
    return total;
  };
  const { recognised, otherIntersex } = INTERSEX_LOOKS;
  return {
    beliefs,
    horned: (of) => counts(of, (dam, sire) => dam * sire),
    intersex: (of) =>
      counts(of, (dam, sire) => {
        const reversed = ((1 - dam) * (1 - sire)) / 2;
        return reversed * recognised.value + (1 - reversed) * otherIntersex.value;
      }),
  };
}

/** The kids by the kidding they were born in; one that was born elsewhere is by itself. */
function littersOf(kids: readonly Animal[]): readonly (readonly AnimalId[])[] {
  const litters = new Map<string, AnimalId[]>();
  for (const { id, kidding } of kids) {
    const key = kidding ?? id;
    litters.set(key, [...(litters.get(key) ?? []), id]);
  }
  return [...litters.values()];
}

/** The sires a lot falls on, kid by kid, by what was believed of all of a litter together. */
function siresDrawn(
  litter: readonly AnimalId[],
  ways: readonly SiresTogether[],
  lot: number,
): readonly (readonly [AnimalId, AnimalId | undefined])[] {
  let left = lot;
  const drawn = ways.find(({ chance }) => (left -= chance) < 0);
  return litter.map((id, k) => [id, drawn?.sires[k]]);
}

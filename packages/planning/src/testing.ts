import { probability } from "@pollard/base";
import { animalId, POLLED_GENOTYPES, type PolledBelief, type PolledGenotype } from "@pollard/genetics";
import { DEFAULT_HEAD_TABLES, type HeadReading, headLikelihood, windowOf } from "@pollard/husbandry";
import type { KidQuestion } from "./kid/kid-endings.ts";
import { DEFAULT_LOSSES } from "./kid/kid-losses.ts";
import type { BreedingPolicy, ForecastWorld } from "./forecast/breeding-policy.ts";
import type { ForecastHerd } from "./forecast/forecast.ts";
import type { PlanQuestion } from "./pairing/plan-question.ts";

/** A belief from three weights. */
export function aBelief(PP: number, Pp: number, pp: number): PolledBelief {
  const sum = PP + Pp + pp;
  return { PP: probability(PP / sum), Pp: probability(Pp / sum), pp: probability(pp / sum) };
}

/** A three days old kid of a carrier buck and a horned doe, unread, with a visit in four days, unless said otherwise. */
export const aKidQuestion = (part: Partial<KidQuestion> = {}): KidQuestion => {
  const kid = part.kid ?? { sex: "doe" };
  return {
    belief: aBelief(0, 1, 1),
    kid,
    readings: [],
    tables: DEFAULT_HEAD_TABLES,
    ageDays: 3,
    window: windowOf(kid.sex),
    visits: [4],
    noticeDays: 1,
    losses: DEFAULT_LOSSES.value,
    maxLooks: 2,
    ...part,
  };
};

/** The same kid after these readings: the belief before them is moved by what they say. */
export function afterReadings(question: KidQuestion, readings: readonly HeadReading[]): KidQuestion {
  const { belief, kid, tables } = question;
  const l = headLikelihood(readings, kid, tables);
  return { ...question, readings, belief: aBelief(belief.PP * l.PP, belief.Pp * l.Pp, belief.pp * l.pp) };
}

/** A question about as many does and bucks as its pairs have rows and columns, without wishes, ceilings or costs. */
export function aPlanQuestion(part: Partial<PlanQuestion> & Pick<PlanQuestion, "pairs">): PlanQuestion {
  const bucks = part.pairs[0]?.length ?? 0;
  return {
    does: part.pairs.map((_, i) => animalId(`d${i}`)),
    bucks: Array.from({ length: bucks }, (_, i) => ({
      id: animalId(`b${i}`),
      least: 0,
      most: part.pairs.length,
      cost: 0,
    })),
    polledTogether: "never",
    must: [],
    never: [],
    ...part,
  };
}

/** Keep polled parents apart, daughters as they come, five seasons a doe; unless said otherwise. */
export const aPolicy = (part: Partial<BreedingPolicy>): BreedingPolicy => ({
  name: "a policy",
  pairing: "apart",
  bucks: [],
  doesPerBuck: 200,
  does: 10,
  polledShare: undefined,
  doeYears: 5,
  ...part,
});

/** Twins, all of whom live; no doe is lost; a visit costs 40, a head 10; unless said otherwise. */
export const aWorld = (part: Partial<ForecastWorld> = {}): ForecastWorld => ({
  litter: [0, 0, 1],
  kidLives: 1,
  doeLost: 0,
  kiddingDays: 30,
  visitAges: { from: 3, to: 10 },
  visitCost: 40,
  headCost: 10,
  ...part,
});

/** So many does of each genotype and these bucks, all known, all unrelated, all with kids before. */
export function knownHerd(
  does: Partial<Record<PolledGenotype, number>>,
  bucks: readonly PolledGenotype[],
): ForecastHerd {
  const genotypes = [...POLLED_GENOTYPES.flatMap((g) => Array.from({ length: does[g] ?? 0 }, () => g)), ...bucks].map(
    (g) => POLLED_GENOTYPES.indexOf(g),
  );
  const animal = { seasons: 0, hadKids: "yes" as const };
  return {
    does: genotypes.slice(bucks.length).map(() => animal),
    bucks: bucks.map(() => animal),
    draw: () => Uint8Array.from(genotypes),
    kinship: [],
  };
}

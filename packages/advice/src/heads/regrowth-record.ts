import { addDays, daysFrom, seededRandom, type Sourced } from "@pollard/base";
import {
  type DisbuddedBud,
  learnRegrowth,
  type LearntRegrowth,
  REGROWTHS,
  type Regrowth,
  type Technique,
  TECHNIQUES,
} from "@pollard/husbandry";
import type { Animal } from "@pollard/records";
import { countedOf } from "../counted.ts";
import type { RegrowthGroup, RegrowthModel } from "./record-models.ts";
import type { Situation } from "../situation.ts";

/** Days after which what grew on a disbudded bud shows; the trial watched for three months. Judgement: two of them. */
const SHOWS_AFTER: Sourced<number> = { value: 56, source: "judgement", checked: "judgement" };
/** Chance of horns from which a side is taken for a bud where the vet's finding is not on record. */
const TAKEN_FOR_BUD: Sourced<number> = { value: 0.9, source: "judgement", checked: "judgement" };
/** Ages at disbudding, in days, that are told apart; the last has no end. */
const AGES = [
  { of: "0-3", to: 3 },
  { of: "4-7", to: 7 },
  { of: "8-14", to: 14 },
  { of: "15-", to: Number.POSITIVE_INFINITY },
] as const;
/** Seed of the draws behind ranges: the same herd shows the same range on every device. */
const RANGE_SEED = 29;

/** One bud that was disbudded, and what grew there. */
interface Bud {
  readonly kid: string;
  readonly technique: Technique | undefined;
  readonly operator: string | undefined;
  readonly age: string | undefined;
  readonly grew: Regrowth | undefined;
}

/**
 * What grew again on this herd's disbudded buds, by technique, and within each by hand and by age.
 *
 * The printed trial is where the figures start; the herd's own buds are added to it. Sides on which there was no bud are left
 * out: a hornless head that was burned needlessly would flatter.
 *
 * Source: [hempstead2018] through husbandry's `learnRegrowth` (HD-20); rule AD-25.
 */
export function regrowthRecord({ herd, beliefs }: Situation): RegrowthModel {
  const all = [...herd.animals.values()].flatMap((animal) =>
    budsOf(animal, beliefs.polled(animal.id).pp >= TAKEN_FOR_BUD.value ? "bud" : "unsure"),
  );
  const seen = all.flatMap((bud) => (bud.grew === undefined ? [] : [{ ...bud, grew: bud.grew }]));
  const told = seen.flatMap((bud) => (bud.technique === undefined ? [] : [{ ...bud, technique: bud.technique }]));
  return {
    buds: seen.length,
    notSeen: all.length - seen.length,
    techniqueNotSaid: seen.length - told.length,
    techniques: TECHNIQUES.flatMap((technique) => {
      const its = told.filter((bud) => bud.technique === technique);
      if (its.length === 0) return [];
      const learnt = learnRegrowth(its, technique, seededRandom(RANGE_SEED));
      const byAge = its.map((bud): DisbuddedBud => ({ ...bud, operator: bud.age }));
      const ages = learnRegrowth(byAge, technique, seededRandom(RANGE_SEED)).operators;
      return [
        {
          technique,
          all: grouped("all", its, learnt.all),
          operators: [...learnt.operators]
            .sort(([a], [b]) => (a < b ? -1 : 1))
            .map(([of, own]) =>
              grouped(
                of,
                its.filter((bud) => bud.operator === of),
                own,
              ),
            ),
          ages: AGES.flatMap(({ of }) => {
            const own = ages.get(of);
            return own === undefined
              ? []
              : [
                  grouped(
                    of,
                    its.filter((bud) => bud.age === of),
                    own,
                  ),
                ];
          }),
        },
      ];
    }),
  };
}

function grouped(of: string, buds: readonly { readonly grew: Regrowth }[], learnt: LearntRegrowth): RegrowthGroup {
  const grew = Object.fromEntries(
    REGROWTHS.map((growth) => [growth, buds.filter((bud) => bud.grew === growth).length]),
  ) as Record<Regrowth, number>;
  const nothing = REGROWTHS.indexOf("nothing");
  const range = learnt.intervals[nothing];
  return {
    of,
    buds: buds.length,
    grew,
    again: countedOf(1 - (learnt.chances[nothing] ?? 0), 20),
    low: countedOf(1 - (range?.high ?? 1), 20),
    high: countedOf(1 - (range?.low ?? 0), 20),
  };
}

/** The buds of one goat that were disbudded, a side each; `taken` is what a side is taken for where nobody wrote it down. */
function budsOf(animal: Animal, taken: "bud" | "unsure"): readonly Bud[] {
  return (["left", "right"] as const).flatMap((side): Bud[] => {
    const done = animal.disbuddings.find((d) => d.done === "both-sides" || d.done === side);
    if (done === undefined) return [];
    const found = done.found?.[side] ?? "unsure";
    if ((found === "unsure" ? taken : found) !== "bud") return [];
    const ageDays = animal.born === undefined ? undefined : daysFrom(animal.born, done.on);
    const shows = addDays(done.on, SHOWS_AFTER.value);
    const later = animal.outcomes.find((o) => o.on >= shows)?.[side];
    return [
      {
        kid: animal.id,
        technique: done.technique === "unsure" ? undefined : done.technique,
        operator: done.operator,
        age: ageDays === undefined ? undefined : AGES.find(({ to }) => ageDays <= to)?.of,
        grew: REGROWTHS.find((growth) => growth === later),
      },
    ];
  });
}

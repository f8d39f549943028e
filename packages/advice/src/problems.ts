import { daysFrom, type Probability, probability, type Sourced } from "@pollard/base";
import { lengthPlausibility } from "@pollard/husbandry";
import type { Animal } from "@pollard/records";
import { animalRef } from "./animal-ref.ts";
import { herdLoci, unreadFindings } from "./belief/loci.ts";
import type { AdviceProblem } from "./models.ts";
import type { OwnFact } from "./belief/own-facts.ts";
import { herdBreedOf } from "./settings.ts";
import type { Situation } from "./situation.ts";
import { carryingOf, servicesBefore } from "./belief/sires.ts";

/**
 * How badly a finding must fit the rest before the keeper is asked about it: it was expected less than one time in fifty
 * of its best case.
 */
const HARD_TO_BELIEVE: Sourced<number> = { value: 0.02, source: "judgement", checked: "judgement" };

/** Chance that no recorded buck is the sire, from which the keeper is asked: it began at about one in eighty. */
const WRONG_SIRE_DOUBT: Sourced<number> = { value: 0.25, source: "judgement", checked: "judgement" };

/**
 * Everything that contradicts itself: in the record, against how polledness is inherited, against the calendar.
 *
 * Shape:  the record's own problems first, then what cannot be, what is hard to believe, odd
 *         pregnancies, and what loci besides horns cannot be read.
 * Source: rules AD-18 to AD-20, AD-51.
 */
export function herdProblems(situation: Situation): readonly AdviceProblem[] {
  return [
    ...situation.recordProblems,
    ...contradictions(situation),
    ...doubts(situation),
    ...oddGestations(situation),
    ...lociProblems(situation),
  ];
}

/** Loci of the keeper's own that cannot be used, and findings that say nothing at their locus. */
const lociProblems = ({ herd }: Situation): readonly AdviceProblem[] => [
  ...herdLoci(herd).problems.map((bad) => ({ code: "bad-locus", entries: [], ...bad }) as const),
  ...unreadFindings(herd).map(
    ({ entry, animal, locus, problem }) =>
      ({ code: "unreadable-finding", entry, animal: animalRef(herd, animal.id), locus, problem }) as const,
  ),
];

/** Sets of facts that cannot all be true, each as small as can be. */
function contradictions({ herd, beliefs }: Situation): readonly AdviceProblem[] {
  return beliefs.answer.conflicts.map((conflict) => {
    const facts = conflict.animals.flatMap((id) => beliefs.facts(id)).filter((f) => conflict.facts.includes(f.fact));
    const kids = new Set(conflict.links.map((l) => l.kid));
    const ofKid = conflict.animals.flatMap((id) =>
      kids.has(id) ? beliefs.facts(id).filter((f) => conflict.facts.includes(f.fact)) : [],
    );
    return {
      code: "cannot-be",
      entries: [...new Set(facts.flatMap((f) => f.entries))],
      animals: conflict.animals.map((id) => animalRef(herd, id)),
      what: whatIsOdd(ofKid),
    };
  });
}

/**
 * Findings that the rest of the herd's record makes hard to believe, the oddest first.
 *
 * An animal whose recorded sire is likely not its sire is one of them. A parent that looks odd only because of such a kid
 * is not named beside it.
 */
function doubts(situation: Situation): readonly AdviceProblem[] {
  const found: {
    readonly animal: Animal;
    readonly worst: OwnFact;
    readonly wrong: Probability;
    readonly fit: number;
  }[] = [];
  for (const animal of situation.herd.animals.values()) {
    const [worst] = situation.beliefs
      .facts(animal.id)
      .filter((f) => f.entries.length > 0)
      .map((own) => ({ own, fit: fitOf(situation, animal, own) }))
      .sort((a, b) => a.fit - b.fit);
    const wrong = wrongSire(situation, animal);
    if (worst !== undefined && (worst.fit < HARD_TO_BELIEVE.value || wrong >= WRONG_SIRE_DOUBT.value))
      found.push({ animal, worst: worst.own, wrong, fit: worst.fit });
  }
  const explained = new Set(
    found
      .filter((f) => f.wrong >= WRONG_SIRE_DOUBT.value)
      .flatMap((f) => [f.animal.dam, ...situation.beliefs.sires(f.animal.id).map(([sire]) => sire)]),
  );
  return found
    .filter((f) => !explained.has(f.animal.id))
    .sort((a, b) => a.fit - b.fit)
    .map(({ animal, worst, wrong }) => ({
      code: "hard-to-believe",
      entries: worst.entries,
      animal: animalRef(situation.herd, animal.id),
      what: whatIsOdd([worst]),
      wrongSire: wrong,
    }));
}

/** How well a finding fits what is believed without it: its chance, against that of the genotype it fits best. */
function fitOf({ beliefs }: Situation, animal: Animal, own: OwnFact): number {
  const { bySex } = beliefs.answer.forecast(animal.id, [own.fact]);
  let expected = 0;
  let best = 0;
  for (const sex of ["XX", "XY"] as const)
    for (const [g, likelihood] of own.likelihood[sex].entries()) {
      expected += likelihood * (bySex[sex][g] ?? 0);
      best = Math.max(best, likelihood);
    }
  return best === 0 ? 1 : expected / best;
}

/** Chance that the sire is none of those on record; 0 where none is. */
function wrongSire({ beliefs }: Situation, animal: Animal): Probability {
  const unknown = beliefs.sires(animal.id).find(([sire]) => sire === undefined);
  return unknown?.[1] ?? probability(0);
}

function whatIsOdd(facts: readonly OwnFact[]): "horned-kid-of-polled" | "polled-kid-of-horned" | "other" {
  const leans = new Set(facts.map((f) => f.leans).filter((l) => l !== "neither"));
  if (leans.size !== 1) return "other";
  return leans.has("horned") ? "horned-kid-of-polled" : "polled-kid-of-horned";
}

/** Births that no service on record explains, although the doe was served: a wrong date, or a buck nobody saw. */
function oddGestations({ herd }: Situation): readonly AdviceProblem[] {
  const breed = herdBreedOf(herd);
  return herd.kiddings.flatMap((kidding) => {
    const services = servicesBefore(herd, kidding);
    const last = services.at(-1);
    if (last === undefined) return [];
    const carrying = carryingOf(herd, kidding.dam, breed, kidding.kids.length);
    const plausible = services.some((s) => {
      const [longest, shortest] = [daysFrom(s.on, kidding.on), daysFrom(s.until, kidding.on)];
      for (let days = shortest; days <= longest; days++)
        if (lengthPlausibility(days, carrying) !== "implausible") return true;
      return false;
    });
    if (plausible) return [];
    return [
      {
        code: "odd-gestation",
        entry: kidding.entry,
        animal: animalRef(herd, kidding.dam),
        days: daysFrom(last.on, kidding.on),
      },
    ];
  });
}

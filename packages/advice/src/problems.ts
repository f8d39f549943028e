import { daysFrom } from "@pollard/base";
import { lengthPlausibility } from "@pollard/husbandry";
import { sameKey, sameNewborns } from "@pollard/records";
import { animalRef } from "./animal-ref.ts";
import { herdLoci, unusableFrequencies } from "./belief/herd-loci.ts";
import { unreadFindings } from "./belief/findings.ts";
import { misfits } from "./belief/misfits.ts";
import type { AdviceProblem } from "./problem-models.ts";
import { herdBreedOf } from "./settings.ts";
import type { Situation } from "./situation.ts";
import { carryingOf, servicesBefore } from "./belief/sires.ts";

/**
 * Everything that contradicts itself: in the record, against how polledness is inherited, against the calendar.
 *
 * Shape:  the record's own problems first, newborns entered twice, then what cannot be, what is hard to believe, odd
 *         pregnancies, and what loci besides horns cannot be read.
 * Source: rules AD-18 to AD-20, AD-51, AD-54.
 */
export function herdProblems(situation: Situation): readonly AdviceProblem[] {
  return [
    ...situation.recordProblems,
    ...enteredTwice(situation),
    ...misfits(situation),
    ...oddGestations(situation),
    ...lociProblems(situation),
  ];
}

/** Newborns that both phones may have entered. */
const enteredTwice = ({ herd }: Situation): readonly AdviceProblem[] =>
  sameNewborns(herd).map(({ kids: [one, other], kiddings }) => ({
    code: "same-kid",
    entries: kiddings.map(({ entry }) => entry),
    animals: [animalRef(herd, one), animalRef(herd, other)],
    key: sameKey(one, other),
  }));

/** Loci and frequencies of the keeper's own that cannot be used, and findings that say nothing at their locus. */
const lociProblems = ({ herd }: Situation): readonly AdviceProblem[] => [
  ...herdLoci(herd).problems.map((bad) => ({ code: "bad-locus", entries: [], ...bad }) as const),
  ...unusableFrequencies(herd, herdLoci(herd).loci).map(
    ({ locus, breed }) => ({ code: "bad-frequencies", entries: [], locus: locus.name, breed }) as const,
  ),
  ...unreadFindings(herd).map(
    ({ entry, animal, locus, problem }) =>
      ({ code: "unreadable-finding", entry, animal: animalRef(herd, animal.id), locus, problem }) as const,
  ),
];

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

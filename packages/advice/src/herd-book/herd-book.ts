import { type Day, daysFrom, type Sourced } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import { type Animal, type Herd, kiddingsOf, servicesOf, type Sex } from "@pollard/records";
import { genotypeSaid } from "../animal-model.ts";
import { animalRef } from "../animal-ref.ts";
import { showsBothSexes } from "../belief/intersex-look.ts";
import { truthOf } from "../heads/truths.ts";
import type { AnimalModel, GenotypeSaid } from "../animal-models.ts";
import type { AnimalRef } from "../animal-ref.ts";
import { herdKinship } from "../pairing/herd-kinship.ts";
import type { Situation } from "../situation.ts";

/** Where an animal is: in the herd, gone from it, dead, or born dead. */
export type Whereabouts = "here" | "gone" | "dead" | "born-dead";

/** One animal as a herd book has it: who it is, who its parents are, what it carries, where it is. */
export interface HerdBookLine {
  readonly ref: AnimalRef;
  readonly sex: Sex;
  readonly born: Day | undefined;
  readonly where: Whereabouts;
  readonly dam: AnimalRef | undefined;
  /** Likeliest first, as on the animal's own page; `undefined` is a buck nobody wrote down. */
  readonly sires: AnimalModel["sires"];
  /** How many kids are its own. */
  readonly kids: number;
  /** `undefined` while its head is open and unread eyes come first. */
  readonly genotype: GenotypeSaid | undefined;
  /** What its head turned out to be, where that is known. */
  readonly head: "horned" | "polled" | undefined;
  readonly intersex: "seen" | "not-seen";
  /** Chance that both its alleles at a place come from one ancestor, as far as the record goes back. */
  readonly inbreeding: number;
  readonly weight: { readonly kg: number; readonly on: Day } | undefined;
  /** Kids she lost before their time, the earliest first. */
  readonly losses: readonly LostPregnancy[];
}

/** A pregnancy that ended before its time. */
export interface LostPregnancy {
  readonly on: Day;
  /** The only buck that a service names for it; `undefined` where none or several are named. */
  readonly sire: AnimalRef | undefined;
}

/** A service longer ago than this led to no pregnancy that is lost now, days: more than the longest pregnancies. */
const SERVED_WITHIN: Sourced<number> = { value: 165, source: "judgement", checked: "judgement" };

/**
 * Every animal of the record, those that left and those born dead among them, for tables and for the drawn pedigree.
 *
 * What a head that is still open is likely to be is left out, and so is what its litter was found to be: nobody's eyes are
 * led before they have looked.
 *
 * Shape:  the oldest first, those without a birth date before them; each once.
 * Cost:   the kinship of every animal's parents.
 * Source: rule AD-60.
 */
export function herdBook(situation: Situation): readonly HerdBookLine[] {
  const { herd } = situation;
  const { kin } = herdKinship(situation);
  const open = new Set(situation.openHeads().map(({ animal }) => animal.id));
  return [...herd.animals.values()].toSorted(byBirth).map((animal) => {
    const weight = animal.weights.at(-1);
    return {
      ref: animalRef(herd, animal.id),
      sex: animal.sex,
      born: animal.born,
      where: whereabouts(animal),
      dam: animal.dam === undefined ? undefined : animalRef(herd, animal.dam),
      sires: siresOf(situation, animal.id),
      kids: situation.kidsOf(animal.id).length,
      genotype: open.has(animal.id) ? undefined : genotypeSaid(situation, animal),
      head: open.has(animal.id) ? undefined : truthOf(animal)?.head,
      intersex: showsBothSexes(animal) ? "seen" : "not-seen",
      inbreeding: kin.inbreeding(animal.id),
      weight: weight === undefined ? undefined : { kg: weight.kg, on: weight.on },
      losses: lossesOf(herd, animal),
    };
  });
}

const siresOf = ({ herd, beliefs }: Situation, id: AnimalId): AnimalModel["sires"] =>
  beliefs.sires(id).map(([sire, chance]) => ({ sire: sire === undefined ? undefined : animalRef(herd, sire), chance }));

/**
 * Each of her lost pregnancies with its sire: services since she last kidded or lost kids, and recent enough to count.
 *
 * Source: rule AD-90.
 */
function lossesOf(herd: Herd, doe: Animal): readonly LostPregnancy[] {
  if (doe.abortions.length === 0) return [];
  const ends = [...kiddingsOf(herd, doe.id).map(({ on }) => on), ...doe.abortions.map(({ on }) => on)];
  return doe.abortions
    .map(({ on }) => on)
    .toSorted()
    .map((on) => {
      const after = ends
        .filter((end) => end < on)
        .toSorted()
        .at(-1);
      const bucks = new Set(
        servicesOf(herd, doe.id)
          .filter(({ on: first }) => first <= on)
          .filter(({ until }) => (after === undefined || until > after) && daysFrom(until, on) <= SERVED_WITHIN.value)
          .flatMap((service) => service.bucks),
      );
      const [sire] = bucks;
      return { on, sire: sire === undefined || bucks.size > 1 ? undefined : animalRef(herd, sire) };
    });
}

function whereabouts({ bornAs, departure }: Animal): Whereabouts {
  if (bornAs === "dead") return "born-dead";
  if (departure === undefined) return "here";
  return departure.why === "died" || departure.why === "slaughtered" ? "dead" : "gone";
}

function byBirth(a: Animal, b: Animal): number {
  const [born, other] = [a.born ?? "", b.born ?? ""];
  if (born !== other) return born < other ? -1 : 1;
  return a.id < b.id ? -1 : 1;
}

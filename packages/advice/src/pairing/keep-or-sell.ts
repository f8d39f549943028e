import { type Day, daysFrom, type Sourced } from "@pollard/base";
import type { GrowthState, Ranged } from "@pollard/husbandry";
import { type Animal, hasKidded, kiddingOf } from "@pollard/records";
import { genotypeSaid } from "../animal-model.ts";
import { animalRef } from "../animal-ref.ts";
import { mayBeIntersex } from "../heads/kid-model.ts";
import type { AnimalRef } from "../animal-ref.ts";
import type { GenotypeSaid } from "../animal-models.ts";
import { growthOf } from "../season/growth.ts";
import type { Situation } from "../situation.ts";
import { herdKinship } from "./herd-kinship.ts";

/** What can be done with a kid that is not kept for another reason. */
export const KID_USES = ["keep-to-breed", "sell-to-breed", "wether", "keep-or-sell-as-pet"] as const;
export type KidUse = (typeof KID_USES)[number];

/** Why a use is not open to a kid. */
export type UseClosed = "intersex-not-ruled-out" | "a-wether" | "not-a-buckling" | "head-not-known" | "inbred";

/** One kid beside the others, on what is known. There is no score: what counts is the keeper's to say. */
export interface KeptKid {
  readonly kid: AnimalRef;
  readonly born: Day;
  readonly ageDays: number;
  /** Absent until the head is read, while it still matters: eyes first, forecast after. */
  readonly genotype: GenotypeSaid | undefined;
  readonly inbreeding: number;
  readonly litter: number;
  readonly dam: AnimalRef | undefined;
  /** Kids the dam has had so far. */
  readonly damKids: number;
  readonly weight: { readonly kg: number; readonly on: Day; readonly how: "weighed" | "guessed" } | undefined;
  /** Gain to four months, and how that stands beside kids like it; nothing where it was never weighed. */
  readonly growth: { readonly gainKgADay: Ranged; readonly state: GrowthState } | undefined;
  readonly open: readonly KidUse[];
  readonly closed: readonly { readonly use: KidUse; readonly why: UseClosed }[];
}

/** How old a goat may be, in days, to stand in the comparison if it has no kids of its own yet: a year and a half. */
const KID_UNTIL: Sourced<number> = { value: 550, source: "judgement", checked: "judgement" };
/** Inbreeding from which a kid is not proposed for breeding: more than cousins' kids, less than half sibs'. */
const INBRED: Sourced<number> = { value: 0.1, source: "judgement", checked: "judgement" };

/**
 * The young goats side by side, with what is open to each: breeding here, breeding elsewhere, as a wether, as company.
 *
 * A polled kid of two polled parents that looks like a doe, or whose sex nobody could tell, is never open to breeding or to
 * sale as breeding stock before intersex is ruled out: about half of the sex-reversed are not seen to be.
 *
 * Shape:  goats up to a year and a half that are here, alive and without kids, the oldest first.
 * Source: rule PA-18; [hancock-louca1975].
 */
export function keepOrSell(situation: Situation): readonly KeptKid[] {
  const { herd, today } = situation;
  const { kin } = herdKinship(situation);
  return [...herd.animals.values()]
    .flatMap((animal): KeptKid[] => {
      const { born } = animal;
      if (born === undefined || animal.departure !== undefined || animal.bornAs === "dead") return [];
      const ageDays = daysFrom(born, today);
      const isParent = situation.kidsOf(animal.id).length > 0 || hasKidded(herd, animal);
      if (ageDays < 0 || ageDays > KID_UNTIL.value || isParent) return [];
      const genotype = isUnread(situation, animal) ? undefined : genotypeSaid(situation, animal);
      const inbreeding = kin.inbreeding(animal.id);
      const closed = closedUses(situation, animal, genotype, inbreeding);
      const kidding = kiddingOf(herd, animal);
      const last = animal.weights.at(-1);
      const grown = growthOf(herd, animal);
      return [
        {
          kid: animalRef(herd, animal.id),
          born,
          ageDays,
          genotype,
          inbreeding,
          litter: kidding?.kids.length ?? 1,
          dam: animal.dam === undefined ? undefined : animalRef(herd, animal.dam),
          damKids: animal.dam === undefined ? 0 : situation.kidsOf(animal.dam).length,
          weight: last === undefined ? undefined : { kg: last.kg, on: last.on, how: last.how },
          growth:
            grown === undefined || grown.weights.length === 0
              ? undefined
              : { gainKgADay: grown.growth.gainKgADay, state: grown.growth.state },
          open: KID_USES.filter((use) => !closed.some((c) => c.use === use)),
          closed,
        },
      ];
    })
    .sort((a, b) => (a.born < b.born ? -1 : a.born > b.born ? 1 : a.kid.id < b.kid.id ? -1 : 1));
}

function closedUses(
  situation: Situation,
  animal: Animal,
  genotype: GenotypeSaid | undefined,
  inbreeding: number,
): KeptKid["closed"] {
  const closed: { use: KidUse; why: UseClosed }[] = [];
  const breeding = ["keep-to-breed", "sell-to-breed"] as const;
  if (animal.sex === "wether") for (const use of breeding) closed.push({ use, why: "a-wether" });
  else if (mayBeIntersex(situation, animal) || animal.sex === "unsure")
    for (const use of breeding) closed.push({ use, why: "intersex-not-ruled-out" });
  else if (inbreeding >= INBRED.value) for (const use of breeding) closed.push({ use, why: "inbred" });
  else if (
    genotype === undefined ||
    (genotype.surety === "open" && genotype.belief.pp > NOT_KNOWN && genotype.belief.pp < 1 - NOT_KNOWN)
  )
    closed.push({ use: "sell-to-breed", why: "head-not-known" });
  if (animal.sex !== "buck") closed.push({ use: "wether", why: "not-a-buckling" });
  return closed;
}

/** Chances of horns between which a kid's head is not known well enough to sell it by. */
const NOT_KNOWN = 0.1;

/** Whether a head still waits for its first reading, so that nothing may be said of it. */
export function isUnread(situation: Situation, { id }: Animal): boolean {
  const kind = situation.advice(id)?.kind;
  return kind === "read-head" || kind === "finish-reading";
}

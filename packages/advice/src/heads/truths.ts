import { type Day, daysFrom } from "@pollard/base";
import { POLLED } from "@pollard/genetics";
import { isTruth } from "@pollard/husbandry";
import type { Animal } from "@pollard/records";
import { disbuddedBy } from "./kid-facts.ts";

/** Where it is known from what a goat's head is, the surest first. */
export const TRUTHS = ["dna-test", "growth", "grown-head", "vet-finding"] as const;

/** What a goat's own head or a laboratory has shown of it: known from elsewhere than from reading its newborn head. */
export interface Truth {
  readonly head: "horned" | "polled";
  readonly from: (typeof TRUTHS)[number];
  readonly on: Day;
}

/**
 * What is known for itself of a goat's head; `undefined` while nothing is.
 *
 * A laboratory's result, then what grew where it counts as truth, then the head of a goat that came grown, then what the vet
 * found under the hair, if no side says otherwise. A smooth head after disbudding is no truth, nor is any reading.
 *
 * Source: rule AD-22; what counts as grown is husbandry's `isTruth` (HD-19).
 */
export function truthOf(animal: Animal): Truth | undefined {
  const test = animal.tests.findLast((t) => t.locus === POLLED.id);
  if (test !== undefined)
    return { head: test.alleles.includes("P") ? "polled" : "horned", from: "dna-test", on: test.on };
  const { born } = animal;
  const grew =
    born === undefined
      ? undefined
      : animal.outcomes.findLast(({ left, right, on }) =>
          isTruth({ left, right, ageDays: daysFrom(born, on), disbudded: disbuddedBy(animal, on) }),
        );
  if (grew !== undefined) {
    const horned = grew.left === "horn" || grew.right === "horn";
    return { head: horned ? "horned" : "polled", from: "growth", on: grew.on };
  }
  const came = animal.head;
  if (came !== undefined && (came.head === "horned" || came.head === "polled"))
    return { head: came.head, from: "grown-head", on: came.on };
  return vetTruth(animal);
}

/** The vet's latest finding that says the same of every side it speaks of. */
function vetTruth(animal: Animal): Truth | undefined {
  for (const { found, on } of animal.disbuddings.toReversed()) {
    const sides = [found?.left, found?.right].filter((side) => side === "bud" || side === "no-bud");
    const [first] = sides;
    if (first !== undefined && sides.every((side) => side === first))
      return { head: first === "bud" ? "horned" : "polled", from: "vet-finding", on };
  }
  return undefined;
}

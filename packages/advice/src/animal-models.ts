import type { Day, Probability } from "@pollard/base";
import type { PolledBelief } from "@pollard/genetics";
import type { Animal } from "@pollard/records";
import type { AnimalRef } from "./animal-ref.ts";
import type { Counted } from "./counted.ts";
import type { KidModel } from "./heads/kid-models.ts";
import type { Urgency } from "./today/today-models.ts";

/** What is known of one animal's genotype, in the words that evidence allows. */
export interface GenotypeSaid {
  readonly belief: PolledBelief;
  /** `proven` by test or logic, `near-sure` from 99 in 100, `likely` from 9 in 10, else `open`. */
  readonly surety: "proven" | "near-sure" | "likely" | "open";
  readonly polled: Counted;
  readonly carrier: Counted;
  /** Kids whose horns are known, and of these the horned, by this animal: what the belief leans on. */
  readonly kidsKnown: number;
  readonly kidsHorned: number;
  readonly tests: number;
}

/** All that is shown of one animal: its record, its kin, what is believed of it and why. */
export interface AnimalModel {
  readonly ref: AnimalRef;
  readonly animal: Animal;
  readonly dam: AnimalRef | undefined;
  readonly sires: readonly { readonly sire: AnimalRef | undefined; readonly chance: Probability }[];
  readonly kids: readonly AnimalRef[];
  readonly genotype: GenotypeSaid;
  readonly kid: KidModel | undefined;
  /** Whether intersex is to be ruled out before it is bred from, whatever is known of its age. */
  readonly intersexWatch: boolean;
}

/** A line of the list of animals. */
export interface AnimalLine {
  readonly ref: AnimalRef;
  /** The number of its electronic chip. */
  readonly chip: string | undefined;
  readonly born: Day | undefined;
  readonly gone: boolean;
  readonly urgency: Urgency | undefined;
  readonly surety: GenotypeSaid["surety"];
  /** What its head is: as seen, or as believed. */
  readonly head: "horned" | "polled" | "disbudded" | "unknown";
}

import { day } from "@pollard/base";
import { type AnimalId, animalId } from "@pollard/genetics";
import type { HeadSigns } from "@pollard/husbandry";
import { type BodyOf, type Entry, fold, type Sex } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import { type Situation, situationOf } from "./situation.ts";

/** The situation that a handful of entries make on a day. */
export const situation = (entries: readonly Entry[], today: string): Situation =>
  situationOf(fold(entries, day(today)), day(today));

/** A goat that came to the herd grown, three years old on 1 March 2026 unless said otherwise. */
export function goat(id: string, sex: Sex, over: Partial<Omit<BodyOf<"animal">, "animal" | "sex">> = {}): Entry {
  const body = { animal: animalId(id), sex, name: id, born: day("2023-03-01"), ...over };
  return anEntry("animal", body, { on: "2025-09-01" });
}

/** A polled buck of unknown parents and a horned doe: what a kid of theirs is, its own head and his genes must tell. */
export const ROOK_AND_ASH: readonly Entry[] = [
  goat("Rook", "buck", { head: "polled" }),
  goat("Ash", "doe", { head: "horned" }),
];

/** A kidding of `dam`; each kid is an id with its sex. */
export function kidding(
  dam: string,
  on: string,
  kids: Readonly<Record<string, Sex>>,
  bucks: readonly string[] = [],
): Entry {
  return anEntry(
    "kidding",
    {
      dam: animalId(dam),
      ...(bucks.length > 0 ? { bucks: bucks.map(animalId) } : {}),
      kids: Object.entries(kids).map(([kid, sex]) => ({ kid: animalId(kid), sex, born: "alive" as const, name: kid })),
    },
    { on },
  );
}

/** A doe with bucks: on one day, or in a pen until another. */
export const service = (doe: string, bucks: readonly string[], on: string, until?: string): Entry =>
  anEntry(
    "service",
    {
      doe: animalId(doe),
      bucks: bucks.map(animalId),
      way: until === undefined ? "hand" : "pen",
      ...(until === undefined ? {} : { until: day(until) }),
    },
    { on },
  );

/** A head on which every sign speaks for horns, and one on which every sign speaks for polled. */
export const HORNED_SIGNS: HeadSigns = {
  feel: { both: "pointed" },
  skin: { both: "held-fast" },
  whorls: { both: "clear" },
  crown: "flat",
};
export const POLLED_SIGNS: HeadSigns = {
  feel: { both: "rounded" },
  skin: { both: "slides" },
  whorls: { both: "none" },
  crown: "rounded-cap",
};

export const reading = (kid: string, on: string, signs: HeadSigns, by = "Ines"): Entry =>
  anEntry("head-reading", { kid: animalId(kid), signs }, { on, by });

export const dnaTest = (animal: string, alleles: readonly [string, string]): Entry =>
  anEntry("dna-test", { animal: animalId(animal), locus: "polled", alleles: [...alleles] }, { on: "2025-10-01" });

export const outcome = (animal: string, on: string, grew: BodyOf<"outcome">["left"]): Entry =>
  anEntry("outcome", { animal: animalId(animal), left: grew, right: grew }, { on });

export const choice = (kid: string, on: string, chosen: BodyOf<"choice">["choice"], until?: string): Entry =>
  anEntry(
    "choice",
    { kid: animalId(kid), choice: chosen, ...(until === undefined ? {} : { day: day(until) }) },
    { on },
  );

export const id = (text: string): AnimalId => animalId(text);

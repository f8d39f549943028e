import { type AnimalId, genotypesOf, type Locus, POLLED } from "@pollard/genetics";
import { animalRef } from "../animal-ref.ts";
import type { AnimalRef } from "../animal-ref.ts";
import type { Situation } from "../situation.ts";
import { herdLoci } from "./herd-loci.ts";
import { type NamedFact } from "./locus-answer.ts";
import { restsOn } from "./rests-on.ts";

/** What an animal most likely carries at a locus. */
export interface CarriedLine {
  readonly locus: Pick<Locus, "id" | "name">;
  /** As `genotypesOf` writes it. */
  readonly genotype: string;
  readonly chance: number;
}

/** What the likeliest genotype of an animal rests on, in a few lines. */
export interface WhyModel extends CarriedLine {
  /** How likely the same genotype would be without one fact; the fact that moves it most first. */
  readonly without: readonly { readonly fact: NamedFact; readonly of: AnimalRef; readonly chance: number }[];
  /** How likely it would be were the rarer alleles so many times as common among strangers: the one of both that moves it more. */
  readonly founders: { readonly times: number; readonly chance: number } | undefined;
}

/** Most facts that are told: with the belief itself and the founders that makes five lines. */
const MOST_FACTS = 3;
/** Chance by which other founders have to move it to be worth a line. */
const WORTH_A_LINE = 0.005;

/** What an animal most likely carries at every locus that the herd follows besides horns. */
export function carriedBeside({ beliefs }: Situation, id: AnimalId): readonly CarriedLine[] {
  return [...beliefs.loci.values()]
    .filter(({ problem }) => problem.locus.id !== POLLED.id)
    .map(({ problem, answer }) => likeliest(problem.locus, answer.belief(id).genotypes));
}

function likeliest(locus: Locus, chances: readonly number[]): CarriedLine {
  const chance = Math.max(...chances);
  const genotype = genotypesOf(locus)[chances.indexOf(chance)] ?? "";
  return { locus: { id: locus.id, name: locus.name }, genotype, chance };
}

/**
 * Why an animal is believed to carry what it does: the few facts that count most, and how far founders count.
 *
 * What was read on a head that is still open is left out, since nobody's eyes are to be led before they have looked.
 *
 * Shape:  `undefined` for an animal or a locus that the herd does not know.
 * Source: rules AD-52, AD-56.
 */
export function whyBelieved(situation: Situation, id: AnimalId, locusId: string): WhyModel | undefined {
  const { herd } = situation;
  const locus = herdLoci(herd).loci.find((l) => l.id === locusId);
  if (locus === undefined || !herd.animals.has(id)) return undefined;
  const { now, without, founders } = restsOn(situation, locus, id);
  const line = likeliest(locus, now);
  const at = now.indexOf(line.chance);
  const open = new Set(situation.openHeads().map(({ animal }) => animal.id));
  const told = without
    .filter(({ fact }) => fact.of === id || fact.about !== "readings" || !open.has(fact.of))
    .slice(0, MOST_FACTS)
    .map(({ fact, chances }) => ({ fact, of: animalRef(herd, fact.of), chance: chances[at] ?? 0 }));
  const [most] = founders
    .map(({ times, chances }) => ({ times, chance: chances[at] ?? 0 }))
    .sort((a, b) => Math.abs(b.chance - line.chance) - Math.abs(a.chance - line.chance));
  const counts = most !== undefined && Math.abs(most.chance - line.chance) >= WORTH_A_LINE;
  return { ...line, without: told, founders: counts ? most : undefined };
}

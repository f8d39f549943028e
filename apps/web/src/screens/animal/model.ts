import { type Day, daysFrom } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import {
  type AnimalModel,
  type AnimalRef,
  type CarriedLine,
  countedOf,
  type Counted,
  INTERSEX_TRAIT,
  lastIntersexLook,
  type WhyModel,
} from "@pollard/advice";
import {
  type Animal,
  canHaveKidded,
  type Fact,
  type FactKind,
  type HistoryLine,
  kiddedFact,
  saidToHaveKidded,
  saysKidded,
  type Sex,
  YOUNGEST_DAM_DAYS,
} from "@pollard/records";
import type { Catalogue, Screens, Words } from "@pollard/words";
import type { LineOfAnimal } from "../../worker/entered.ts";

/** How old a goat is, in the unit a keeper would use: days for three weeks, weeks for three months, then months, years. */
export function ageSaid(s: Screens, born: Day, today: Day): string {
  const days = daysFrom(born, today);
  if (days < 0) return "";
  if (days <= 21) return s.animal.ageDays(days);
  if (days <= 91) return s.animal.ageWeeks(Math.floor(days / 7));
  if (days < 730) return s.animal.ageMonths(Math.floor(days / 30.44));
  return s.animal.ageYears(Math.floor(days / 365.25));
}

/** What can be withdrawn from a goat's page, and what can be brought back. */
export function undoOf(line: HistoryLine): "strike" | "bring-back" | "none" {
  if (line.state === "stands") return "strike";
  return line.state === "struck" && line.undoneBy !== undefined ? "bring-back" : "none";
}

/** Youngest ages, in days, at which each makes sense: a doe kid can conceive at three months; horns show at three weeks. */
const YOUNGEST = { mating: 80, kidding: YOUNGEST_DAM_DAYS, growth: 21 } as const;
export type Entering = keyof typeof YOUNGEST;

/** What can be entered about a goat of this sex and age; an age that is not known is no hindrance. */
export function canEnter(sex: Sex, gone: "gone" | "here", ageDays: number | undefined): readonly Entering[] {
  if (gone === "gone") return [];
  const fits: readonly Entering[] =
    sex === "doe" ? ["kidding", "mating", "growth"] : sex === "buck" ? ["mating", "growth"] : ["growth"];
  return fits.filter((what) => ageDays === undefined || ageDays >= YOUNGEST[what]);
}

/**
 * Where the key for what grew stands: behind the others once a goat's grown head is known as horned or polled, since nothing
 * is to be seen there any more; knobs that come late can still be entered.
 */
export const growthKeyStands = ({ head }: Pick<Animal, "head">): "with-what-is-due" | "last" =>
  head?.head === "horned" || head?.head === "polled" ? "last" : "with-what-is-due";

/** How likely a sire must be to be named alone. */
const SIRE_CLEAR = 0.95;

/** The sires to name: the one that is clear, or all that it could be, each with its chance counted on one denominator. */
export function siresShown(
  sires: AnimalModel["sires"],
): readonly { readonly sire: AnimalRef | undefined; readonly counted: Counted | undefined }[] {
  const [first] = sires;
  if (first === undefined) return [];
  if (first.chance >= SIRE_CLEAR) return [{ sire: first.sire, counted: undefined }];
  return sires
    .filter(({ chance }) => chance >= 1 - SIRE_CLEAR)
    .map(({ sire, chance }) => ({ sire, counted: countedOf(chance, 20) }));
}

/** Beside a mating in a goat's history: with whom. */
export function matedSaid(s: Screens, words: Words, history: readonly LineOfAnimal[], { entry }: HistoryLine): string {
  const mates = history.find(({ line }) => line.entry === entry)?.mates ?? [];
  return mates.length === 0 ? "" : s.plan.with(mates.map((mate) => words.label(mate)).join(s.plan.orJoin));
}

/** When it was, by day and time where that is known; of what went on for several days from when to when. */
export function whenSaid(
  s: Screens,
  words: Words,
  { on, time }: Pick<HistoryLine, "on" | "time">,
  { until, today }: { readonly until: Day | undefined; readonly today: Day },
): string {
  const from = [words.day(on, today), ...(time === undefined ? [] : [time])].join(" ");
  return until === undefined ? from : s.plan.span(from, words.day(until, today));
}

/** What grew on a head, in a phrase: one word where both sides are alike. */
export function grewSaid(s: Screens, { left, right }: Animal["outcomes"][number]): string {
  const { growths } = s.outcome;
  return left === right ? growths[left] : s.animal.grewSides(growths[left], growths[right]);
}

/**
 * Beside a line of a goat's history that stands: what was chosen and for when, what the vet did, what grew, what was felt.
 * All of it is told only where the answer of the head may be seen (rules UI-7 and UI-81).
 */
export function contentSaid(
  s: Screens,
  words: Words,
  {
    line,
    ...of
  }: {
    readonly line: HistoryLine;
    readonly animal: Animal;
    readonly readings: "may-be-seen" | "hidden";
    readonly today: Day;
  },
): string {
  // What was chosen or done tells what was found, so all of it waits for whoever still reads for themselves.
  if (line.state !== "stands" || of.readings === "hidden") return "";
  const its = <T extends { readonly entry: HistoryLine["entry"] }>(facts: readonly T[]): T | undefined =>
    facts.find(({ entry }) => entry === line.entry);
  const { animal, today } = of;
  const choice = its(animal.choices);
  if (choice !== undefined) {
    const what = s.answer.actions[choice.choice];
    return choice.day === undefined ? what : s.animal.chosenFor(what, words.day(choice.day, today));
  }
  const visit = its(animal.disbuddings);
  if (visit !== undefined) return s.vetDone.doneAnswers[visit.done];
  const outcome = its(animal.outcomes);
  if (outcome !== undefined) return grewSaid(s, outcome);
  const trait = its(animal.traits);
  if (trait !== undefined) return traitSaid(s, trait);
  const felt = its(animal.readings)?.signs.feel;
  return felt === undefined ? "" : words.finding("feel", felt);
}

/**
 * Whether a goat was added today and nothing more is known of it than is asked there: then the next one may be at hand. That a
 * doe has kidded is asked with the rest, and is a line of its own.
 */
export const isJustAdded = (history: readonly LineOfAnimal[], today: Day): boolean =>
  history.some(({ line }) => line.kind === "animal") &&
  history.every(({ line }) => (line.kind === "animal" || line.kind === "trait") && line.on === today);

/** Why intersex is to be ruled out: signs were seen, or its genes may make it so. */
export const watchOf = ({ sex }: AnimalRef): "seen" | "may" => (sex === "intersex" ? "seen" : "may");

/** What a keeper can say of a doe that clears her: she kidded before she came, or a vet looked. */
export type Clears = "kidded" | "vet";

/** What can still be said that would clear a doe who is here; nothing of any other goat. */
export function clearsHer({ animal, intersexWatch }: AnimalModel, today: Day): readonly Clears[] {
  if (!intersexWatch || animal.sex !== "doe" || animal.departure !== undefined) return [];
  const kidded = canHaveKidded(animal.born, today) && saidToHaveKidded(animal).length === 0;
  const vet = lastIntersexLook(animal)?.value !== INTERSEX_TRAIT.ruledOut;
  return [...(kidded ? (["kidded"] as const) : []), ...(vet ? (["vet"] as const) : [])];
}

/** The fact that says so. */
export function clearingFact(what: Clears, animal: AnimalId, today: Day): Fact {
  if (what === "kidded") return kiddedFact(animal, today);
  return { kind: "trait", on: today, body: { animal, trait: INTERSEX_TRAIT.trait, value: INTERSEX_TRAIT.ruledOut } };
}

/** A trait that bears on breeding, in a phrase; what genes make of a goat stands with the genes. */
function traitSaid(s: Screens, said: Animal["traits"][number]): string {
  const { traitsSaid } = s.animal;
  const { trait, value } = said;
  if (saysKidded(said)) return traitsSaid.kidded;
  if (trait !== INTERSEX_TRAIT.trait) return "";
  return value === INTERSEX_TRAIT.ruledOut ? traitsSaid.vet : value === INTERSEX_TRAIT.seen ? traitsSaid.seen : "";
}

/** What a line of the history is called. */
export const kindSaid = (s: Screens, kind: FactKind): string => s.animal.kinds[kind];

/** The one denominator of a goat's page: what stands beside its horns is counted out as they are. */
const EVERYDAY = 20;

/** A goat's likeliest genotype at a locus, with its chance. */
export const carriedSaid = (s: Screens, words: Words, { genotype, chance }: CarriedLine): string =>
  s.loci.carried(genotype, words.counted(countedOf(chance, EVERYDAY)));

/** Why it is believed, in five lines at most: the belief, what it would be without each fact, and with other founders. */
export function whySaid(
  s: Screens,
  { words, loci }: { readonly words: Words; readonly loci: Catalogue["loci"] },
  why: WhyModel,
): readonly string[] {
  const counted = (chance: number): string => words.counted(countedOf(chance, EVERYDAY));
  const { founders } = why;
  return [
    carriedSaid(s, words, why),
    ...why.without.map(({ fact, of, chance }) =>
      s.loci.without(
        loci.namedFact(fact, () => words.label(of)),
        counted(chance),
      ),
    ),
    ...(why.without.length === 0 ? [s.loci.noFact] : []),
    ...(founders === undefined
      ? []
      : [s.loci.strangers(founders.times < 1 ? "half" : "twice", counted(founders.chance))]),
  ];
}

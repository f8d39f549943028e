import type { AdviceProblem, AnimalRef, MisfitReasons } from "@pollard/advice";
import type { AnimalId } from "@pollard/genetics";
import type { EntryId, Fact, HistoryLine } from "@pollard/records";
import type { Catalogue, Screens } from "@pollard/words";
import { weights } from "../../house/wording.ts";

/** The entries a problem speaks of. */
export function entriesOf(problem: AdviceProblem): readonly EntryId[] {
  if ("entries" in problem) return problem.entries;
  return [problem.entry];
}

/** The goats a problem speaks of, each once; where it names none, those of its entries. */
export function animalsOf(problem: AdviceProblem, lines: readonly HistoryLine[]): readonly AnimalId[] {
  const named: AnimalId[] = [];
  if ("animals" in problem)
    for (const animal of problem.animals) named.push(typeof animal === "string" ? animal : animal.id);
  if ("animal" in problem) named.push(typeof problem.animal === "string" ? problem.animal : problem.animal.id);
  return [...new Set(named.length > 0 ? named : lines.flatMap((line) => line.animals))];
}

/** What a fact says, short enough to tell two apart: the weight, the name and tag, what grew; else its kind. */
export function factSaid(s: Screens, fact: Fact): string {
  const kind = s.animal.kinds[fact.kind];
  switch (fact.kind) {
    case "weight":
      return `${kind}: ${weights.said(fact.body.kg)}, ${s.fact.hows[fact.body.how].toLowerCase()}`;
    case "animal":
      return `${kind}: ${[fact.body.name, fact.body.tag, s.animals.sex[fact.body.sex]].filter(Boolean).join(", ")}`;
    case "outcome":
      return `${kind}: ${s.outcome.growths[fact.body.left]} / ${s.outcome.growths[fact.body.right]}`;
    case "kidding":
      return `${kind}: ${fact.body.kids.map(({ name, tag, sex }) => name ?? tag ?? s.animals.sex[sex]).join(", ")}`;
    case "note":
      return `${kind}: ${fact.body.text}`;
    case "departure":
      return `${kind}: ${s.fact.whys[fact.body.why]}`;
    case "dna-test":
      return `${kind}: ${fact.body.alleles.join("")}`;
    default:
      return `${kind}, ${fact.on.slice(0, 10)}`;
  }
}

/** An animal that the record does not know, by its id. */
export const nameless = (id: AnimalId): AnimalRef => ({
  id,
  name: undefined,
  tag: id,
  mark: undefined,
  sex: "unsure",
  damName: undefined,
});

/** How many reasons are shown: more than these are too unlikely to go and look. */
const MOST_REASONS = 4;
/** Chance below which a reason is not worth a line. */
const SMALLEST_CHANCE = 0.01;

/** What may lie behind a problem, a line each, the likeliest first. */
export function reasonsSaid(
  said: Catalogue["loci"],
  reasons: MisfitReasons | undefined,
  nameOf: (id: AnimalId) => string,
): readonly string[] {
  if (reasons === undefined) return [];
  const factOf = (fact: string): string => {
    const named = reasons.facts.find((f) => f.fact === fact);
    return named === undefined ? fact : said.namedFact(named, nameOf);
  };
  return reasons.explanations
    .filter(({ chance }) => chance >= SMALLEST_CHANCE)
    .slice(0, MOST_REASONS)
    .map((explanation) => said.misfitReason(explanation, nameOf, factOf));
}

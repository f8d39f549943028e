import { type Day, unreachable } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import type { Animal, HerdProblem, Provenance } from "../herd.ts";
import { byDay, type SettledFact } from "./settled-fact.ts";
import type { ParentLink, Sketch } from "./sketch.ts";

type Lists = Pick<
  Animal,
  | "readings"
  | "outcomes"
  | "disbuddings"
  | "tests"
  | "traits"
  | "weights"
  | "moves"
  | "choices"
  | "notes"
  | "photos"
  | "heats"
  | "pregnancyChecks"
  | "abortions"
  | "care"
>;
type Growing = { -readonly [K in keyof Lists]: Lists[K][number][] };

/**
 * One goat with everything that its entries tell, in order of day.
 *
 * Assumes: `facts` are those that name it and can have been so; `parents` are the links that stand.
 */
export function animalRecord(sketch: Sketch, facts: readonly SettledFact[], parents: readonly ParentLink[]): Animal {
  const { problems: _, parents: __, tagged: ___, ...own } = sketch;
  const lists: Growing = {
    readings: [],
    outcomes: [],
    disbuddings: [],
    tests: [],
    traits: [],
    weights: [],
    moves: [],
    choices: [],
    notes: [],
    photos: [],
    heats: [],
    pregnancyChecks: [],
    abortions: [],
    care: [],
  };
  for (const fact of facts) addTo(lists, sketch, fact);
  for (const list of Object.values(lists)) if (list.length > 1) (list as Provenance[]).sort(byDay);
  const dam = parents.find(({ role }) => role === "dam")?.parent;
  const sires = parents.filter(({ role }) => role === "sire").map(({ parent }) => parent);
  return { ...own, dam, sires, ...lists };
}

function addTo(lists: Growing, { id, kidding, born }: Sketch, { fact, from }: SettledFact): void {
  switch (fact.kind) {
    case "kidding": {
      const weightKg = fact.body.kids.find(({ kid }) => kid === id)?.weightKg;
      if (kidding === from.entry && weightKg !== undefined)
        lists.weights.push({ ...from, kg: weightKg, how: "weighed" });
      break;
    }
    case "head-reading":
      lists.readings.push({ ...from, signs: fact.body.signs, budSites: fact.body.budSites });
      break;
    case "outcome":
      lists.outcomes.push({ ...from, left: fact.body.left, right: fact.body.right, knobs: fact.body.knobs });
      break;
    case "disbudding": {
      const { kid: _, ...done } = fact.body;
      lists.disbuddings.push({ ...done, ...from });
      break;
    }
    case "dna-test":
      lists.tests.push({ ...from, locus: fact.body.locus, alleles: fact.body.alleles, lab: fact.body.lab });
      break;
    case "trait":
      lists.traits.push({ ...from, trait: fact.body.trait, value: fact.body.value });
      break;
    case "weight":
      lists.weights.push({ ...from, kg: fact.body.kg, how: fact.body.how });
      break;
    case "move":
      lists.moves.push({ ...from, pen: fact.body.pen });
      break;
    case "choice":
      lists.choices.push({ ...from, choice: fact.body.choice, day: fact.body.day });
      break;
    case "note":
      lists.notes.push({ ...from, text: fact.body.text });
      break;
    case "photo":
      lists.photos.push({ ...from, photo: fact.body.photo, what: fact.body.what });
      break;
    case "heat":
      lists.heats.push(from);
      break;
    case "pregnancy-check": {
      const { doe: _, ...check } = fact.body;
      lists.pregnancyChecks.push({ ...check, ...from });
      break;
    }
    case "abortion":
      lists.abortions.push(from);
      break;
    case "care": {
      // Care of several at once counts for those that were born by then.
      if (born !== undefined && from.on < born) break;
      const { animals: _, ...done } = fact.body;
      lists.care.push({ ...done, ...from });
      break;
    }
    case "animal":
    case "service":
    case "departure":
    case "vet-day":
    case "setting":
      break;
    default:
      unreachable(fact, "addTo");
  }
}

/** A kid that was born on the day its parent was, or before. The link stands: it may be a day that is wrong. */
export function agesOf(sketch: Sketch, parents: readonly ParentLink[], bornOf: (id: AnimalId) => Day | undefined) {
  const { id: animal, born } = sketch;
  return parents.flatMap(({ parent, entry }): readonly HerdProblem[] => {
    const parentBorn = bornOf(parent);
    if (born === undefined || parentBorn === undefined || born > parentBorn) return [];
    return [{ code: "older-than-parent", entry, animal, parent }];
  });
}

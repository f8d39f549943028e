import type { Day } from "@pollard/base";
import { type AnimalId, animalId } from "@pollard/genetics";
import { canBe, type Fact } from "../entry/entry-kinds.ts";
import { tangles } from "../fold/pedigree-loops.ts";
import type { Herd } from "../herd.ts";
import type { HerdId } from "../entry/ids.ts";
import type { KnownGoats } from "./known-goats.ts";
import { callKey } from "./list-columns.ts";
import type { RowParents } from "./list-facts.ts";
import type { ListedGoat, RowProblem } from "./list-row.ts";
import { nameMadeOf } from "./made-names.ts";

/** What becomes of parents that are neither in the list nor in the herd. */
export const PARENT_CHOICES = ["gone", "here", "leave-out"] as const;
export type ParentChoice = (typeof PARENT_CHOICES)[number];

/** A parent known by what the list calls it only, and the entries that make it known. */
export interface ElderGoat {
  readonly animal: AnimalId;
  readonly called: string;
  readonly facts: readonly Fact[];
}

/** A row's parents, those whose own row has to be mended first, and what is wrong with them. */
export interface FoundParents extends RowParents {
  readonly lacks: readonly ("dam" | "sire")[];
  readonly problems: readonly RowProblem[];
}

/** Finds the parents that rows name: in the list, in the herd, or nowhere. */
export interface ParentFinder {
  of(goat: ListedGoat, animal: AnimalId): FoundParents;
  elders(): readonly ElderGoat[];
}

/**
 * A finder over all goats of herd and list.
 *
 * `rowIds`: the list's own ids; `refused`: what rows that are not brought in call their goats. A parent that only such a
 * row tells of is left out until the row is mended, lest it come in as somebody else.
 */
export function parentFinder(of: {
  readonly id: HerdId;
  readonly herd: Herd;
  readonly goats: KnownGoats;
  readonly rowIds: ReadonlyMap<string, AnimalId>;
  readonly refused: ReadonlySet<string>;
  readonly choice: ParentChoice;
  readonly today: Day;
}): ParentFinder {
  const elders = new Map<string, ElderGoat>();

  /** The same word means the same goat in every row. */
  function elder(word: string, role: "dam" | "sire"): AnimalId {
    const key = `${role} ${callKey(word)}`;
    const animal = animalId(nameMadeOf(JSON.stringify([of.id, role, callKey(word)])));
    if (!elders.has(key)) elders.set(key, { animal, called: word, facts: elderFacts(animal, word, role) });
    return animal;
  }
  function elderFacts(animal: AnimalId, word: string, role: "dam" | "sire"): readonly Fact[] {
    if (of.herd.animals.has(animal)) return [];
    const called = /^[\d\s.-]+$/.test(word) ? { tag: word } : { name: word };
    const known: Fact = {
      kind: "animal",
      on: of.today,
      body: { animal, ...called, sex: role === "dam" ? "doe" : "buck" },
    };
    const gone: Fact = { kind: "departure", on: of.today, body: { animal, why: "other" } };
    return of.choice === "gone" ? [known, gone] : [known];
  }

  return {
    of(goat, animal) {
      const lacks: ("dam" | "sire")[] = [];
      const problems: RowProblem[] = [];
      const find = (role: "dam" | "sire"): AnimalId | undefined => {
        const word = goat[role];
        if (word === undefined) return undefined;
        const byId = of.rowIds.get(word);
        const called =
          byId === undefined ? of.goats.called(word) : [of.goats.get(byId)].filter((one) => one !== undefined);
        const able = called.filter(({ sex }) => canBe(role, sex));
        const older = able.filter(({ born }) => born === undefined || goat.born === undefined || born < goat.born);
        const [parent, ...others] = older.length > 0 ? older : able;
        if (others.length > 0) problems.push({ code: "several-goats", column: role, got: word });
        else if (parent?.id === animal) problems.push({ code: "own-parent" });
        else if (parent === undefined && called.length > 0)
          problems.push({ code: "not-a-parent", column: role, got: word });
        else if (parent === undefined && of.refused.has(callKey(word))) lacks.push(role);
        else if (parent === undefined && of.choice !== "leave-out") return elder(word, role);
        else if (parent !== undefined && older.length === 0)
          problems.push({ code: "parent-younger", column: role, got: word });
        return parent?.id;
      };
      return { dam: find("dam"), sire: find("sire"), lacks, problems };
    },
    elders: () => [...elders.values()].filter(({ facts }) => facts.length > 0),
  };
}

/**
 * By which of its parents each row comes back to its own goat; without those that do not.
 *
 * What a row names counts before what the herd knows of its goat.
 */
export function parentLoops(
  rows: ReadonlyMap<AnimalId, RowParents>,
  herd: Herd,
): ReadonlyMap<AnimalId, readonly ("dam" | "sire")[]> {
  const parentsOf = (animal: AnimalId): readonly { readonly parent: AnimalId }[] => {
    const [row, known] = [rows.get(animal), herd.animals.get(animal)];
    const dam = row?.dam ?? known?.dam;
    const sires = row?.sire === undefined ? (known?.sires ?? []) : [row.sire];
    return [...(dam === undefined ? [] : [dam]), ...sires].map((parent) => ({ parent }));
  };
  const loops = new Map<AnimalId, readonly ("dam" | "sire")[]>();
  for (const tangle of tangles(rows.keys(), parentsOf))
    for (const animal of tangle) {
      const row = rows.get(animal);
      const roles = (["dam", "sire"] as const).filter((role) => {
        const parent = row?.[role];
        return parent !== undefined && tangle.has(parent);
      });
      if (roles.length > 0) loops.set(animal, roles);
    }
  return loops;
}

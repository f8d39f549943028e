import { present } from "@pollard/base";
import { f64 } from "../inference/cell.ts";
import { ownEvidence, statesLeft } from "../genotypes/own-evidence.ts";
import { type StateSpaces, stateSpaces } from "../genotypes/state-space.ts";
import type { FamilyAnswer, FamilyTask } from "../genotypes/family-answer.ts";

/** Which states of which animals stand in the tables of several loci, and what leaving out the others may cost. */
export interface Narrowing {
  isKept(locus: number, animal: number, at: number): boolean;
  /** The most that any chance is taken to be off by; 0 where nothing is left out. */
  readonly error: number;
}

/** Nothing left out. */
export const ALL_STATES: Narrowing = { isKept: () => true, error: 0 };

/** Chances below which a parent's state is left out, and the most that these may come to, all together. */
const LEVELS = [1e-10, 1e-8, 1e-7, 1e-6, 1e-5] as const;
const MOST_LEFT_OUT = 1e-4;
/** The error named is so many times what is left out: what is told of sires may yet speak for it. Never less than the last. */
const CAUTION = 100;
const LEAST_ERROR = 1e-8;

/**
 * Ways to leave out what parents as good as cannot be, by what each locus says alone, from the mildest to the strongest.
 *
 * A joint table of several loci has the product of their sizes; the buck of twenty kids, of whom everything is known, takes
 * up no room in it once his other states are gone.
 *
 * Shape:  empty where nothing is that improbable.
 * Source: rule GE-60, of several loci: GE-65.
 */
export function narrowings(tasks: readonly FamilyTask[], alone: readonly FamilyAnswer[]): readonly Narrowing[] {
  const parents = parentsOf(present(tasks[0], "a locus"));
  const chances = tasks.map((task, l) => {
    const answer = present(alone[l], "the answer of a locus alone");
    const spaces = stateSpaces(task.locus);
    return new Map(parents.map((animal) => [animal, chancesAlone(task, answer, spaces, animal)] as const));
  });
  const inexact = alone.reduce((sum, a) => sum + a.error, 0);
  const all = chances.flatMap((byAnimal) => [...byAnimal.values()].flat());
  const found: Narrowing[] = [];
  let before = 0;
  for (const level of LEVELS) {
    const gone = all.filter((p) => p < level);
    const leftOut = gone.reduce((sum, p) => sum + p, 0);
    if (leftOut + inexact > MOST_LEFT_OUT) break;
    if (gone.length === before) continue;
    before = gone.length;
    found.push({
      isKept(locus, animal, at) {
        const known = chances[locus]?.get(animal);
        return known === undefined || (known[at] ?? 0) >= level;
      },
      error: Math.max(LEAST_ERROR, inexact + CAUTION * leftOut),
    });
  }
  return found;
}

/** Of each state that an animal's own evidence leaves it; 0 for those that its locus alone had already left out. */
function chancesAlone(
  { members }: FamilyTask,
  answer: FamilyAnswer,
  spaces: StateSpaces,
  animal: number,
): readonly number[] {
  const { variables, spaces: found } = answer.network;
  const { xx, evidence } = present(members[animal], "a member");
  const own = present(found.get(animal), "an animal's states");
  const chances = answer.joint([present(variables.get(animal), "a parent's variable")], new Map());
  const all = spaces[own.kind];
  return statesLeft(all, ownEvidence(all, xx, evidence)).states.map(({ sex, within }) => {
    const at = own.states.findIndex((s) => s.sex === sex && s.within === within);
    return at < 0 ? 0 : f64(chances, at);
  });
}

/** All that have kids in the family. */
function parentsOf({ members, family }: FamilyTask): readonly number[] {
  const parents = new Set<number>();
  for (const i of family) {
    const { dam, sires } = present(members[i], "a member");
    for (const parent of [dam, ...sires.map((s) => s.sire)]) if (parent >= 0) parents.add(parent);
  }
  return [...parents];
}

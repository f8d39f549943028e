import { present } from "@pollard/base";
import { type FamilyAnswer, type FamilyTask, workOutFamily } from "../genotypes/family-answer.ts";
import { workOutLoci } from "./loci-family.ts";
import type { SoundMember } from "../pedigree/sound-problem.ts";

/** Rounds after which there is an end, and the change of a chance at which it is settled. */
const MOST_ROUNDS = 20;
const SETTLED = 1e-9;
/** Doubtful sires whose surroundings are worked out exactly, to see how far the answer is off: those told most. */
const COMPARED = 8;
/** Cells allowed for those surroundings, more for the nearest, and the steps of parentage after which they end. */
const REGION_CELLS = 1 << 18;
const LEAST_CELLS = 1 << 20;
const FARTHEST = 6;
/** No smaller error is claimed than this: what lies beyond the surroundings stays uncounted. */
const LEAST_ERROR = 1e-6;

/**
 * A family at several loci that is too entangled to be worked out as one: what each locus says of each kid's sire, one by
 * one and not of their combinations, is told to the others until nothing changes.
 *
 * Shape:  in the order of the tasks; `approximate`, with the largest error that was found in the surroundings of the kids
 *         whose sires were told most of, each worked out both ways. An estimate, no bound.
 * Source: [pearl1988] (messages between parts that share variables).
 */
export function tellSires(tasks: readonly FamilyTask[], alone: readonly FamilyAnswer[]): readonly FamilyAnswer[] {
  const { answers, unrest } = told(tasks, alone);
  const error = Math.max(LEAST_ERROR, unrest, surroundingsError(tasks, alone, answers));
  return answers.map((answer, l) => ({
    ...answer,
    method: "approximate",
    error: Math.max(error, answer.error),
    logLikelihood: present(alone[l], "the answer of a locus alone").logLikelihood,
    conflicts: present(alone[l], "the answer of a locus alone").conflicts,
  }));
}

interface Told {
  readonly answers: readonly FamilyAnswer[];
  /** By how much the last round still changed what was said. */
  readonly unrest: number;
}

function told(tasks: readonly FamilyTask[], alone: readonly FamilyAnswer[]): Told {
  const doubtful = doubtfulIn(present(tasks[0], "a locus"));
  /** Per locus and animal: how well each candidate explains what is seen at that locus. */
  const said = tasks.map(
    ({ members }) => new Map(doubtful.map((i) => [i, memberAt(members, i).sires.map(() => 1)] as const)),
  );
  const weightsFor = (locus: number, i: number): readonly number[] =>
    memberAt(present(tasks[locus], "a locus").members, i).sires.map(({ weight }, k) =>
      said.reduce((w, bySire, l) => (l === locus ? w : w * (bySire.get(i)?.[k] ?? 1)), weight),
    );
  let answers = alone;
  let unrest = 0;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    unrest = 0;
    answers = tasks.map((task, locus) => {
      const weights = new Map(doubtful.map((i) => [i, weightsFor(locus, i)] as const));
      const answer = workOutFamily({ ...task, members: reweighed(task.members, weights) });
      // What the others say leaves this locus no way: it stands by itself.
      const own = answer.conflicts.length > 0 ? present(alone[locus], "the answer of a locus alone") : answer;
      for (const i of doubtful) {
        const fresh = saidBy(own, i, present(weights.get(i), "an animal's weights"));
        const before = said[locus]?.get(i) ?? [];
        unrest = Math.max(unrest, ...fresh.map((x, k) => Math.abs(x - (before[k] ?? 0))));
        said[locus]?.set(i, fresh);
      }
      return own;
    });
    if (unrest < SETTLED) return { answers, unrest: 0 };
  }
  return { answers, unrest };
}

const memberAt = (members: readonly SoundMember[], i: number): SoundMember => present(members[i], "a member");

const doubtfulIn = ({ members, family }: FamilyTask): readonly number[] =>
  family.filter((i) => memberAt(members, i).sires.length > 1);

function reweighed(
  members: readonly SoundMember[],
  weights: ReadonlyMap<number, readonly number[]>,
): readonly SoundMember[] {
  const changed = members.slice();
  for (const [i, own] of weights) {
    const total = own.reduce((a, b) => a + b, 0);
    // Loci that contradict each other about a sire leave no candidate; then each stands by itself.
    if (total === 0) continue;
    const m = memberAt(members, i);
    changed[i] = { ...m, sires: m.sires.map((s, k) => ({ ...s, weight: (own[k] ?? 0) / total })) };
  }
  return changed;
}

/** How well each candidate explains what is seen at a locus: the chances it came to, without the weights it started from. */
function saidBy(answer: FamilyAnswer, i: number, weights: readonly number[]): number[] {
  const chances = answer.sires(i) ?? [];
  const ratios = weights.map((weight, k) => (weight > 0 ? (chances[k] ?? 0) / weight : 0));
  const top = Math.max(...ratios);
  return top > 0 ? ratios.map((r) => r / top) : ratios.map(() => 1);
}

/** The largest difference of any chance between telling one by one and the exact way. */
function surroundingsError(
  tasks: readonly FamilyTask[],
  alone: readonly FamilyAnswer[],
  answers: readonly FamilyAnswer[],
): number {
  const moved = (animal: number): number =>
    alone.reduce((most, a, l) => Math.max(most, apart(a.sires(animal), answers[l]?.sires(animal))), 0);
  const mostMoved = doubtfulIn(present(tasks[0], "a locus"))
    .map((animal) => ({ animal, by: moved(animal) }))
    .sort((a, b) => b.by - a.by)
    .slice(0, COMPARED);
  return mostMoved.reduce((most, { animal }) => Math.max(most, errorAround(tasks, animal)), 0);
}

/** 1 where the exact way does not reach as far as the animal's parents and kids: then nothing can be said. */
function errorAround(tasks: readonly FamilyTask[], animal: number): number {
  const { members, family } = present(tasks[0], "a locus");
  let near: ReadonlySet<number> = new Set([animal]);
  let largest: Part | undefined;
  for (let step = 0; step < FARTHEST; step++) {
    const more = [...oneStep(members, family, near)].filter((i) => !near.has(i));
    const whole = partOf(tasks, new Set([...near, ...more]), step === 0 ? LEAST_CELLS : REGION_CELLS);
    // Where a whole step is too much, half of it may do, or a quarter.
    let part = whole;
    for (let left = more.length >> 1; part.exact === "too-large" && left > 0 && step > 0; left >>= 1)
      part = partOf(tasks, new Set([...near, ...more.slice(0, left)]), REGION_CELLS);
    if (part.exact === "too-large") break;
    near = part.animals;
    largest = part;
    if (part !== whole || more.length === 0) break;
  }
  if (largest === undefined || largest.exact === "impossible" || largest.exact === "too-large") return 1;
  const { exact, tasks: cut } = largest;
  const { answers } = told(
    cut,
    cut.map((task) => workOutFamily(task)),
  );
  return exact.reduce((most, answer, l) => Math.max(most, answerError(near, answer, answers[l])), 0);
}

/** Some animals alone, worked out exactly if it goes. */
interface Part {
  readonly animals: ReadonlySet<number>;
  readonly tasks: readonly FamilyTask[];
  readonly exact: ReturnType<typeof workOutLoci>;
}

function partOf(tasks: readonly FamilyTask[], animals: ReadonlySet<number>, cellBudget: number): Part {
  const cut = tasks.map((task) => ({ ...cutTo(task, animals), cellBudget }));
  const unweighed = cut.map(() => ({ logLikelihood: 0, conflicts: [] }));
  return { animals, tasks: cut, exact: workOutLoci(cut, unweighed) };
}

/** The largest difference of the chances of some animals' sires and genotypes. */
function answerError(animals: ReadonlySet<number>, exact: FamilyAnswer, other: FamilyAnswer | undefined): number {
  const states = (from: FamilyAnswer | undefined, i: number): readonly number[] => {
    const variable = from?.network.variables.get(i);
    return variable === undefined ? [] : [...(from?.joint([variable], new Map()) ?? [])];
  };
  return [...animals].reduce(
    (most, i) => Math.max(most, apart(exact.sires(i), other?.sires(i)), apart(states(exact, i), states(other, i))),
    0,
  );
}

const apart = (a: readonly number[] = [], b: readonly number[] = []): number =>
  a.reduce((most, x, k) => Math.max(most, Math.abs(x - (b[k] ?? 0))), 0);

/** The animals with their parents, possible sires and kids. */
function oneStep(
  members: readonly SoundMember[],
  family: readonly number[],
  near: ReadonlySet<number>,
): ReadonlySet<number> {
  const wider = new Set(near);
  for (const i of family) {
    const { dam, sires } = memberAt(members, i);
    const parents = [dam, ...sires.map((s) => s.sire)].filter((p) => p >= 0);
    if (near.has(i)) for (const p of parents) wider.add(p);
    if (parents.some((p) => near.has(p))) wider.add(i);
  }
  return wider;
}

/** The task of some animals alone; parents who are not among them are unknown. */
function cutTo(task: FamilyTask, near: ReadonlySet<number>): FamilyTask {
  const family = task.family.filter((i) => near.has(i));
  const members = task.members.slice();
  for (const i of family) {
    const m = memberAt(members, i);
    const weights = new Map<number, number>();
    for (const { sire, weight } of m.sires) {
      const at = near.has(sire) ? sire : -1;
      weights.set(at, (weights.get(at) ?? 0) + weight);
    }
    const sires = [...weights].map(([sire, weight]) => ({ sire, weight }));
    members[i] = { ...m, dam: near.has(m.dam) ? m.dam : -1, sires: sires.every((s) => s.sire < 0) ? [] : sires };
  }
  return { ...task, members, family };
}

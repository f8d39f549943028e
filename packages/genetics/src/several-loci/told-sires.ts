import { present } from "@pollard/base";
import { type FamilyAnswer, type FamilyTask, workOutFamily } from "../genotypes/family-answer.ts";
import { workOutLoci } from "./loci-family.ts";
import { ALL_STATES, type Narrowing } from "./narrowed-loci.ts";
import {
  type Litter,
  littersOf,
  productsOf,
  ratiosBetween,
  saidOfLitter,
  type SaidByKid,
  siresOfLitter,
} from "../pedigree/litters.ts";
import { addSire, type SoundMember, type SoundSire } from "../pedigree/sound-problem.ts";

/** Rounds after which there is an end, and the change of a chance at which it is settled. */
const MOST_ROUNDS = 20;
const SETTLED = 1e-8;
/** Doubtful sires whose surroundings are worked out exactly, to see how far the answer is off: those told most. */
const COMPARED = 8;
/** Cells allowed for those surroundings, more for the nearest, and the steps of parentage after which they end. */
const REGION_CELLS = 1 << 18;
const LEAST_CELLS = 1 << 20;
const FARTHEST = 6;
/** No smaller error is claimed than this: what lies beyond the surroundings stays uncounted. */
const LEAST_ERROR = 1e-6;

/** The sires that the loci of a family tell each other of, and which of them they share as one variable each. */
interface Doubts {
  /** Litters of whose sires is told, those first of which most is said. */
  readonly told: readonly Litter[];
  readonly shared: ReadonlySet<number>;
  readonly narrowing: Narrowing;
}

/**
 * A family at several loci that is too entangled to be worked out as one: of as many sires as the budget allows the loci
 * are told together, those of whom most is said. What each says of the others is told one by one, and not of their
 * combinations, until nothing changes.
 *
 * Shape:  in the order of the tasks; `approximate`, with the largest error that was found in the surroundings of the kids
 *         whose sires were told most of one by one, each worked out both ways. An estimate, no bound.
 * Source: [pearl1988] (messages between parts that share variables).
 */
export function tellSires(
  tasks: readonly FamilyTask[],
  alone: readonly FamilyAnswer[],
  told: readonly Litter[],
  narrowing: Narrowing,
): readonly FamilyAnswer[] {
  const doubts = { told, shared: sharedWithin(tasks, alone, told, narrowing), narrowing };
  const { answers, unrest } = listened(tasks, alone, doubts);
  const error = Math.max(LEAST_ERROR, unrest, surroundingsError(tasks, alone, answers, doubts));
  return answers.map((answer, l) => ({
    ...answer,
    method: "approximate",
    error: Math.max(error, answer.error),
    logLikelihood: present(alone[l], "the answer of a locus alone").logLikelihood,
    conflicts: present(alone[l], "the answer of a locus alone").conflicts,
  }));
}

/** As many of the sires as can be shared within the budget: half of them, or a quarter, and so on. */
function sharedWithin(
  tasks: readonly FamilyTask[],
  alone: readonly FamilyAnswer[],
  told: readonly Litter[],
  narrowing: Narrowing,
): ReadonlySet<number> {
  for (let count = told.length >> 1; count > 0; count >>= 1) {
    const shared = new Set(told.slice(0, count).flatMap(({ kids }) => kids));
    if (Array.isArray(workOutLoci(tasks, alone, shared, narrowing))) return shared;
  }
  return new Set();
}

interface Listened {
  readonly answers: readonly FamilyAnswer[];
  /** By how much the last round still changed what was said. */
  readonly unrest: number;
}

function listened(
  tasks: readonly FamilyTask[],
  alone: readonly FamilyAnswer[],
  { told, shared, narrowing }: Doubts,
): Listened {
  const oneByOne = told.filter(({ kids }) => !kids.some((i) => shared.has(i)));
  const before = tasks.map(({ members }) => oneByOne.map((litter) => givenOf(members, litter)));
  /** Per locus and litter: how well each candidate explains what is seen of each kid at that locus. */
  let said = alone.map((answer, l) => saidBy(answer, oneByOne, present(before[l], "what was given")));
  let answers = alone;
  let unrest = 0;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const given = before.map((own, locus) => withSaid(own, said, locus));
    const weighed = tasks.map((task, l) => ({
      ...task,
      members: informed(task.members, oneByOne, present(given[l], "what is told")),
    }));
    answers = workedOut(weighed, alone, shared, narrowing);
    const next = answers.map((answer, l) =>
      saidBy(
        answer,
        oneByOne,
        oneByOne.map((litter) => givenOf(present(weighed[l], "a locus").members, litter)),
      ),
    );
    unrest = Math.max(0, ...next.map((fresh, l) => mostChanged(fresh, present(said[l], "what was said"))));
    said = next;
    if (unrest < SETTLED) return { answers, unrest: 0 };
  }
  return { answers, unrest };
}

/** Litter by litter, in one order: what is known of each kid's sire. */
type ByLitter = readonly SaidByKid[];

/** What one locus is told of its kids' sires from all the others. */
const withSaid = (before: ByLitter, said: readonly ByLitter[], locus: number): ByLitter =>
  before.map((own, at) =>
    said.reduce((all, byLitter, l) => (l === locus ? all : productsOf(all, present(byLitter[at], "a litter"))), own),
  );

const mostChanged = (a: ByLitter, b: ByLitter): number =>
  a.reduce((most, kids, at) => kids.reduce((m, row, kid) => Math.max(m, apart(row, b[at]?.[kid])), most), 0);

/** Every locus with the weights it was told; one that these leave no way stands by itself. */
function workedOut(
  tasks: readonly FamilyTask[],
  alone: readonly FamilyAnswer[],
  shared: ReadonlySet<number>,
  narrowing: Narrowing,
): readonly FamilyAnswer[] {
  const together = shared.size > 0 ? workOutLoci(tasks, alone, shared, narrowing) : undefined;
  if (Array.isArray(together)) return together;
  return tasks.map((task, l) => {
    const answer = workOutFamily(task);
    return answer.conflicts.length > 0 ? present(alone[l], "the answer of a locus alone") : answer;
  });
}

const memberAt = (members: readonly SoundMember[], i: number): SoundMember => present(members[i], "a member");

const givenOf = (members: readonly SoundMember[], { kids }: Litter): SaidByKid =>
  kids.map((i) => memberAt(members, i).sires.map((s) => s.said));

/** The members with what they are told of their sires; where that leaves a litter nobody, each locus stands by itself. */
function informed(members: readonly SoundMember[], litters: readonly Litter[], told: ByLitter): readonly SoundMember[] {
  const changed = members.slice();
  litters.forEach((litter, at) => {
    const said = present(told[at], "what is told of a litter");
    if (siresOfLitter(litter, said) === undefined) return;
    litter.kids.forEach((i, kid) => {
      const m = memberAt(members, i);
      changed[i] = { ...m, sires: m.sires.map((s, k) => ({ ...s, said: said[kid]?.[k] ?? 0 })) };
    });
  });
  return changed;
}

/**
 * How well each candidate explains what is seen of each kid at a locus: the chances it came to, without the weights and
 * without what it was told.
 */
const saidBy = (answer: FamilyAnswer, litters: readonly Litter[], given: ByLitter): ByLitter =>
  litters.map((litter, at) => {
    const chances = litter.kids.map((i) => answer.sires(i) ?? []);
    return ratiosBetween(saidOfLitter(litter, chances), present(given[at], "what was given")).map((ratios) => {
      const top = Math.max(...ratios);
      return top > 0 ? ratios.map((r) => r / top) : ratios.map(() => 1);
    });
  });

/** The largest difference of any chance between telling one by one and the exact way. */
function surroundingsError(
  tasks: readonly FamilyTask[],
  alone: readonly FamilyAnswer[],
  answers: readonly FamilyAnswer[],
  doubts: Doubts,
): number {
  const moved = (animal: number): number =>
    alone.reduce((most, a, l) => Math.max(most, apart(a.sires(animal), answers[l]?.sires(animal))), 0);
  const mostMoved = doubts.told
    .flatMap(({ kids }) => kids)
    .filter((animal) => !doubts.shared.has(animal))
    .map((animal) => ({ animal, by: moved(animal) }))
    .sort((a, b) => b.by - a.by)
    .slice(0, COMPARED);
  return mostMoved.reduce((most, { animal }) => Math.max(most, errorAround(tasks, animal, doubts)), 0);
}

/** 1 where the exact way does not reach as far as the animal's parents and kids: then nothing can be said. */
function errorAround(tasks: readonly FamilyTask[], animal: number, doubts: Doubts): number {
  const { members, family } = present(tasks[0], "a locus");
  let near: ReadonlySet<number> = new Set([animal]);
  let largest: Part | undefined;
  const part = (animals: ReadonlySet<number>, cells: number): Part => partOf(tasks, animals, doubts, cells);
  for (let step = 0; step < FARTHEST; step++) {
    const more = [...oneStep(members, family, near)].filter((i) => !near.has(i));
    const whole = part(new Set([...near, ...more]), step === 0 ? LEAST_CELLS : REGION_CELLS);
    // Where a whole step is too much, half of it may do, or a quarter.
    let found = whole;
    for (let left = more.length >> 1; found.exact === "too-large" && left > 0 && step > 0; left >>= 1)
      found = part(new Set([...near, ...more.slice(0, left)]), REGION_CELLS);
    if (found.exact === "too-large") break;
    near = found.animals;
    largest = found;
    if (found !== whole || more.length === 0) break;
  }
  if (largest === undefined || largest.exact === "impossible" || largest.exact === "too-large") return 1;
  const { exact, tasks: cut } = largest;
  const { answers } = listened(
    cut,
    cut.map((task) => workOutFamily(task)),
    largest.doubts,
  );
  return exact.reduce((most, answer, l) => Math.max(most, answerError(near, answer, answers[l])), 0);
}

/** Some animals alone, worked out exactly if it goes. */
interface Part {
  readonly animals: ReadonlySet<number>;
  readonly tasks: readonly FamilyTask[];
  readonly doubts: Doubts;
  readonly exact: ReturnType<typeof workOutLoci>;
}

function partOf(tasks: readonly FamilyTask[], animals: ReadonlySet<number>, doubts: Doubts, cellBudget: number): Part {
  const cut = tasks.map((task) => ({ ...cutTo(task, animals), cellBudget, layouts: task.layouts.ofPieces() }));
  const unweighed = cut.map(() => ({ logLikelihood: 0, conflicts: [] }));
  const { members } = present(cut[0], "a locus");
  const isTold = new Set(doubts.told.flatMap(({ kids }) => kids));
  // Of a litter that is cut in two, those who are left are a litter.
  const told = littersOf(members, present(cut[0], "a locus").family).filter(({ kids }) =>
    kids.some((i) => isTold.has(i)),
  );
  const kids = told.flatMap((litter) => litter.kids);
  const shared = new Set(kids.filter((i) => doubts.shared.has(i)));
  return {
    animals,
    tasks: cut,
    doubts: { told, shared, narrowing: ALL_STATES },
    exact: workOutLoci(cut, unweighed, new Set(kids)),
  };
}

/** The largest difference of the chances of some animals' sires and genotypes. */
function answerError(animals: ReadonlySet<number>, exact: FamilyAnswer, other: FamilyAnswer | undefined): number {
  if (other === undefined) return 1;
  return [...animals].reduce(
    (most, i) => Math.max(most, apart(exact.sires(i), other.sires(i)), statesApart(exact, other, i)),
    0,
  );
}

/** A state that one of the two has left out counts as impossible there. */
function statesApart(exact: FamilyAnswer, other: FamilyAnswer, animal: number): number {
  const chances = (answer: FamilyAnswer): ReadonlyMap<string, number> => {
    const { variables, spaces } = answer.network;
    const [variable, space] = [variables.get(animal), spaces.get(animal)];
    if (variable === undefined || space === undefined) return new Map();
    const all = answer.joint([variable], new Map());
    return new Map(space.states.map(({ sex, within }, at) => [`${sex} ${within}`, all[at] ?? 0]));
  };
  const [a, b] = [chances(exact), chances(other)];
  return [...a].reduce((most, [state, p]) => Math.max(most, Math.abs(p - (b.get(state) ?? 0))), 0);
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
    const weights = new Map<number, Omit<SoundSire, "sire">>();
    for (const { sire, ...weighed } of m.sires) addSire(weights, near.has(sire) ? sire : -1, weighed);
    const sires = [...weights].map(([sire, weighed]) => ({ sire, ...weighed }));
    members[i] = { ...m, dam: near.has(m.dam) ? m.dam : -1, sires: sires.every((s) => s.sire < 0) ? [] : sires };
  }
  return { ...task, members, family };
}

import { item } from "../inference/cell.ts";
import type { LayoutMemory } from "../inference/layout-memory.ts";
import type { Evidence } from "../pedigree/pedigree-problem.ts";
import type { SoundMember } from "../pedigree/sound-problem.ts";
import { type FamilyAnswer, type FamilyTask, workOutFamily } from "./family-answer.ts";

interface Kept {
  readonly task: FamilyTask;
  readonly answer: FamilyAnswer;
}

/** Answers kept at once with one memory; the one not asked for longest goes first. They hold the messages of their tables. */
const MOST_ANSWERS = 64;

/** What was last answered about each family at each locus; it goes with the memory of layouts it was found with. */
const ANSWERS = new WeakMap<LayoutMemory, Map<string, Kept>>();

/**
 * As `workOutFamily`, but a family of which nothing changed since it was last asked about keeps its answer: a new entry
 * mostly says something of one family at one locus.
 */
export function workOutKept(task: FamilyTask): FamilyAnswer {
  const known = ANSWERS.get(task.layouts) ?? new Map<string, Kept>();
  ANSWERS.set(task.layouts, known);
  const key = `${task.locus.id} ${task.members[task.family[0] ?? 0]?.id ?? ""}`;
  const before = known.get(key);
  const kept = before && isSameTask(before.task, task) ? before : { task, answer: workOutFamily(task) };
  known.delete(key);
  known.set(key, kept);
  const oldest = known.size > MOST_ANSWERS ? known.keys().next().value : undefined;
  if (oldest !== undefined) known.delete(oldest);
  return kept.answer;
}

function isSameTask(a: FamilyTask, b: FamilyTask): boolean {
  return (
    a.cellBudget === b.cellBudget &&
    a.locus.inheritance === b.locus.inheritance &&
    isSameList(a.locus.alleles, b.locus.alleles) &&
    isSameList(a.family, b.family) &&
    a.family.every((i) => isSameMember(a.members[i], b.members[i]))
  );
}

const isSameMember = (a: SoundMember | undefined, b: SoundMember | undefined): boolean =>
  a === b ||
  (a !== undefined &&
    b !== undefined &&
    a.id === b.id &&
    a.dam === b.dam &&
    a.xx === b.xx &&
    a.priorXx === b.priorXx &&
    isSameList(a.sires, b.sires, (x, y) => x.sire === y.sire && x.weight === y.weight && x.said === y.said) &&
    a.litter?.id === b.litter?.id &&
    a.litter?.mixed === b.litter?.mixed &&
    isSameList(a.frequencies, b.frequencies) &&
    isSameList(a.founderPrior, b.founderPrior) &&
    isSameList(a.evidence, b.evidence, isSameEvidence));

const isSameEvidence = (a: Evidence, b: Evidence): boolean =>
  a === b ||
  (a.fact === b.fact && isSameList(a.likelihood.XX, b.likelihood.XX) && isSameList(a.likelihood.XY, b.likelihood.XY));

function isSameList<T>(
  a: readonly T[] | undefined,
  b: readonly T[] | undefined,
  isSame: (x: T, y: T) => boolean = Object.is,
): boolean {
  if (a === b) return true;
  return a !== undefined && b?.length === a.length && a.every((x, at) => isSame(x, item(b, at)));
}

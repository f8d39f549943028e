import { oncePer, present } from "@pollard/base";
import { Lately } from "../inference/lately.ts";
import type { LayoutMemory } from "../inference/layout-memory.ts";
import { isSameList, isSameMember } from "../pedigree/sameness.ts";
import { type FamilyAnswer, type FamilyTask, workOutFamily } from "./family-answer.ts";

interface Kept {
  readonly task: FamilyTask;
  readonly answer: FamilyAnswer;
}

/** Answers kept at once with one memory; the one not asked for longest goes first. They hold the messages of their tables. */
const MOST_ANSWERS = 64;

/** What was last answered about each family at each locus; it goes with the memory of layouts it was found with. */
const answersIn = oncePer<LayoutMemory, Lately<Kept>>(() => new Lately(MOST_ANSWERS));

/**
 * As `workOutFamily`, but a family of which nothing changed since it was last asked about keeps its answer: a new entry
 * mostly says something of one family at one locus.
 */
export function workOutKept(task: FamilyTask): FamilyAnswer {
  const name = `${task.locus.id} ${task.members[task.family[0] ?? 0]?.id ?? ""}`;
  return answersIn(task.layouts).ask(name, (before) =>
    before && isSameQuestion(before.task, task) ? again(before, task) : { task, answer: workOutFamily(task) },
  ).answer;
}

/** The answer to the same question with other findings, or with the same. */
function again(before: Kept, task: FamilyTask): Kept {
  const memberOf = ({ members }: FamilyTask, i: number) => present(members[i], "a member");
  return task.family.every((i) => isSameMember(memberOf(before.task, i), memberOf(task, i)))
    ? before
    : { task, answer: workOutFamily(task, before.answer.worked) };
}

/** Whether two tasks ask about the same family at the same locus in the same way, whatever was found on its members. */
const isSameQuestion = (a: FamilyTask, b: FamilyTask): boolean =>
  a.cellBudget === b.cellBudget &&
  a.locus.inheritance === b.locus.inheritance &&
  isSameList(a.locus.alleles, b.locus.alleles) &&
  isSameList(a.family, b.family);

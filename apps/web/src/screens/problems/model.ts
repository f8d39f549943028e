import type { AdviceProblem } from "@pollard/advice";
import type { AnimalId } from "@pollard/genetics";
import type { EntryId } from "@pollard/records";

/** The entries a problem speaks of. */
export function entriesOf(problem: AdviceProblem): readonly EntryId[] {
  if ("entries" in problem) return problem.entries;
  return [problem.entry];
}

/** The goats a problem speaks of, each once. */
export function animalsOf(problem: AdviceProblem): readonly AnimalId[] {
  const named: AnimalId[] = [];
  if ("animals" in problem)
    for (const animal of problem.animals) named.push(typeof animal === "string" ? animal : animal.id);
  if ("animal" in problem) named.push(typeof problem.animal === "string" ? problem.animal : problem.animal.id);
  return [...new Set(named)];
}

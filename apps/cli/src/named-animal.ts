import { ok, type Result } from "@pollard/base";
import { animalLines, type AnimalRef } from "@pollard/advice";
import type { OpenHerd } from "./herd-source.ts";
import { type Stop, wrong } from "./outcome.ts";

/**
 * The goat that somebody means: by its id, its tag or its name, in any case.
 *
 * Errors: no such goat, or several of that name; then their tags are said.
 */
export function namedAnimal({ situation }: OpenHerd, text: string): Result<AnimalRef, Stop> {
  const wanted = text.trim().toLowerCase();
  const refs = animalLines(situation).map(({ ref }) => ref);
  const byId = refs.find(({ id }) => id.toLowerCase() === wanted);
  if (byId) return ok(byId);
  const found = refs.filter(({ name, tag }) => [name, tag].some((word) => word?.toLowerCase() === wanted));
  const [first, ...others] = found;
  if (first === undefined) return wrong(`There is no goat "${text.trim()}" in this herd, by name, tag or id.`);
  if (others.length === 0) return ok(first);
  return wrong(`"${text.trim()}" is several goats; say which by its id: ${found.map(({ id }) => id).join(", ")}.`);
}

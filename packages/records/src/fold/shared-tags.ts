import type { AnimalId } from "@pollard/genetics";
import type { HerdProblem } from "../herd.ts";
import { byStamp } from "./settled-fact.ts";
import type { Sketch } from "./sketch.ts";

/** Who wears which tag. */
export interface SharedTags {
  /** Notes the tag of an animal, or that there is no such animal any more. */
  put(id: AnimalId, sketch: Sketch | undefined): void;
  /** Says what is wrong with each tag that changed hands since the last time. */
  tell(): void;
}

/**
 * Nobody wears a tag yet. `hear` is told the problems of each tag that changed hands.
 *
 * Animals that have left do not count: a tag may be given again.
 */
export function sharedTags(hear: (tag: string, found: readonly HerdProblem[]) => void): SharedTags {
  const wearers = new Map<string, Map<AnimalId, Sketch>>();
  const tagOf = new Map<AnimalId, string>();
  const changed = new Set<string>();

  function tellOf(tag: string): void {
    const worn = [...(wearers.get(tag)?.values() ?? [])].flatMap(({ id, tagged }) =>
      tagged ? [{ id, ...tagged }] : [],
    );
    worn.sort((a, b) => byStamp(a, b) || (a.id < b.id ? -1 : 1));
    const last = worn.at(-1);
    if (worn.length < 2 || !last) hear(tag, []);
    else hear(tag, [{ code: "two-with-one-tag", entry: last.entry, tag, animals: worn.map(({ id }) => id) }]);
  }

  return {
    put: (id, sketch) => {
      const before = tagOf.get(id);
      const after = sketch?.departure ? undefined : sketch?.tag;
      if (before !== undefined) wearers.get(before)?.delete(id);
      if (sketch && after !== undefined) {
        const worn = wearers.get(after) ?? new Map<AnimalId, Sketch>();
        wearers.set(after, worn.set(id, sketch));
        tagOf.set(id, after);
      } else tagOf.delete(id);
      for (const tag of [before, after]) if (tag !== undefined) changed.add(tag);
    },
    tell: () => {
      for (const tag of changed) tellOf(tag);
      changed.clear();
    },
  };
}

import { present } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import { byStamp, compareText } from "./settled-fact.ts";
import type { ParentLink } from "./sketch.ts";

export type ParentsOf = (id: AnimalId) => readonly ParentLink[];

/** A link that would make an animal its own ancestor, with the animals of the loop from kid to parent and on upwards. */
export interface CutLink {
  readonly kid: AnimalId;
  readonly link: ParentLink;
  readonly loop: readonly AnimalId[];
}

/** Is any of these animals its own ancestor, or has it one that is? Cost: in their ancestors, each looked at once. */
export function hasLoopAbove(starts: Iterable<AnimalId>, parentsOf: ParentsOf): boolean {
  const done = new Set<AnimalId>();
  const path = new Set<AnimalId>();
  for (const start of starts) {
    const stack = [{ id: start, next: 0 }];
    if (done.has(start)) continue;
    path.add(start);
    for (let top = stack.at(-1); top; top = stack.at(-1)) {
      const parent = parentsOf(top.id)[top.next]?.parent;
      top.next += 1;
      if (parent === undefined) {
        done.add(top.id);
        path.delete(top.id);
        stack.pop();
      } else if (path.has(parent)) return true;
      else if (!done.has(parent)) {
        path.add(parent);
        stack.push({ id: parent, next: 0 });
      }
    }
  }
  return false;
}

/**
 * The links to leave out so that no animal is its own ancestor: going through the links in the order in which they were
 * written down, each that would close a loop.
 *
 * Only links inside a tangle (a strongly connected part of the pedigree) can close a loop, so only those are gone through.
 *
 * Shape:  the same links give the same cuts, in whatever order the animals come.
 * Source: tangles by R. Tarjan's algorithm (1972), without recursion; from memory, checked by its law test.
 */
export function cutLoops(animals: Iterable<AnimalId>, parentsOf: ParentsOf): readonly CutLink[] {
  return tangles(animals, parentsOf).flatMap((tangle) => cutTangle(tangle, parentsOf));
}

function cutTangle(tangle: ReadonlySet<AnimalId>, parentsOf: ParentsOf): readonly CutLink[] {
  const links = [...tangle]
    .flatMap((kid) => parentsOf(kid).map((link) => ({ kid, link })))
    .filter(({ link }) => tangle.has(link.parent))
    .sort((a, b) => byStamp(a.link, b.link) || compareText(a.kid, b.kid) || compareText(a.link.parent, b.link.parent));
  const kept = new Map<AnimalId, AnimalId[]>();
  const cuts: CutLink[] = [];
  for (const { kid, link } of links) {
    const loop = wayUp(link.parent, kid, kept);
    if (loop) cuts.push({ kid, link, loop: [kid, ...loop.slice(0, -1)] });
    else kept.set(kid, [...(kept.get(kid) ?? []), link.parent]);
  }
  return cuts;
}

/** The shortest way up the kept links from one animal to another, both ends included; `undefined` where there is none. */
function wayUp(from: AnimalId, to: AnimalId, kept: ReadonlyMap<AnimalId, readonly AnimalId[]>) {
  const cameFrom = new Map<AnimalId, AnimalId | undefined>([[from, undefined]]);
  for (const [at] of cameFrom) {
    if (at === to) break;
    for (const parent of kept.get(at) ?? []) if (!cameFrom.has(parent)) cameFrom.set(parent, at);
  }
  if (!cameFrom.has(to)) return undefined;
  const way: AnimalId[] = [];
  for (let at: AnimalId | undefined = to; at !== undefined; at = cameFrom.get(at)) way.unshift(at);
  return way;
}

/** The parts of the pedigree in which every animal is an ancestor of every other; single animals only if their own parent. */
export function tangles(
  animals: Iterable<AnimalId>,
  parentsOf: (id: AnimalId) => readonly Pick<ParentLink, "parent">[],
): readonly ReadonlySet<AnimalId>[] {
  const found: ReadonlySet<AnimalId>[] = [];
  const order = new Map<AnimalId, number>();
  const low = new Map<AnimalId, number>();
  const open: AnimalId[] = [];
  const isOpen = new Set<AnimalId>();
  const enter = (id: AnimalId) => {
    order.set(id, order.size);
    low.set(id, order.size - 1);
    open.push(id);
    isOpen.add(id);
    return { id, next: 0 };
  };
  const lowOf = (id: AnimalId) => present(low.get(id), "an animal that was entered");
  for (const start of animals) {
    if (order.has(start)) continue;
    const stack = [enter(start)];
    for (let top = stack.at(-1); top; top = stack.at(-1)) {
      const parent = parentsOf(top.id)[top.next]?.parent;
      top.next += 1;
      if (parent !== undefined) {
        if (!order.has(parent)) stack.push(enter(parent));
        else if (isOpen.has(parent)) low.set(top.id, Math.min(lowOf(top.id), order.get(parent) ?? 0));
        continue;
      }
      stack.pop();
      const below = stack.at(-1);
      if (below) low.set(below.id, Math.min(lowOf(below.id), lowOf(top.id)));
      if (lowOf(top.id) === order.get(top.id)) {
        const tangle = new Set(open.splice(open.lastIndexOf(top.id)));
        for (const id of tangle) isOpen.delete(id);
        const ownParent = parentsOf(top.id).some((link) => link.parent === top.id);
        if (tangle.size > 1 || ownParent) found.push(tangle);
      }
    }
  }
  return found;
}

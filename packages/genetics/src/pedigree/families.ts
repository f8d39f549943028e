import { present } from "@pollard/base";
import type { SoundMember } from "./sound-problem.ts";

/**
 * The members in groups that no parentage joins; each group can be worked out by itself.
 *
 * Shape: every position once; groups in the order of their first member, members in order of position.
 */
export function familiesOf(members: readonly SoundMember[]): readonly (readonly number[])[] {
  const leader = members.map((_, i) => i);
  const find = (i: number): number => {
    let at = i;
    for (let up = present(leader[at], "a leader"); up !== at; up = present(leader[at], "a leader")) {
      leader[at] = present(leader[up], "a leader");
      at = up;
    }
    return at;
  };
  const join = (a: number, b: number): void => {
    const [x, y] = [find(a), find(b)];
    leader[Math.max(x, y)] = Math.min(x, y);
  };
  members.forEach((m, i) => {
    if (m.dam >= 0) join(i, m.dam);
    for (const s of m.sires) if (s.sire >= 0) join(i, s.sire);
  });
  const groups = new Map<number, number[]>();
  members.forEach((_, i) => {
    const first = find(i);
    const group = groups.get(first);
    if (group) group.push(i);
    else groups.set(first, [i]);
  });
  return [...groups.values()];
}

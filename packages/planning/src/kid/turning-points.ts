import { type Probability, probability } from "@pollard/base";
import type { Ending } from "./endings.ts";
import type { LookAhead } from "./look-ahead.ts";

/** Most steps of the search; each at least halves what is left in practice, and it ends when nothing moves. */
const STEPS = 40;
const STILL = 1e-7;

/** A loss as a function of the chance of horns, a straight line: `ifPolled` at 0, `ifHorned` at 1. */
interface Line {
  readonly ifHorned: number;
  readonly ifPolled: number;
}

/**
 * The chances of horns at which the best thing to do changes: leaving up to one, asking for the vet from the other.
 *
 * Between them it is best to look again; where looking never pays the two are one. The loss of looking is the least of
 * many straight lines, one for each course of action, so every course known gives a bound: the search steps along those
 * lines and can neither overshoot nor miss.
 *
 * Shape:   both `undefined` where the vet cannot come at all.
 * Assumes: what was seen so far stays as it is; only the chance of horns is moved.
 * Source:  rule KD-8.
 */
export function turningPoints(
  endings: readonly Ending[],
  ahead: LookAhead | undefined,
): { readonly leaveUpTo: Probability | undefined; readonly listFrom: Probability | undefined } {
  const leave = endings.filter((e) => e.kind === "leave").map(lineOf)[0];
  const lists = endings.filter((e) => e.kind === "vet-list").map(lineOf);
  if (leave === undefined) return { leaveUpTo: undefined, listFrom: undefined };
  const meetings = lists.map((list) => crossing(leave, list)).filter((p) => p !== undefined);
  if (meetings.length === 0) return { leaveUpTo: undefined, listFrom: undefined };
  const meet = Math.min(...meetings);
  const first = ahead === undefined || ahead.days === 0 ? undefined : bestLook(ahead, meet, 0);
  if (ahead === undefined || first === undefined || first.loss >= valueAt(leave, meet))
    return { leaveUpTo: probability(meet), listFrom: probability(meet) };

  const walk = (step: (line: Line, from: number) => number): number => {
    let [at, look] = [meet, first];
    for (let i = 0; i < STEPS; i++) {
      const next = step(look, at);
      if (Math.abs(at - next) < STILL) break;
      at = next;
      look = bestLook(ahead, at, look.day);
    }
    return at;
  };
  const low = walk((line) => crossing(leave, line) ?? 0);
  const high = walk((line, from) => Math.min(1, ...lists.map((list) => crossingAbove(line, list, from))));
  return { leaveUpTo: probability(low), listFrom: probability(high) };
}

const lineOf = (e: Ending): Line => ({ ifHorned: e.horned, ifPolled: e.polled });
const valueAt = (l: Line, p: number): number => p * l.ifHorned + (1 - p) * l.ifPolled;

/** The course that is best among all looks at this chance of horns, and its first day. `likely` is the day to try first. */
function bestLook(ahead: LookAhead, p: number, likely: number): Line & { readonly loss: number; readonly day: number } {
  let [day, least] = [likely, ahead.loss(likely, p)];
  for (let i = 0; i < ahead.days; i++) {
    if (i === likely) continue;
    const loss = ahead.loss(i, p, least);
    if (loss < least) [day, least] = [i, loss];
  }
  return { ...ahead.prospect(day, p), day };
}

/** Where `a`, cheaper for polled kids, stops being cheaper than `b`; `undefined` if it never does. */
function crossing(a: Line, b: Line): number | undefined {
  const [atPolled, atHorned] = [b.ifPolled - a.ifPolled, b.ifHorned - a.ifHorned];
  if (atHorned >= 0) return undefined;
  return Math.max(0, atPolled / (atPolled - atHorned));
}

/** Where `list` becomes cheaper than `look`, at or above `from`; 1 if it never does. */
function crossingAbove(look: Line, list: Line, from: number): number {
  const p = crossing(look, list);
  return p === undefined ? 1 : Math.max(from, p);
}

import { present } from "@pollard/base";

/** An end of the matter: what it costs if the kid is horned, and if it is polled. */
export interface Ending {
  readonly horned: number;
  readonly polled: number;
  /** Whether the kid is left for good or done by the vet. */
  readonly kind: "leave" | "vet-list";
}

/**
 * The endings that are cheapest for some chance of horns, and where each gives way to the next.
 *
 * Shape: `endings` by rising cost if horned (and falling cost if polled). `turns[q]` is the ratio of horned to polled
 *        weight at and above which `endings[q]` is no dearer than `endings[q + 1]`; falling, one fewer than the endings.
 */
export interface EndingEnvelope {
  readonly endings: readonly Ending[];
  readonly turns: Float64Array;
}

/** The lower envelope of the endings' losses, each a straight line in the chance of horns. */
export function envelope(open: readonly Ending[]): EndingEnvelope {
  const rising = [...open].sort((a, b) => a.horned - b.horned || a.polled - b.polled);
  const kept: Ending[] = [];
  const turns: number[] = [];
  for (const e of rising) {
    if (kept.length > 0 && e.polled >= present(kept.at(-1), "ending").polled) continue; // never cheaper
    while (kept.length > 0) {
      const turn = turnBetween(present(kept.at(-1), "ending"), e);
      if (turns.length === 0 || turn < present(turns.at(-1), "turn")) {
        turns.push(turn);
        break;
      }
      kept.pop(); // gives way to `e` before it has taken over from the one before
      turns.pop();
    }
    kept.push(e);
  }
  return { endings: kept, turns: Float64Array.from(turns) };
}

/** Horned-to-polled ratio from which `a`, dearer for polled kids, is no dearer than `b`. */
const turnBetween = (a: Ending, b: Ending): number => (a.polled - b.polled) / (b.horned - a.horned);

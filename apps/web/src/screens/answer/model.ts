import {
  countedOf,
  recounted,
  type Counted,
  type HornsBelief,
  type KidAdvice,
  type KidModel,
  type WeighedAction,
} from "@pollard/advice";
import type { Probability } from "@pollard/base";
import type { Sided } from "@pollard/husbandry";

/** What the page of one head's answer shows, besides the words. */
export interface AnswerPage {
  /** Everything on the page is counted on this one denominator (rule UI-11). */
  readonly of: Counted["of"];
  readonly horns: Counted;
  readonly low: Counted;
  readonly high: Counted;
  readonly forecast: Counted;
  /** By the tables that the herd began with. */
  readonly unlearnt: Counted;
  readonly leaveUpTo: Counted | undefined;
  readonly listFrom: Counted | undefined;
  readonly readers: readonly string[];
}

/** The page of a head that has been read; nothing while it has not (rule UI-7). */
export function answerPage(kid: KidModel): AnswerPage | undefined {
  const { belief } = kid;
  if (belief === undefined) return undefined;
  const of = denominator(belief);
  const on = (chance: Probability): Counted => countedOf(chance, of);
  const turning = isOpen(kid.advice) ? kid.advice : undefined;
  return {
    of,
    horns: recounted(belief.counted, belief.horns, of),
    low: on(belief.low),
    high: on(belief.high),
    forecast: on(belief.forecast),
    unlearnt: on(belief.unlearnt),
    leaveUpTo: turning?.leaveUpTo === undefined ? undefined : on(turning.leaveUpTo),
    listFrom: turning?.listFrom === undefined ? undefined : on(turning.listFrom),
    readers: belief.readers,
  };
}

/** Quarters cannot carry a range beside them: where the belief is counted in 4, the page counts in 20. */
const denominator = (belief: HornsBelief): Counted["of"] => (belief.counted.of === 4 ? 20 : belief.counted.of);

/** Advice that is still open to change. */
export type OpenAdvice = Extract<KidAdvice, { readonly kind: "leave" | "look-again" | "vet-list" }>;

/** Is there still something to choose? */
export const isOpen = (advice: KidAdvice): advice is OpenAdvice =>
  advice.kind === "leave" || advice.kind === "look-again" || advice.kind === "vet-list";

/** Of each thing that could be done, the best day for it; in the order given, the advised one first. */
export function bestOfEach(actions: readonly WeighedAction[]): readonly WeighedAction[] {
  return actions.filter((action, at) => {
    const sameKind = actions.filter((other) => other.kind === action.kind);
    const best = Math.min(...sameKind.map((other) => other.expectedLoss));
    return at === actions.findIndex((other) => other.kind === action.kind && other.expectedLoss === best);
  });
}

/** The finding to draw for a sign: the one for both sides, else the side that was answered. */
export const findingDrawn = (finding: Sided<string>): string | undefined =>
  "both" in finding ? finding.both : (finding.left ?? finding.right);

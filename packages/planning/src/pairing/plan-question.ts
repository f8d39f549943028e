import type { Sourced } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";

/** A buck that may be used, and how much. */
export interface PlanBuck {
  readonly id: AnimalId;
  /** Does that he is to get at least, and can serve at most. */
  readonly least: number;
  readonly most: number;
  /** What keeping or hiring him costs if he is used at all, in the unit of the losses. */
  readonly cost: number;
}

/** What one doe with one buck would mean. */
export interface PlanPair {
  /** Expected loss of this pair, in the keeper's own terms; the less the better, below 0 is a gain. */
  readonly loss: number;
  /** Inbreeding coefficient of the kids. */
  readonly inbreeding: number;
  /** Chance that a kid is intersex. */
  readonly intersex: number;
  /** Chance that both are polled. */
  readonly bothPolled: number;
}

/**
 * Which buck for which doe, with every rule of the keeper's.
 *
 * Shape: `pairs[i][j]` is doe `i` with buck `j`. `kinship` is over the does, then the bucks, itself included.
 */
export interface PlanQuestion {
  readonly does: readonly AnimalId[];
  readonly bucks: readonly PlanBuck[];
  readonly pairs: readonly (readonly PlanPair[])[];
  /** What a doe that is left open costs; without it every doe is to be served. */
  readonly openDoe?: number;
  /** Highest inbreeding of kids, and highest chance of an intersex kid, that any pair may have. */
  readonly inbreedingCeiling?: number;
  readonly intersexCeiling?: number;
  /** Whether two parents that are likelier polled than not may be paired. */
  readonly polledTogether: "never" | "allowed";
  readonly must: readonly PairWish[];
  readonly never: readonly PairWish[];
  /** What it is worth to keep the kids unrelated: weight of their mean kinship, in the unit of the losses. */
  readonly crop?: { readonly weight: number; readonly kinship: readonly (readonly number[])[] };
}

/** A doe and a buck by name. */
export interface PairWish {
  readonly doe: AnimalId;
  readonly buck: AnimalId;
}

/** One rule that a plan keeps. What a plan costs without it can be told, and which rules contradict each other. */
export type PlanRule =
  | { readonly kind: "serve"; readonly doe: AnimalId }
  | { readonly kind: "most"; readonly buck: AnimalId; readonly most: number }
  | { readonly kind: "least"; readonly buck: AnimalId; readonly least: number }
  | ({ readonly kind: "must" } & PairWish)
  | ({ readonly kind: "never" } & PairWish)
  | { readonly kind: "inbreeding-ceiling"; readonly ceiling: number }
  | { readonly kind: "intersex-ceiling"; readonly ceiling: number }
  | { readonly kind: "polled-together" };

/** Two parents count as polled together where it is likelier than not that both are. */
const BOTH_POLLED: Sourced<number> = { value: 0.5, source: "judgement", checked: "judgement" };

/** Every rule of a question, one by one, in a fixed order. */
export function planRules(question: PlanQuestion): readonly PlanRule[] {
  const { does, bucks, must, never, inbreedingCeiling, intersexCeiling } = question;
  return [
    ...(question.polledTogether === "never" ? [{ kind: "polled-together" } as const] : []),
    ...(intersexCeiling === undefined ? [] : [{ kind: "intersex-ceiling", ceiling: intersexCeiling } as const]),
    ...(inbreedingCeiling === undefined ? [] : [{ kind: "inbreeding-ceiling", ceiling: inbreedingCeiling } as const]),
    ...must.map((wish) => ({ kind: "must", ...wish }) as const),
    ...never.map((wish) => ({ kind: "never", ...wish }) as const),
    ...bucks.map(({ id, most }) => ({ kind: "most", buck: id, most }) as const),
    ...bucks.filter((b) => b.least > 0).map(({ id, least }) => ({ kind: "least", buck: id, least }) as const),
    ...(question.openDoe === undefined ? does.map((doe) => ({ kind: "serve", doe }) as const) : []),
  ];
}

/** Whether this rule alone forbids this pair, whatever the rest of the plan. */
export function forbids(question: PlanQuestion, rule: PlanRule, doe: number, buck: number): boolean {
  const pair = question.pairs[doe]?.[buck];
  if (pair === undefined) return true;
  switch (rule.kind) {
    case "inbreeding-ceiling":
      return pair.inbreeding > rule.ceiling;
    case "intersex-ceiling":
      return pair.intersex > rule.ceiling;
    case "polled-together":
      return pair.bothPolled >= BOTH_POLLED.value;
    case "never":
      return question.does[doe] === rule.doe && question.bucks[buck]?.id === rule.buck;
    case "must":
      return question.does[doe] === rule.doe && question.bucks[buck]?.id !== rule.buck;
    case "serve":
    case "most":
    case "least":
      return false;
  }
}

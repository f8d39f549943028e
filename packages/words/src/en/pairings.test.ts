import type {
  AnimalRef,
  Counted,
  NotBred,
  PairModel,
  PairReasonModel,
  PlanModel,
  PlanRuleModel,
} from "@pollard/advice";
import { probability } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { describe, expect, test } from "vitest";
import type { Catalogue } from "../catalogue.ts";
import { forecasts } from "./forecast.ts";
import { pairings } from "./pairings.ts";
import { CATALOGUES, expectPlain } from "../testing.ts";

const ref = (name: string, over: Partial<AnimalRef> = {}): AnimalRef => ({
  id: animalId(name),
  name,
  tag: undefined,
  mark: undefined,
  sex: "doe",
  damName: undefined,
  ...over,
});
const [fern, rook, flint] = [ref("Fern"), ref("Rook"), ref("Flint")];
const about = (count: number, of: Counted["of"]): Counted => ({ of, count, sense: "about" });
const pair = (part: Partial<PairModel> = {}): PairModel => ({
  doe: fern,
  buck: rook,
  horned: probability(0.5),
  intersex: probability(0.003),
  infertile: probability(0.003),
  bothPolled: probability(0),
  fertile: probability(1),
  hornedCounted: about(2, 4),
  intersexCounted: { of: 100, count: 0, sense: "under-one" },
  maybe: [],
  ofTen: { mean: 5, low: 2, high: 8, luck: 1.6, doubt: 0 },
  kids: 1.9,
  inbreeding: 0.125,
  commonAncestors: [{ animal: flint, share: 0.125 }],
  loci: [],
  losses: { horned: 1, heads: 0.1, intersex: 0, inbreeding: 1, barren: 0, merit: 0, total: 2.1 },
  closedBy: [],
  ...part,
});
const RULES: readonly PlanRuleModel[] = [
  { kind: "serve", doe: fern },
  { kind: "most", buck: rook, most: 1 },
  { kind: "least", buck: rook, least: 4 },
  { kind: "must", doe: fern, buck: rook },
  { kind: "never", doe: fern, buck: rook },
  { kind: "inbreeding-ceiling", ceiling: 0.1 },
  { kind: "intersex-ceiling", ceiling: 0.02 },
  { kind: "polled-together" },
];
const REASONS: readonly PairReasonModel[] = [
  ...RULES.map((rule): PairReasonModel => ({ kind: "forbidden", rules: [rule] })),
  { kind: "no-plan" },
  { kind: "as-good" },
  { kind: "costs", more: 0.4, own: 0.4, most: "horned" },
  { kind: "costs", more: 0.4, own: -0.1, most: "horned" },
];
const PLANS: readonly PlanModel[] = [
  { kind: "nobody-to-pair", lack: "does" },
  { kind: "nobody-to-pair", lack: "bucks" },
  { kind: "no-plan", conflict: RULES },
];
const spread = (low: number, median: number, high: number) => ({ low, median, high, mean: median });
const counts = { seen: 3, of: 9, mean: 4, low: 2, high: 6, p: probability(0.3) };

const textsOf = ({ pairings, forecasts, reviews }: Catalogue): readonly string[] => [
  ...RULES.map(pairings.rule),
  ...REASONS.map(pairings.reason),
  ...PLANS.flatMap(pairings.plan),
  pairings.pair(pair()),
  pairings.pair(pair({ fertile: probability(0) })),
  pairings.kin(pair()),
  pairings.kin(pair({ inbreeding: 0 })),
  pairings.luckAndDoubt(pair()),
  pairings.nextPlan({ more: 0.3, asGood: false, changes: [{ doe: fern, from: rook, to: flint }] }),
  ...RULES.map((rule) => pairings.price({ rule, gain: 0.4 })),
  ...pairings.leftOut([
    { animal: fern, why: "too-young" },
    { animal: rook, why: "intersex-not-ruled-out" },
  ]),
  ...(["worth-it", "not-worth-it", "known-already"] as const).map((advice) =>
    pairings.testWorth({ animals: [rook], worth: 0.3, price: 0.5, advice, results: [] }),
  ),
  pairings.wishAside({ doe: fern, buck: rook }),
  pairings.unit,
  pairings.caution,
  ...forecasts.note({ years: 5, runs: 300, seed: 1, policies: [], money: "not-said" }),
  ...(["as-expected", "unusual", "very-unusual"] as const).map((verdict) =>
    reviews.seen("Horned, of heads that are known", { ...counts, verdict }),
  ),
  reviews.surprise({
    kid: fern,
    head: "polled",
    from: "dna-test",
    expected: probability(0.002),
    explanations: [
      { kind: "other-sire", chance: probability(0.9), counted: about(9, 10) },
      { kind: "misread", chance: probability(0.1), counted: about(1, 10) },
    ],
  }),
];

describe("pairings, forecasts and reviews in words", () => {
  test.each(CATALOGUES)("[WO-1] no sentence has more than 15 words: %s", (_, catalogue) => {
    const texts = textsOf(catalogue);
    expectPlain(texts.flatMap((text) => text.split(/(?<=;) /)));
    expect(texts.length).toBeGreaterThan(40);
  });

  test.each(CATALOGUES)("[UI-348] of whom intersex is in doubt it is said what settles it: %s", (_, catalogue) => {
    const saidOf = (why: NotBred) => catalogue.pairings.leftOut([{ animal: fern, why }]);
    const doubted = saidOf("intersex-not-ruled-out");
    expect(doubted[0]).toContain("Fern");
    expect(doubted).toHaveLength(2);
    expect([saidOf("too-young").length, saidOf("cannot-breed").length]).toEqual([1, 1]);
  });

  test("[WO-2] a pair is said with both sides", () => {
    expect(pairings.pair(pair())).toBe(
      "About 2 in 4 kids grow horns; about 2 in 4 stay hornless. Intersex: fewer than 1 in 100.",
    );
  });

  test("[WO-3] none and all only where it is proven", () => {
    const proven = pair({ hornedCounted: { of: 4, count: 0, sense: "proven" } });
    expect(pairings.pair(proven)).toContain("No kid grows horns.");
    expect(pairings.pair(pair({ hornedCounted: { of: 100, count: 0, sense: "under-one" } }))).not.toContain("No kid");
  });

  test("[WO-7] a number that is only expected has its range beside it", () => {
    expect(pairings.kids({ mean: 5.6, low: 3, high: 9 })).toBe("about 6, 3 to 9");
    expect(forecasts.spread("horned", spread(8, 12, 16))).toBe("12 (8 to 16)");
    expect(forecasts.spread("polledKids", spread(0.35, 0.5, 0.65))).toBe("5 (4 to 7)");
  });
});

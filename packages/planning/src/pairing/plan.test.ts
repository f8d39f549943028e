import { present } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import fc from "fast-check";
import { beforeAll, describe, expect, test } from "vitest";
import assignment from "../../published/assignment.json" with { type: "json" };
import milp from "../../published/milp-pairing.json" with { type: "json" };
import { loadSolver, type ProgramSolver } from "../solver.ts";
import { aPlanQuestion } from "../testing.ts";
import { smallestConflict } from "./plan-conflict.ts";
import { AS_GOOD, bestPlan, planPairings } from "./plan.ts";
import { whyNot } from "./plan-reason.ts";
import { type BuckOf, brokenRules, cropKinship, planLoss } from "./plan-loss.ts";
import { type PlanQuestion, planRules, type PlanRule } from "./plan-question.ts";

let solver: ProgramSolver;
beforeAll(async () => {
  solver = await loadSolver();
});

/** Every plan there is, whatever the rules. */
function everyPlan({ does, bucks }: PlanQuestion): BuckOf[] {
  let plans: BuckOf[] = [[]];
  for (const _ of does)
    plans = plans.flatMap((plan) => [undefined, ...bucks.keys()].map((b) => [...plan, b] as BuckOf));
  return plans;
}

const keeps = (question: PlanQuestion, rules: readonly PlanRule[]) => (plan: BuckOf) =>
  brokenRules(question, rules, plan).length === 0;

/** The slow way: look at every plan. */
function bestBySight(question: PlanQuestion, rules = planRules(question)): number | undefined {
  const losses = everyPlan(question)
    .filter(keeps(question, rules))
    .map((plan) => planLoss(question, plan).total);
  return losses.length === 0 ? undefined : Math.min(...losses);
}

/** The slow way: every set of rules, the smallest first. */
function conflictSize(question: PlanQuestion): number {
  const rules = planRules(question);
  const plans = everyPlan(question);
  const sets = Array.from({ length: 2 ** rules.length }, (_, bits) => rules.filter((_, r) => (bits >> r) & 1));
  const against = sets.filter((set) => !plans.some(keeps(question, set)));
  return Math.min(Number.POSITIVE_INFINITY, ...against.map((set) => set.length));
}

const isEqual = (a: PlanRule, b: PlanRule): boolean => JSON.stringify(a) === JSON.stringify(b);

const names = (letter: string, count: number) => Array.from({ length: count }, (_, i) => animalId(`${letter}${i}`));

const share = fc.integer({ min: 0, max: 20 }).map((n) => n / 20);
const anyQuestion = (most: { does: number; bucks: number }): fc.Arbitrary<PlanQuestion> =>
  fc
    .tuple(fc.integer({ min: 1, max: most.does }), fc.integer({ min: 1, max: most.bucks }))
    .chain(([d, b]) =>
      fc.record({
        pairs: fc.array(
          fc.array(fc.record({ loss: share, inbreeding: share, intersex: share, bothPolled: share }), {
            minLength: b,
            maxLength: b,
          }),
          { minLength: d, maxLength: d },
        ),
        bucks: fc
          .array(fc.record({ least: fc.nat(1), most: fc.integer({ min: 1, max: d }), cost: share }), {
            minLength: b,
            maxLength: b,
          })
          .map((list) => list.map((buck, i) => ({ ...buck, id: animalId(`b${i}`) }))),
        open: fc.option(share),
        ceilings: fc.tuple(fc.option(share), fc.option(share)),
        polledTogether: fc.constantFrom("never" as const, "allowed" as const),
        wishes: fc.array(fc.tuple(fc.nat(d - 1), fc.nat(b - 1), fc.boolean()), { maxLength: 2 }),
      }),
    )
    .map(({ pairs, bucks, open, ceilings: [inbreeding, intersex], polledTogether, wishes }) => {
      const does = names("d", pairs.length);
      const wish = (list: typeof wishes) =>
        list.map(([d, b]) => ({ doe: present(does[d], "doe"), buck: present(bucks[b], "buck").id }));
      return aPlanQuestion({
        does,
        bucks,
        pairs,
        ...(open === null ? {} : { openDoe: open }),
        ...(inbreeding === null ? {} : { inbreedingCeiling: inbreeding }),
        ...(intersex === null ? {} : { intersexCeiling: intersex }),
        polledTogether,
        must: wish(wishes.filter(([, , must]) => must)),
        never: wish(wishes.filter(([, , must]) => !must)),
      });
    });

describe("planPairings", () => {
  const pair = (loss: number, more: Partial<PlanQuestion["pairs"][number][number]> = {}) => ({
    loss,
    inbreeding: 0,
    intersex: 0,
    bothPolled: 0,
    ...more,
  });

  test("[PA-4] two polled parents are not paired, however good it looks; nor above a ceiling", () => {
    const pairs = [[pair(0.1, { bothPolled: 0.9 }), pair(2)]];
    const best = (over: Partial<PlanQuestion>) => {
      const answer = planPairings(aPlanQuestion({ pairs, ...over }), solver);
      return answer.kind === "plan" ? answer.best.buckOf : answer.conflict;
    };
    expect(best({})).toEqual([1]);
    expect(best({ polledTogether: "allowed" })).toEqual([0]);
    expect(best({ pairs: [[pair(0.1, { inbreeding: 0.125 }), pair(2)]], inbreedingCeiling: 0.1 })).toEqual([1]);
    expect(best({ pairs: [[pair(0.1, { intersex: 0.06 }), pair(2)]], intersexCeiling: 0.02 })).toEqual([1]);
  });

  test("[PA-4] a wish is kept, and a doe may be left open where that is allowed", () => {
    const pairs = [
      [pair(1), pair(3)],
      [pair(1), pair(3)],
    ];
    const [a, b] = names("d", 2);
    const [x, y] = names("b", 2);
    if (!a || !b || !x || !y) throw new Error("names");
    const of = (over: Partial<PlanQuestion>) => {
      const answer = planPairings(aPlanQuestion({ pairs, ...over }), solver);
      return answer.kind === "plan" ? answer.best.buckOf : undefined;
    };
    expect(of({ must: [{ doe: a, buck: y }] })).toEqual([1, 0]);
    expect(of({ never: [{ doe: b, buck: x }] })).toEqual([0, 1]);
    expect(of({ never: [{ doe: b, buck: x }], openDoe: 2 })).toEqual([0, undefined]);
  });

  test("[PA-6] what a rule costs is told: the best plan with it, less the best without it", () => {
    const pairs = [
      [pair(0.5, { inbreeding: 0.2 }), pair(1.5)],
      [pair(0.5), pair(0.5)],
    ];
    const answer = planPairings(aPlanQuestion({ pairs, inbreedingCeiling: 0.1 }), solver);
    expect(answer).toMatchObject({
      kind: "plan",
      prices: [{ rule: { kind: "inbreeding-ceiling", ceiling: 0.1 }, gain: expect.closeTo(1, 9) as number }],
    });
  });

  test("[PA-6] where keeping a buck costs, even a limit that is not reached has its price: one buck could do it all", () => {
    const pairs = names("d", 3).map(() => [pair(0), pair(0)]);
    const bucks = [0, 1].map((i) => ({ ...buck(i, 2), cost: 1 }));
    const answer = planPairings(aPlanQuestion({ pairs, bucks }), solver);
    if (answer.kind !== "plan") throw new Error("no plan");
    expect(answer.prices.map((p) => [p.rule.kind, p.gain])).toEqual([
      ["most", 1],
      ["most", 1],
    ]);
  });

  test("[PA-6] a plan that costs next to nothing more is as good, and it really differs", () => {
    const pairs = Array.from({ length: 20 }, () => [pair(1), pair(1.001)]);
    const answer = planPairings(aPlanQuestion({ pairs, bucks: [10, 20].map((most, i) => buck(i, most)) }), solver);
    if (answer.kind !== "plan") throw new Error("no plan");
    expect(answer.next).toHaveLength(3);
    for (const { asGood, differs } of answer.next) {
      expect(asGood).toBe(true);
      expect(differs.length).toBeGreaterThanOrEqual(2);
    }
  });

  test("[PA-7] no plan: the two wishes that contradict each other are named, and nothing else", () => {
    const [doe] = names("d", 1);
    const [x, y] = names("b", 2);
    if (!doe || !x || !y) throw new Error("names");
    const question = aPlanQuestion({
      pairs: [
        [pair(1), pair(1)],
        [pair(1), pair(1)],
      ],
      must: [
        { doe, buck: x },
        { doe, buck: y },
      ],
    });
    const answer = planPairings(question, solver);
    expect(answer).toEqual({
      kind: "no-plan",
      conflict: [
        { kind: "must", doe, buck: x },
        { kind: "must", doe, buck: y },
      ],
    });
  });

  test("[PA-7] four does, one buck who can serve three: he is named with the four does", () => {
    const question = aPlanQuestion({ pairs: names("d", 4).map(() => [pair(1)]), bucks: [buck(0, 3)] });
    const answer = planPairings(question, solver);
    expect(answer.kind === "no-plan" && answer.conflict.map(({ kind }) => kind)).toEqual([
      "most",
      "serve",
      "serve",
      "serve",
      "serve",
    ]);
  });

  test("[PA-4] no does, no bucks: an empty plan, not a fault", () => {
    const answer = planPairings(aPlanQuestion({ pairs: [], bucks: [], does: [] }), solver);
    expect(answer).toMatchObject({ kind: "plan", best: { buckOf: [], loss: { total: 0 } }, next: [], prices: [] });
  });

  test("[PA-8] why not the other buck: a rule, nobody would notice, it costs, or he has no room for her", () => {
    const question = aPlanQuestion({
      pairs: [
        [pair(1), pair(1.01), pair(1, { bothPolled: 1 }), pair(3)],
        [pair(0.5), pair(1), pair(9), pair(9)],
      ],
      bucks: [0, 1, 2, 3].map((i) => buck(i, 1)),
    });
    const answer = planPairings(question, solver);
    if (answer.kind !== "plan") throw new Error("no plan");
    expect(answer.best.buckOf).toEqual([1, 0]);
    const why = (d: number, b: number) => whyNot(question, answer.best, d, b, solver);
    expect(why(0, 2)).toEqual({ kind: "forbidden", rules: [{ kind: "polled-together" }] });
    expect(why(0, 3)).toEqual({ kind: "costs", more: expect.closeTo(1.99, 9), own: expect.closeTo(1.99, 9) });
    // He would suit her a hair better, but the other doe would have to give way and pay for it.
    expect(why(0, 0)).toEqual({ kind: "costs", more: expect.closeTo(0.49, 9), own: expect.closeTo(-0.01, 9) });
    const twins = aPlanQuestion({ pairs: [[pair(1), pair(1.01)]] });
    const one = planPairings(twins, solver);
    expect(one.kind === "plan" && whyNot(twins, one.best, 0, 1, solver).kind).toBe("as-good");
    const busy = { ...twins, bucks: [buck(0, 1), buck(1, 0)] };
    const only = planPairings(busy, solver);
    expect(only.kind === "plan" && whyNot(busy, only.best, 0, 1, solver).kind).toBe("no-plan");
  });

  const buck = (i: number, most: number) => ({ id: animalId(`b${i}`), least: 0, most, cost: 0 });

  describe("laws", () => {
    test("[PA-5] the plan found is as good as the best of all plans, and keeps every rule", () => {
      fc.assert(
        fc.property(anyQuestion({ does: 4, bucks: 3 }), (question) => {
          const found = bestPlan(question, planRules(question), solver);
          const slow = bestBySight(question);
          if (slow === undefined) expect(found).toBeUndefined();
          else expect(found?.plan.loss.total).toBeCloseTo(slow, 6);
        }),
        { numRuns: 60 },
      );
    });

    test("[PA-5] with a weight on the kids' kinship, too: no plan of all is better than the gap says", () => {
      fc.assert(
        fc.property(
          anyQuestion({ does: 4, bucks: 3 }),
          fc.array(fc.array(fc.integer({ min: -4, max: 4 }), { minLength: 3, maxLength: 3 }), {
            minLength: 7,
            maxLength: 7,
          }),
          (base, roots) => {
            // A product of a matrix with its own transpose is convex, as every kinship is.
            const n = base.does.length + base.bucks.length;
            const kinship = Array.from({ length: n }, (_, i) =>
              Array.from({ length: n }, (_, j) =>
                (roots[i] ?? []).reduce((s, x, k) => s + Math.abs(x * (roots[j]?.[k] ?? 0)) / 30, 0),
              ),
            );
            const question = { ...base, crop: { weight: 5, kinship } };
            const found = bestPlan(question, planRules(question), solver);
            const slow = bestBySight(question);
            if (slow === undefined || found === undefined) {
              expect(found).toBe(slow);
              return;
            }
            expect(found.plan.loss.crop).toBeCloseTo(5 * cropKinship(question, found.plan.buckOf), 9);
            expect(found.plan.loss.total).toBeGreaterThanOrEqual(slow - 1e-6);
            expect(found.plan.loss.total - slow).toBeLessThanOrEqual(found.gap + 1e-6);
          },
        ),
        { numRuns: 40 },
      );
    });

    test("[PA-6] the next-best plan is the best of all that really differ", () => {
      fc.assert(
        fc.property(anyQuestion({ does: 3, bucks: 3 }), (question) => {
          const answer = planPairings(question, solver);
          if (answer.kind !== "plan") return;
          const { best, next } = answer;
          const others = everyPlan(question)
            .filter(keeps(question, planRules(question)))
            .filter((plan) => plan.some((b, d) => b !== best.buckOf[d]))
            .map((plan) => planLoss(question, plan).total);
          if (others.length === 0) expect(next).toEqual([]);
          else expect(next[0]?.loss.total).toBeCloseTo(Math.min(...others), 6);
        }),
        { numRuns: 30 },
      );
    });

    test("[PA-6] every rule that costs something is told, with what the best of all plans would gain without it", () => {
      let told = 0;
      fc.assert(
        fc.property(anyQuestion({ does: 3, bucks: 3 }), fc.boolean(), (base, isFree) => {
          const question = isFree ? { ...base, bucks: base.bucks.map((b) => ({ ...b, cost: 0 })) } : base;
          const answer = planPairings(question, solver);
          if (answer.kind !== "plan") return;
          const rules = planRules(question);
          for (const rule of rules.filter((r) => r.kind !== "serve")) {
            const without = bestBySight(
              question,
              rules.filter((other) => other !== rule),
            );
            const gain = answer.best.loss.total - (without ?? Number.NaN);
            const price = answer.prices.find((p) => p.rule.kind === rule.kind && isEqual(p.rule, rule));
            if (gain > AS_GOOD.value + 1e-6) expect(price?.gain).toBeCloseTo(gain, 6);
            if (gain < AS_GOOD.value - 1e-6) expect(price).toBeUndefined();
            if (price !== undefined) told++;
          }
        }),
        { numRuns: 40 },
      );
      expect(told).toBeGreaterThan(5);
    });

    test("[PA-7] a conflict is as small as any, and really is one", () => {
      let seen = 0;
      fc.assert(
        fc.property(anyQuestion({ does: 3, bucks: 2 }), (question) => {
          const rules = planRules(question);
          if (rules.length > 9) return;
          const conflict = smallestConflict(question, rules, solver);
          const size = conflictSize(question);
          if (size === Number.POSITIVE_INFINITY) {
            expect(conflict).toEqual([]);
            return;
          }
          seen++;
          expect(conflict).toHaveLength(size);
          expect(everyPlan(question).some(keeps(question, conflict))).toBe(false);
        }),
        { numRuns: 60 },
      );
      expect(seen).toBeGreaterThan(5);
    });
  });

  describe("published", () => {
    test.each(assignment.cases)("[PA-5] assignment $id: the printed optimum", ({ cost, forbidden, optimum }) => {
      const does = names("d", cost.length);
      const bucks = (cost[0] ?? []).map((_, i) => buck(i, 1));
      const never = forbidden.map(([d, b]) => ({
        doe: present(does[d ?? -1], "doe"),
        buck: present(bucks[b ?? -1], "buck").id,
      }));
      const question = aPlanQuestion({ does, bucks, never, pairs: cost.map((row) => row.map((loss) => pair(loss))) });
      const found = bestPlan(question, planRules(question), solver);
      if (optimum === null) expect(found).toBeUndefined();
      else expect(found?.plan.loss.total).toBeCloseTo(optimum, 6);
    });

    test.each(milp.cases)("[PA-5] pairing program $id: the optimum of three other solvers", (given) => {
      const question = aPlanQuestion({
        pairs: given.kinship.map((row, d) =>
          row.map((kinship, b) =>
            pair(kinship + given.lambda * present(given.pHorned[d]?.[b], "pHorned"), { inbreeding: kinship }),
          ),
        ),
        bucks: (given.kinship[0] ?? []).map((_, i) => ({
          ...buck(i, given.capacityPerBuck),
          cost: given.fixedCostPerBuckUsed,
        })),
        inbreedingCeiling: given.kinshipLimit,
      });
      const found = bestPlan(question, planRules(question), solver);
      if (given.optimum === null) expect(found).toBeUndefined();
      else expect(found?.plan.loss.total).toBeCloseTo(given.optimum, 6);
    });
  });
});

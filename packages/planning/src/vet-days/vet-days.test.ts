import { present, type Sourced } from "@pollard/base";
import { type VetWindow, windowOf } from "@pollard/husbandry";
import fc from "fast-check";
import { beforeAll, describe, expect, test } from "vitest";
import published from "../../published/visit-cover.json" with { type: "json" };
import { DEFAULT_LOSSES } from "../kid/kid-losses.ts";
import { loadSolver, type ProgramSolver } from "../solver.ts";
import { planVetDays, type VisitPlan, weighVisits } from "./vet-days.ts";
import type { ComingKids, VetDaysQuestion } from "./vet-days-question.ts";
import { planVetDaysWithin } from "./vet-days-within.ts";
import { visitHeads } from "./visit-heads.ts";

const doeling = windowOf("doe");
const buckling = windowOf("buck");

/** A doeling born on a day that surely grows horns, unless said otherwise. */
const kid = (id: string, bornIn: number, part: Partial<ComingKids> = {}): ComingKids => ({
  id,
  births: [{ inDays: bornIn, kids: 1, chance: 1 }],
  needs: 1,
  windows: [{ window: doeling, share: 1 }],
  ...part,
});

/** A litter of either sex, half of whose kids grow horns, due on some days. */
const litter = (id: string, births: ComingKids["births"], needs = 0.5): ComingKids => ({
  id,
  births,
  needs,
  windows: [
    { window: buckling, share: 0.5 },
    { window: doeling, share: 0.5 },
  ],
});

const upTo = (days: number): readonly number[] => Array.from({ length: days }, (_, i) => i);

const question = (part: Partial<VetDaysQuestion>): VetDaysQuestion => ({
  coming: [],
  open: upTo(40),
  fixed: [],
  visitLoss: 0.5,
  losses: DEFAULT_LOSSES.value,
  mostVisits: 8,
  ...part,
});

const visitsOf = (part: Partial<VetDaysQuestion>): readonly number[] => planVetDays(question(part)).best.visits;

/** The slow way: every birth, every sex, every kid by itself, over every set of days. */
function byEverySet(q: VetDaysQuestion): ReadonlyMap<number, number> {
  const days = [...new Set([...q.open, ...q.fixed])];
  const least = new Map<number, number>();
  for (let mask = 0; mask < 2 ** days.length; mask++) {
    const visits = days.filter((_, i) => (mask >> i) & 1).sort((a, b) => a - b);
    if (visits.length > q.mostVisits || q.fixed.some((day) => !visits.includes(day))) continue;
    let loss = visits.filter((day) => !q.fixed.includes(day)).length * q.visitLoss;
    for (const { births, needs, windows } of q.coming)
      for (const { inDays, kids, chance } of births)
        for (const { window, share } of windows) {
          if (inDays + window.end.value < 0) continue;
          const seen = visits.find((day) => day - inDays >= window.aimFrom.value);
          const age = seen === undefined ? Number.POSITIVE_INFINITY : seen - inDays;
          const each =
            age > window.end.value
              ? q.losses.missedHorns
              : q.losses.lateDay * (Math.max(0, age - window.aimTo.value) + Math.max(0, age - window.amberAfter.value));
          loss += kids * chance * needs * share * each;
        }
    least.set(visits.length, Math.min(loss, least.get(visits.length) ?? Number.POSITIVE_INFINITY));
  }
  return least;
}

const someKids: fc.Arbitrary<ComingKids> = fc
  .record({
    born: fc.array(fc.record({ inDays: fc.integer({ min: -9, max: 18 }), kids: fc.integer({ min: 1, max: 3 }) }), {
      minLength: 1,
      maxLength: 3,
    }),
    needs: fc.constantFrom(0.2, 0.5, 1),
  })
  .map(({ born, needs }) =>
    litter(
      "some",
      born.toSorted((a, b) => a.inDays - b.inDays).map((b) => ({ ...b, chance: 0.9 / born.length })),
      needs,
    ),
  );
const someQuestion = fc
  .record({
    coming: fc.array(someKids, { maxLength: 4 }),
    open: fc.uniqueArray(fc.integer({ min: 0, max: 30 }), { maxLength: 7 }),
    fixed: fc.uniqueArray(fc.integer({ min: 0, max: 30 }), { maxLength: 2 }),
    visitLoss: fc.constantFrom(0.1, 0.5, 2),
    mostVisits: fc.integer({ min: 2, max: 6 }),
  })
  .map((part) => question({ ...part, open: part.open.toSorted((a, b) => a - b) }));

let solver: ProgramSolver;
beforeAll(async () => {
  solver = await loadSolver();
});

describe("planVetDays", () => {
  test("[KD-30] nobody to come: no visit", () => {
    expect(visitsOf({})).toEqual([]);
  });

  test("[KD-30] one horned doeling: one visit, on the first of her best days", () => {
    expect(visitsOf({ coming: [kid("Moss", 0)] })).toEqual([5]);
  });

  test("[KD-30] two kids six days apart share a visit; twelve days apart they need two", () => {
    expect(visitsOf({ coming: [kid("Moss", 0), kid("Fern", 6)] })).toHaveLength(1);
    expect(visitsOf({ coming: [kid("Moss", 0), kid("Fern", 12)] })).toHaveLength(2);
  });

  test("[KD-30] a kid surely polled is worth no visit", () => {
    expect(visitsOf({ coming: [kid("Moss", 0, { needs: 0 })] })).toEqual([]);
  });

  test("[KD-31] only days on which the vet can come are asked for", () => {
    expect(visitsOf({ coming: [kid("Moss", 0)], open: [3, 8, 11] })).toEqual([8]);
  });

  test("[KD-31] a visit that is fixed is used, and costs nothing more", () => {
    const { best } = planVetDays(question({ coming: [kid("Moss", 0)], fixed: [7] }));
    expect(best.visits).toEqual([7]);
    expect(best.loss).toBe(0);
  });

  test("[KD-31] a kid whose window is over today changes no plan", () => {
    expect(visitsOf({ coming: [kid("Moss", -15)] })).toEqual([]);
    expect(visitsOf({ coming: [kid("Moss", -14)] })).toEqual([0]);
  });

  test("[KD-32] one visit fewer has its price in missed kids, one more gains days", () => {
    const coming = [kid("Moss", 0), kid("Fern", 0), kid("Reed", 14), kid("Alder", 15)];
    const { best, byCount } = planVetDays(question({ coming }));
    const of = (n: number) =>
      present(
        byCount.find((p) => p.visits.length === n),
        `${n} visits`,
      );
    expect(best.visits).toHaveLength(2);
    expect(of(1).missed).toBe(2);
    expect(of(3).lateDays).toBeLessThanOrEqual(best.lateDays);
  });

  test("[KD-33] a kid born early is late only from its due date's best days", () => {
    const early = kid("Moss", -9, { early: 7 });
    expect(weighVisits(question({ coming: [early] }), [1]).lateDays).toBe(0);
    expect(weighVisits(question({ coming: [kid("Moss", -9)] }), [1]).lateDays).toBe(3);
  });

  test("[KD-34] three sure heads are three; a litter that may not come has a range", () => {
    const [sure] = visitHeads(question({ coming: [kid("a", 0), kid("b", 0), kid("c", 1)] }), [6]);
    expect(sure).toMatchObject({ expected: 3, low: 3, high: 3 });
    const [open] = visitHeads(question({ coming: [litter("x", [{ inDays: 0, kids: 2, chance: 0.8 }])] }), [6]);
    expect(open?.expected).toBeCloseTo(0.8, 9);
    expect(open?.chances[0]).toBeCloseTo(0.2 + 0.8 * 0.25, 9);
    expect(open?.chances[2]).toBeCloseTo(0.8 * 0.25, 9);
    expect(open?.from).toEqual([{ id: "x", expected: open?.expected }]);
  });

  test("[KD-34] each kid is counted on the first visit of its window only", () => {
    const q = question({ coming: [kid("a", 0)] });
    expect(visitHeads(q, [6, 9]).map((v) => v.expected)).toEqual([1, 0]);
  });

  test("[KD-36] a buck who is PP or Pp: none of his kids needs the vet, or half of them", () => {
    const coming = ["Ash", "Elm", "Oak", "Yew"].map((id) => litter(id, [{ inDays: 0, kids: 2, chance: 1 }], 0.25));
    const worlds = [0, 0.5].map((needs) => ({ chance: 0.5, needs: new Map(coming.map(({ id }) => [id, needs])) }));
    const [apart] = visitHeads(question({ coming }), [6]);
    const [together] = visitHeads(question({ coming }), [6], worlds);
    expect(together?.expected).toBeCloseTo(2, 9);
    expect(apart?.expected).toBeCloseTo(2, 9);
    // Eight kids: none horned if he is PP; otherwise each with one half.
    expect(together?.chances[0]).toBeCloseTo(0.5 + 0.5 * 0.5 ** 8, 9);
    expect(together?.chances[8]).toBeCloseTo(0.5 * 0.5 ** 8, 9);
    expect(apart?.chances[0]).toBeCloseTo(0.75 ** 8, 9);
    expect(together?.high).toBeGreaterThan(apart?.high ?? 0);
  });

  describe("laws", () => {
    test("[KD-30] it equals trying every set of days, kid by kid", () => {
      fc.assert(
        fc.property(someQuestion, (q) => {
          const { best, byCount } = planVetDays(q);
          const slow = byEverySet({ ...q, mostVisits: Math.max(q.mostVisits, q.fixed.length) });
          expect(best.loss).toBeCloseTo(Math.min(...slow.values()), 9);
          for (const plan of byCount) {
            expect(plan.loss).toBeCloseTo(present(slow.get(plan.visits.length), "a count"), 9);
            expect(weighVisits(q, plan.visits)).toEqual(plan);
          }
          expect(byCount.map((p) => p.visits.length)).toEqual([...slow.keys()].sort((a, b) => a - b));
        }),
        { numRuns: 60 },
      );
    });

    test("[KD-34] heads over all visits and misses add up to all heads", () => {
      fc.assert(
        fc.property(someQuestion, (q) => {
          const { best } = planVetDays(q);
          const done = visitHeads(q, best.visits).reduce((sum, v) => sum + v.expected, 0);
          expect(done + best.missed).toBeCloseTo(best.heads, 9);
        }),
        { numRuns: 40 },
      );
    });

    test("[KD-34] the number of heads equals going through every birth, sex and horn", () => {
      fc.assert(
        fc.property(
          fc.array(someKids, { minLength: 1, maxLength: 2 }),
          fc.integer({ min: 5, max: 20 }),
          (coming, day) => {
            const [heads] = visitHeads(question({ coming }), [day]);
            const slow = new Map<number, number>();
            const go = (i: number, count: number, chance: number): void => {
              const own = coming[i];
              if (own === undefined) {
                slow.set(count, (slow.get(count) ?? 0) + chance);
                return;
              }
              go(i + 1, count, chance * (1 - own.births.reduce((s, b) => s + b.chance, 0)));
              for (const b of own.births)
                each(own, b.inDays, b.kids, 0, chance * b.chance, (n, p) => go(i + 1, count + n, p));
            };
            const each = (
              own: ComingKids,
              born: number,
              left: number,
              waiting: number,
              chance: number,
              then: (n: number, p: number) => void,
            ): void => {
              if (left === 0) return then(waiting, chance);
              for (const { window, share } of own.windows) {
                const ready = Math.max(0, born + window.aimFrom.value) <= day && day <= born + window.end.value;
                each(own, born, left - 1, waiting + (ready ? 1 : 0), chance * share * own.needs, then);
                each(own, born, left - 1, waiting, chance * share * (1 - own.needs), then);
              }
            };
            go(0, 0, 1);
            for (const [n, p] of slow) expect(heads?.chances[n] ?? 0).toBeCloseTo(p, 9);
          },
        ),
        { numRuns: 30 },
      );
    });

    test("[KD-35] a limit that nobody reaches changes nothing; a tighter one never helps", () => {
      fc.assert(
        fc.property(someQuestion, (q) => {
          const free = planVetDays({ ...q, mostVisits: 9 }).best;
          const wide = present(planVetDaysWithin(q, { heads: 1000 }, solver), "a plan");
          // Under a limit a kid may also wait for a later visit than its first: never worse.
          expect(wide.loss).toBeLessThanOrEqual(free.loss + 1e-6);
          expect(wide.loss).toBeGreaterThanOrEqual(free.loss - 1e-6);
          const tight = present(planVetDaysWithin(q, { heads: 1 }, solver), "a plan");
          expect(tight.loss).toBeGreaterThanOrEqual(wide.loss - 1e-6);
          for (const heads of tight.perVisit) expect(heads).toBeLessThanOrEqual(1 + 1e-3);
        }),
        { numRuns: 12 },
      );
    });
  });

  describe("published", () => {
    const plain = (value: number): Sourced<number> => ({ value, source: "judgement", checked: "judgement" });
    const between = ([from, to]: readonly number[]): ComingKids => {
      const length = plain(present(to, "end") - present(from, "start"));
      const window: VetWindow = {
        lookFrom: plain(0),
        aimFrom: plain(0),
        aimTo: length,
        amberAfter: length,
        end: length,
      };
      return { ...kid("kid", present(from, "start")), windows: [{ window, share: 1 }] };
    };
    const cover = ({ windows, closedDays }: (typeof published.cases)[number]): VetDaysQuestion =>
      question({
        coming: windows.map(between),
        open: upTo(90).filter((day) => !(closedDays as readonly number[]).includes(day)),
        visitLoss: 1,
        losses: { missedHorns: 1000, lateDay: 0 },
        mostVisits: 12,
      });
    const feasible = (plan: VisitPlan | undefined) => plan !== undefined && plan.missed < 1e-6;

    test.each(published.cases.filter((c) => c.capacityPerVisit === null))(
      "[KD-30] fewest visits that reach every window: $id",
      (given) => {
        const { best } = planVetDays(cover(given));
        expect(feasible(best)).toBe(given.feasible);
        if (given.feasible) expect(best.visits).toHaveLength(present(given.minVisits ?? undefined, "a number"));
      },
    );

    test.each(published.cases)("[KD-35] the same by the program, with its limit: $id", (given) => {
      const plan = planVetDaysWithin(cover(given), { heads: given.capacityPerVisit ?? 1000 }, solver);
      expect(feasible(plan)).toBe(given.feasible);
      if (given.feasible) expect(plan?.visits).toHaveLength(present(given.minVisits ?? undefined, "a number"));
    });
  });
});

import {
  type HeadReading,
  type HeadSigns,
  headNetwork,
  logLikelihoods,
  meanChances,
  windowOf,
} from "@pollard/husbandry";
import { BUD_FEELS, CROWNS, SKIN_HOLDS, WHORLS } from "@pollard/husbandry";
import { probability } from "@pollard/base";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { decideKid, type KidDecision } from "./kid-decision.ts";
import type { KidQuestion } from "./kid-endings.ts";
import { badLosses, DEFAULT_LOSSES, type KidLosses } from "./kid-losses.ts";
import { aBelief, afterReadings, aKidQuestion } from "../testing.ts";

const read = (ageDays: number, signs: HeadSigns): HeadReading => ({ reading: "r1", reader: "Oda", ageDays, signs });
const HORNED: HeadSigns = {
  feel: { both: "pointed" },
  skin: { both: "held-fast" },
  whorls: { both: "clear" },
  crown: "flat",
};
const POLLED: HeadSigns = {
  feel: { both: "nothing" },
  skin: { both: "slides" },
  whorls: { both: "none" },
  crown: "rounded-cap",
};

type Weighed = Exclude<KidDecision, { kind: "ring-vet" }>;
function weighed(question: KidQuestion): Weighed {
  const decision = decideKid(question);
  if (decision.kind === "ring-vet") throw new Error(`ring-vet by ${decision.rule}`);
  return decision;
}

/** Every answer a look can give. */
const ANSWERS: readonly HeadSigns[] = BUD_FEELS.flatMap((feel) =>
  SKIN_HOLDS.flatMap((skin) =>
    WHORLS.flatMap((whorl) =>
      CROWNS.map((crown) => ({ feel: { both: feel }, skin: { both: skin }, whorls: { both: whorl }, crown })),
    ),
  ),
);

/**
 * The slow way: every sequence of actions and answers, the head read anew after each answer, no shortcut taken.
 * Gives the least loss of each first action.
 */
function bySequences(q: KidQuestion): Map<string, number> {
  const network = headNetwork(q.kid, meanChances(q.tables));
  const now = logLikelihoods(network.after(q.readings));
  const early = q.fromDueDays === undefined ? 0 : Math.max(0, q.ageDays - q.fromDueDays);
  const visitLoss = (day: number, horned: number, polled: number): number | undefined => {
    const age = q.ageDays + day;
    const planned = q.visits.includes(day);
    if (age > q.window.end.value || age < q.window.lookFrom.value) return undefined;
    const lateDays =
      Math.max(0, age - q.window.aimTo.value - early) + Math.max(0, age - q.window.amberAfter.value - early);
    const earlyDays = Math.max(0, q.window.aimFrom.value - age);
    const each =
      horned * (q.losses.lateDay * lateDays + q.losses.earlyDay * earlyDays) + polled * q.losses.needlessDisbudding;
    return each + (planned ? 0 : (horned + polled) * q.losses.extraTrip);
  };
  const value = (
    coming: readonly HeadReading[],
    from: number,
    noticeFrom: number,
    looksLeft: number,
  ): Map<string, number> => {
    const then = logLikelihoods(network.after([...q.readings, ...coming]));
    const horned = q.belief.pp * Math.exp(then.pp - now.pp);
    const polled = q.belief.PP * Math.exp(then.PP - now.PP) + q.belief.Pp * Math.exp(then.Pp - now.Pp);
    const losses = new Map([["leave", horned * q.losses.missedHorns]]);
    for (let day = from; q.ageDays + day <= q.window.end.value; day++) {
      const loss = visitLoss(day, horned, polled);
      if (loss !== undefined && (q.visits.includes(day) || day >= noticeFrom)) losses.set(`vet ${day}`, loss);
    }
    if (looksLeft === 0) return losses;
    const readToday = [...q.readings, ...coming].some((r) => r.ageDays === q.ageDays + from);
    for (let day = readToday ? from + 1 : from; q.ageDays + day <= q.window.end.value; day++) {
      if (q.ageDays + day < q.window.lookFrom.value) continue;
      let loss = q.losses.look * (horned + polled);
      for (const signs of ANSWERS) {
        const fromDue = q.fromDueDays === undefined ? {} : { fromDueDays: q.fromDueDays + day };
        const reading = { reading: "coming", reader: "Oda", ageDays: q.ageDays + day, signs, ...fromDue };
        loss += Math.min(...value([...coming, reading], day, day + q.noticeDays, looksLeft - 1).values());
      }
      losses.set(`look ${day}`, loss);
    }
    return losses;
  };
  return value([], 0, q.noticeDays, q.maxLooks);
}

function expectAsBySequences(question: KidQuestion) {
  const slow = bySequences(question);
  const fast = weighed(question);
  const name = ({ action: a }: Weighed["actions"][number]) =>
    a.kind === "leave" ? "leave" : `${a.kind === "look-again" ? "look" : "vet"} ${a.inDays}`;
  expect(fast.actions.map(name).sort()).toEqual([...slow.keys()].sort());
  for (const action of fast.actions) expect(action.loss).toBeCloseTo(slow.get(name(action)) ?? Number.NaN, 9);
  expect(fast.prospect.loss).toBeCloseTo(Math.min(...slow.values()), 9);
}

describe("decideKid", () => {
  test("[KD-6] a buckling of three days with clear buds goes on the list for the first visit inside the best days", () => {
    const kid = { sex: "buck" } as const;
    const q = afterReadings(aKidQuestion({ kid, visits: [2, 9] }), [read(3, HORNED)]);
    expect(weighed(q)).toMatchObject({
      kind: "vet-list",
      rule: "KD-6",
      best: { inDays: 2, visit: "planned" },
      lookSaves: 0,
    });
  });

  test("[KD-6] certain horns inside the window: the list, for whichever visit costs least, a trip included", () => {
    const sure = (visits: number[]) => weighed(aKidQuestion({ belief: aBelief(0, 0, 1), visits })).best;
    expect(sure([3])).toEqual({ kind: "vet-list", inDays: 3, visit: "planned" });
    expect(sure([])).toEqual({ kind: "vet-list", inDays: 2, visit: "extra" });
    expect(sure([10])).toEqual({ kind: "vet-list", inDays: 2, visit: "extra" });
  });

  test("[KD-4] certain polled: leave it, whatever the day", () => {
    for (const ageDays of [0, 3, 9, 14, 15, 400]) {
      const d = weighed(aKidQuestion({ belief: aBelief(1, 1, 0), ageDays }));
      expect(d).toMatchObject({ kind: "leave", rule: "KD-4" });
    }
  });

  test("[KD-5] a doubtful doeling of two days is looked at again, later, and the look is expected to save something", () => {
    const d = weighed(aKidQuestion({ ageDays: 2 }));
    expect(d).toMatchObject({ kind: "look-again", rule: "KD-5" });
    expect(d.best).toMatchObject({ kind: "look-again" });
    expect(d.lookSaves).toBeGreaterThan(0.1);
  });

  test("[KD-5] a bare doeling of three days is looked at again; bare, sliding and unwhorled at nine days she is left", () => {
    const bare = { feel: { both: "nothing" } } as const;
    expect(weighed(afterReadings(aKidQuestion({ visits: [6] }), [read(3, bare)])).kind).toBe("look-again");
    const q = afterReadings(aKidQuestion({ ageDays: 9, visits: [2] }), [
      read(3, POLLED),
      { ...read(9, POLLED), reading: "r2" },
    ]);
    expect(weighed(q).kind).toBe("leave");
  });

  test("[KD-1] a tip that is through needs no second look", () => {
    const q = afterReadings(aKidQuestion({ ageDays: 6, visits: [1] }), [
      read(6, { ...HORNED, feel: { both: "tip-through" } }),
    ]);
    expect(weighed(q).kind).toBe("vet-list");
  });

  test("[KD-2] on the last day there is still a plan, a day later the answer is the vet's, and nothing else", () => {
    const q = (ageDays: number) => decideKid(aKidQuestion({ belief: aBelief(0, 0.01, 0.99), ageDays, visits: [0] }));
    expect(q(14).kind).toBe("vet-list");
    expect(q(15)).toEqual({ kind: "ring-vet", rule: "KD-2" });
    expect(decideKid(aKidQuestion({ belief: aBelief(0, 0.9, 0.1), ageDays: 40 }))).toEqual({
      kind: "ring-vet",
      rule: "KD-2",
    });
  });

  test("[KD-3] inside the window, but no visit can be had any more: ring the vet", () => {
    expect(decideKid(aKidQuestion({ ageDays: 14, visits: [] }))).toEqual({ kind: "ring-vet", rule: "KD-3" });
    expect(decideKid(aKidQuestion({ ageDays: 13, visits: [], noticeDays: 3 }))).toEqual({
      kind: "ring-vet",
      rule: "KD-3",
    });
  });

  test("[KD-7] where a missed kid weighs next to nothing, a doubtful kid is left, and the rule says why", () => {
    const losses = { ...DEFAULT_LOSSES.value, missedHorns: 0.01 };
    expect(weighed(aKidQuestion({ losses }))).toMatchObject({ kind: "leave", rule: "KD-7" });
  });

  test("[KD-9] among equals the one that does least to the kid is named, and the others are told", () => {
    const losses: KidLosses = { needlessDisbudding: 0, missedHorns: 0, lateDay: 0, earlyDay: 0, extraTrip: 0, look: 0 };
    const d = weighed(aKidQuestion({ ageDays: 13, visits: [0], losses, maxLooks: 1 }));
    expect(d.best).toEqual({ kind: "leave" });
    expect(d.ties.map((a) => a.kind)).toEqual(["look-again", "look-again", "vet-list", "vet-list"]);
  });

  test("[KD-11] a kid born six days early: day 9 is late by its birth, not yet by its due date", () => {
    const sure = { belief: aBelief(0, 0, 1), ageDays: 9, visits: [0] };
    const late = weighed(aKidQuestion(sure)).prospect.loss;
    const early = weighed(aKidQuestion({ ...sure, fromDueDays: 3 })).prospect.loss;
    expect(late).toBeGreaterThan(0.1);
    expect(early).toBe(0);
  });

  test("[KD-10] weights that make no sense are named", () => {
    expect(badLosses(DEFAULT_LOSSES.value)).toEqual([]);
    expect(badLosses({ ...DEFAULT_LOSSES.value, look: -1, extraTrip: Number.NaN })).toEqual(["extraTrip", "look"]);
  });

  test("[KD-10] weights or a belief that make no sense are our own mistake, never an answer", () => {
    expect(() => decideKid(aKidQuestion({ losses: { ...DEFAULT_LOSSES.value, look: Number.NaN } }))).toThrow("look");
    const half = { PP: probability(0), Pp: probability(0.2), pp: probability(0.3) };
    expect(() => decideKid(aKidQuestion({ belief: half }))).toThrow("sum to 1");
  });

  describe("laws", () => {
    test("[KD-1] one look at most: equals going through every action and answer", () => {
      fc.assert(
        fc.property(
          fc.record({
            sex: fc.constantFrom("doe", "buck", "unsure"),
            ageDays: fc.integer({ min: 0, max: 14 }),
            weights: fc.tuple(fc.nat(9), fc.nat(9), fc.integer({ min: 1, max: 9 })),
            visits: fc.uniqueArray(fc.nat(14), { maxLength: 3 }),
            early: fc.option(fc.integer({ min: 1, max: 8 })),
            noticeDays: fc.nat(2),
            readFirst: fc.boolean(),
          }),
          ({ sex, ageDays, weights: [PP, Pp, pp], visits, early, noticeDays, readFirst }) => {
            const base = aKidQuestion({
              kid: { sex },
              window: windowOf(sex),
              belief: aBelief(PP, Pp, pp),
              ageDays,
              ...(early === null ? {} : { fromDueDays: ageDays - early }),
              visits,
              noticeDays,
              maxLooks: 1,
            });
            const question = readFirst ? afterReadings(base, [read(ageDays, { feel: { both: "rounded" } })]) : base;
            if (decideKid(question).kind !== "ring-vet") expectAsBySequences(question);
          },
        ),
        { numRuns: 25 },
      );
    });

    test("[KD-1] two looks: equals going through every sequence of actions and answers", () => {
      const window = windowOf("doe", { doe: { end: 11 } });
      expectAsBySequences(aKidQuestion({ ageDays: 9, window, visits: [1] }));
      expectAsBySequences(
        afterReadings(aKidQuestion({ ageDays: 9, fromDueDays: 4, window, visits: [2], belief: aBelief(1, 2, 2) }), [
          read(9, { feel: { left: "rounded", right: "nothing" }, whorls: { both: "unclear" } }),
        ]),
      );
    });

    test("[KD-8] below the one turning point leaving is best, above the other the list, between them a look", () => {
      const cases = [
        afterReadings(aKidQuestion(), [read(3, { feel: { both: "rounded" } })]),
        aKidQuestion({ ageDays: 0, visits: [] }),
        aKidQuestion({ ageDays: 12, visits: [0, 1] }),
        aKidQuestion({ maxLooks: 0 }),
        aKidQuestion({ kid: { sex: "buck" }, ageDays: 5, visits: [0], losses: { ...DEFAULT_LOSSES.value, look: 0.4 } }),
      ];
      for (const q of cases) {
        const { leaveUpTo, listFrom } = weighed(q);
        if (leaveUpTo === undefined || listFrom === undefined) throw new Error("no turning point");
        expect(leaveUpTo).toBeLessThanOrEqual(listFrom);
        for (let k = 1; k <= 16; k++) {
          const p = (k - 0.5) / 16;
          const { kind } = weighed({ ...q, belief: aBelief(0, 1 - p, p) });
          expect([k, kind]).toEqual([k, p < leaveUpTo ? "leave" : p > listFrom ? "vet-list" : "look-again"]);
        }
      }
    });

    const anyQuestion = fc
      .record({
        sex: fc.constantFrom("doe", "buck", "intersex"),
        ageDays: fc.integer({ min: 0, max: 13 }),
        pp: fc.double({ min: 0.001, max: 0.999, noNaN: true }),
        visits: fc.uniqueArray(fc.nat(13), { maxLength: 2 }),
        feel: fc.option(fc.constantFrom(...BUD_FEELS)),
      })
      .map(({ sex, ageDays, pp, visits, feel }) => {
        const q = aKidQuestion({
          kid: { sex },
          window: windowOf(sex),
          ageDays,
          visits,
          belief: aBelief(0, 1 - pp, pp),
          maxLooks: 1,
        });
        return feel === null ? q : afterReadings(q, [read(ageDays, { feel: { both: feel } })]);
      });

    test("[KD-10] the dearer a missed kid, the less is left; the dearer a needless operation, the less is listed", () => {
      const rank = (q: KidQuestion, part: Partial<KidLosses>) =>
        ["leave", "look-again", "vet-list"].indexOf(decideKid({ ...q, losses: { ...q.losses, ...part } }).kind);
      fc.assert(
        fc.property(anyQuestion, fc.double({ min: 1, max: 20, noNaN: true }), (q, factor) => {
          const { missedHorns, needlessDisbudding } = q.losses;
          const [now, dearerMiss, dearerOperation] = [
            rank(q, {}),
            rank(q, { missedHorns: missedHorns * factor }),
            rank(q, { needlessDisbudding: needlessDisbudding * factor }),
          ];
          if (now > 0) expect(dearerMiss).toBeGreaterThan(0);
          if (now < 2) expect(dearerOperation).toBeLessThan(2);
        }),
        { numRuns: 60 },
      );
    });

    test("[KD-1] whatever the days, the visits and the window, there is an answer, and only days to come are in it", () => {
      fc.assert(
        fc.property(
          fc.integer({ min: -3, max: 40 }),
          fc.array(fc.integer({ min: -5, max: 30 }), { maxLength: 4 }),
          fc.integer({ min: 0, max: 20 }),
          fc.option(fc.integer({ min: -12, max: 12 })),
          fc.nat(30),
          (ageDays, visits, end, early, noticeDays) => {
            const window = windowOf("doe", { doe: { end } });
            const due = early === null ? {} : { fromDueDays: ageDays - early };
            const d = decideKid(aKidQuestion({ ageDays, visits, window, noticeDays, maxLooks: 1, ...due }));
            if (d.kind === "ring-vet") return;
            for (const { action, loss } of d.actions) {
              expect(loss).toBeGreaterThanOrEqual(0);
              if (action.kind === "leave") continue;
              expect(action.inDays).toBeGreaterThanOrEqual(0);
              expect(ageDays + action.inDays).toBeLessThanOrEqual(end);
            }
          },
        ),
      );
    });

    test("[KD-1] a look that costs nothing, with no day lost by it, never does harm", () => {
      fc.assert(
        fc.property(anyQuestion, (q) => {
          const losses = { ...q.losses, look: 0, lateDay: 0, earlyDay: 0 };
          const question = { ...q, losses, noticeDays: 0, visits: [] };
          const d = weighed(question);
          const least = (kind: string) =>
            Math.min(...d.actions.filter((a) => a.action.kind === kind).map((a) => a.loss));
          const looks = d.actions.some((a) => a.action.kind === "look-again");
          if (looks)
            expect(least("look-again")).toBeLessThanOrEqual(Math.min(least("leave"), least("vet-list")) + 1e-12);
          expect(d.lookSaves).toBeGreaterThanOrEqual(0);
        }),
        { numRuns: 60 },
      );
    });

    test("[KD-1] what the best action comes to is made of its own parts, and nothing open is better", () => {
      fc.assert(
        fc.property(anyQuestion, (q) => {
          const { prospect, actions } = weighed({ ...q, visits: [...q.visits, 1] });
          expect(prospect.loss).toBeCloseTo(
            q.belief.pp * prospect.ifHorned + (1 - q.belief.pp) * prospect.ifPolled,
            10,
          );
          const own = prospect.missed * q.losses.missedHorns + prospect.needless * q.losses.needlessDisbudding;
          expect(prospect.loss).toBeGreaterThanOrEqual(own - 1e-12);
          for (const a of actions) expect(a.loss).toBeGreaterThanOrEqual(prospect.loss - 1e-9);
        }),
        { numRuns: 60 },
      );
    });
  });
});

import { seededRandom } from "@pollard/base";
import { describe, expect, test } from "vitest";
import { type Call, scoreOf } from "./forecast-score.ts";
import { learnHeads } from "./head-learning.ts";
import { hornsAfter } from "../heads/head-reading.ts";
import { headScores, headScoresByTurns, hornsByThumb, type ScoredKid } from "./head-score.ts";
import { simulateHead, simulateReading } from "./head-simulation.ts";
import { DEFAULT_HEAD_TABLES, meanChances } from "../heads/head-tables.ts";
import { aBelief, aHeadReading } from "../testing.ts";

const TABLES = DEFAULT_HEAD_TABLES;
const CHANCES = meanChances(TABLES);

/** Kids of three kinds of pairing, felt on day 2 by one reader and on day 4 by another. */
function scoredKids(n: number, seed: number): ScoredKid[] {
  const random = seededRandom(seed);
  return Array.from({ length: n }, (_, i) => {
    const before = [aBelief(1, 2, 1), aBelief(0, 1, 1), aBelief(0, 1, 9)][i % 3] ?? aBelief(0, 1, 1);
    const draw = random.next();
    const genotype = draw < before.PP ? "PP" : draw < before.PP + before.Pp ? "Pp" : "pp";
    const kid = { sex: i % 2 === 0 ? "buck" : "doe" } as const;
    const head = simulateHead(kid, genotype, CHANCES, random);
    const readings = (
      [
        [2, "Oda"],
        [4, "Runa"],
      ] as const
    ).map(([ageDays, reader]) =>
      simulateReading(head, { reading: `${i} ${ageDays}`, reader, ageDays, signs: ["feel", "skin"] }, CHANCES, random),
    );
    return { kid, readings, before, grew: genotype === "pp" ? "horns" : "polled" };
  });
}

describe("headScores", () => {
  test("[HD-26] with tables that are right, pedigree and signs together beat the pedigree, the signs and the thumb", () => {
    const scores = headScores(scoredKids(300, 3), () => TABLES);
    if (scores === undefined) throw new Error("no score");
    const rivals = [scores.pedigreeAlone, scores.signsAlone, scores.ruleOfThumb];
    for (const rival of rivals) {
      expect(scores.together.brier).toBeLessThan(rival.brier);
      expect(scores.together.logScore).toBeLessThan(rival.logScore);
    }
    expect([...scores.readers.keys()]).toEqual(["Oda", "Runa"]);
    expect(scores.readers.get("Oda")?.kids).toBe(300);
  });

  test("[HD-26] with tables that are right, each kind of call comes true as often as it says, within its interval", () => {
    const bins = headScores(scoredKids(400, 4), () => TABLES)?.calibration ?? [];
    expect(bins.length).toBeGreaterThan(2);
    for (const bin of bins) {
      expect(bin.low).toBeLessThanOrEqual(bin.meanCall + 0.02);
      expect(bin.high).toBeGreaterThanOrEqual(bin.meanCall - 0.02);
    }
  });

  test("[HD-26] called by turns, each kid is called by tables learnt from the other groups, none of its own", () => {
    const kids = scoredKids(17, 5);
    const slow = kids.map((kid, i): Call => {
      const others = kids.filter((_, j) => j % 5 !== i % 5);
      const learning = others.map((o) => ({
        ...o,
        known: o.grew === "horns" ? aBelief(0, 0, 1) : aBelief(o.before.PP, o.before.Pp, 0),
      }));
      const { tables } = learnHeads(learning, TABLES);
      return { horns: hornsAfter(kid.before, kid.readings, kid.kid, tables), grew: kid.grew };
    });
    expect(headScoresByTurns(kids, TABLES)?.together.brier).toBeCloseTo(scoreOf(slow)?.brier ?? Number.NaN, 9);
    expect(headScoresByTurns([], TABLES)).toBeUndefined();
  });
});

describe("hornsByThumb", () => {
  test("[HD-26] common practice, no source: the latest reading's signs vote", () => {
    expect(hornsByThumb([])).toBe(0.5);
    const early = aHeadReading({ ageDays: 2, signs: { feel: { both: "nothing" }, skin: { both: "slides" } } });
    const late = aHeadReading({
      ageDays: 6,
      signs: { feel: { left: "pointed", right: "unsure" }, whorls: { both: "clear" }, crown: "unclear" },
    });
    expect(hornsByThumb([early])).toBeCloseTo(0.1, 12);
    expect(hornsByThumb([late, early])).toBeCloseTo(0.9, 12);
    expect(hornsByThumb([aHeadReading({ signs: { feel: { both: "pointed" }, whorls: { both: "none" } } })])).toBe(0.5);
  });
});

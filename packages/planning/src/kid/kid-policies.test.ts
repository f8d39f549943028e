import { seededRandom } from "@pollard/base";
import {
  chancesFrom,
  DEFAULT_HEAD_TABLES,
  dirichletDraw,
  type HeadChances,
  meanChances,
  windowOf,
} from "@pollard/husbandry";
import { describe, expect, test } from "vitest";
import { DEFAULT_LOSSES } from "./kid-losses.ts";
import { followPolicy, KID_POLICIES, type KidPolicy, type TrialFarm, trialKid } from "./kid-policies.ts";
import { aBelief } from "../testing.ts";

const FARM: TrialFarm = {
  window: (kid) => windowOf(kid.sex),
  tables: DEFAULT_HEAD_TABLES,
  losses: DEFAULT_LOSSES.value,
  noticeDays: 1,
};
const KIDS = 60;

/** Mean loss of each policy on the same kids, half bucklings, of a carrier buck on horned does; the vet comes weekly. */
function meanLosses(seed: number, chancesOf: (i: number, before: HeadChances | undefined) => HeadChances) {
  const random = seededRandom(seed);
  const sums = Object.fromEntries(KID_POLICIES.map((p) => [p, 0])) as Record<KidPolicy, number>;
  let chances: HeadChances | undefined;
  for (let i = 0; i < KIDS; i++) {
    chances = chancesOf(i, chances);
    const kid = trialKid({ sex: i % 2 === 0 ? "buck" : "doe" }, aBelief(0, 1, 1), 7, chances, random);
    for (const p of KID_POLICIES) sums[p] += followPolicy(p, kid, FARM).loss / KIDS;
  }
  const rivals = KID_POLICIES.filter((p) => p !== "looking-ahead").map((p) => sums[p]);
  return { ours: sums["looking-ahead"], bestRival: Math.min(...rivals) };
}

describe("followPolicy", () => {
  test("[KD-12] looking ahead costs less than three quarters of the best of three rivals, where the tables are right", () => {
    const { ours, bestRival } = meanLosses(5, () => meanChances(DEFAULT_HEAD_TABLES));
    expect(ours).toBeLessThan(0.75 * bestRival);
  });

  test("[KD-12] and less than any of them where the tables are wrong, a herd's own being anything the prior allows", () => {
    const random = seededRandom(17);
    const herd = () => chancesFrom(DEFAULT_HEAD_TABLES, (counts) => dirichletDraw(counts, random));
    const { ours, bestRival } = meanLosses(6, (i, before) => (before === undefined || i % 16 === 0 ? herd() : before));
    expect(ours).toBeLessThan(bestRival);
  });

  test("[KD-12] every course is paid for by what the kid truly was, its looks included", () => {
    const random = seededRandom(9);
    const { look, missedHorns, needlessDisbudding } = DEFAULT_LOSSES.value;
    const seen = new Set<string>();
    for (let i = 0; i < 40; i++) {
      const kid = trialKid({ sex: "doe" }, aBelief(1, 1, 2), 7, meanChances(DEFAULT_HEAD_TABLES), random);
      for (const p of ["all-but-sure", "day-three", "half-and-half"] as const) {
        const course = followPolicy(p, kid, FARM);
        seen.add(course.ending);
        expect(course.ending === "missed" || course.ending === "rightly-done").toBe(kid.head.genotype === "pp");
        if (course.ending === "missed") expect(course.loss).toBeCloseTo(missedHorns + look, 12);
        if (course.ending === "rightly-left") expect(course.loss).toBeCloseTo(look, 12);
        if (course.ending === "needless") expect(course.loss).toBeGreaterThanOrEqual(needlessDisbudding + look - 1e-12);
      }
    }
    expect(seen.size).toBe(4);
  });
});

import { seededRandom } from "@pollard/base";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type DisbuddedBud,
  learnRegrowth,
  PRINTED_REGROWTH,
  REGROWTHS,
  regrowthPrior,
  TECHNIQUES,
} from "./regrowth.ts";

describe("regrowthPrior", () => {
  test("[HD-20] a bud that was removed grows nothing three times in four; one left on does so once in five", () => {
    const nothing = TECHNIQUES.map((t) => (regrowthPrior(t)[0] ?? 0) / 40);
    expect(nothing[0]).toBeGreaterThan(0.7);
    expect(nothing[1]).toBeLessThan(0.25);
  });

  describe("published", () => {
    test("[HD-20] hempstead2018: every share we start from lies inside the printed interval", () => {
      for (const technique of TECHNIQUES)
        for (const [i, r] of REGROWTHS.entries()) {
          const printed = PRINTED_REGROWTH.value[technique][r];
          const share = (regrowthPrior(technique)[i] ?? 0) / 40;
          if (printed === undefined) expect(share).toBeLessThan(0.005);
          else {
            expect(share).toBeGreaterThanOrEqual(printed.low);
            expect(share).toBeLessThanOrEqual(printed.high);
          }
        }
    });
  });
});

const bud = (kid: string, grew: DisbuddedBud["grew"], operator = "Dr Fell"): DisbuddedBud => ({
  kid,
  grew,
  operator,
  technique: "bud-removed",
});
const many = (n: number, grew: DisbuddedBud["grew"], operator?: string, name = "k"): DisbuddedBud[] =>
  Array.from({ length: n }, (_, i) => bud(`${name}${i}`, grew, operator));

describe("learnRegrowth", () => {
  const learn = (buds: readonly DisbuddedBud[]) => learnRegrowth(buds, "bud-removed", seededRandom(1));

  test("[HD-20] with no buds of its own a herd is told the printed trial", () => {
    const { all, operators } = learn([]);
    expect(all.chances.map((p) => p * 40)).toEqual(regrowthPrior("bud-removed").map((c) => expect.closeTo(c, 9)));
    expect([all.buds, all.kids, operators.size]).toEqual([0, 0, 0]);
  });

  test("[HD-20] forty clean buds of forty kids raise the chance of nothing, and narrow the interval", () => {
    const [before, after] = [learn([]).all, learn(many(40, "nothing")).all];
    expect(after.chances[0]).toBeCloseTo(((before.chances[0] ?? 0) * 40 + 40) / 80, 9);
    const width = (l: typeof after) => (l.intervals[0]?.high ?? 1) - (l.intervals[0]?.low ?? 0);
    expect(width(after)).toBeLessThan(width(before));
  });

  test("[HD-20] two buds of one kid count for more than one bud and less than two kids'", () => {
    const scurs = (buds: DisbuddedBud[]) => learn(buds).all.chances[1] ?? 0;
    const [one, pair, two] = [
      scurs([bud("a", "scur")]),
      scurs([bud("a", "scur"), bud("a", "scur")]),
      scurs(many(2, "scur")),
    ];
    expect(pair).toBeGreaterThan(one);
    expect(pair).toBeLessThan(two);
  });

  test("[HD-20] an operator whose buds grow back is told apart, but pulled towards the herd", () => {
    const { operators } = learn([...many(30, "nothing", "Dr Fell", "f"), ...many(10, "scur", "Ivo", "i")]);
    const scur = (name: string) => operators.get(name)?.chances[1] ?? 0;
    expect(scur("Ivo")).toBeGreaterThan(scur("Dr Fell") + 0.2);
    expect(scur("Ivo")).toBeLessThan(0.9);
  });

  test("[HD-20] buds of the other technique are left out", () => {
    const left = many(30, "horn").map((b): DisbuddedBud => ({ ...b, technique: "bud-left" }));
    expect(learn(left).all.buds).toBe(0);
  });

  describe("laws", () => {
    test("[HD-20] chances sum to 1 and lie inside their intervals", () => {
      const anyBud = fc.tuple(fc.nat(9), fc.constantFrom(...REGROWTHS), fc.constantFrom("Dr Fell", "Ivo"));
      fc.assert(
        fc.property(fc.array(anyBud, { maxLength: 30 }), (buds) => {
          const { all, operators } = learn(buds.map(([kid, grew, operator]) => bud(`k${kid}`, grew, operator)));
          for (const l of [all, ...operators.values()]) {
            expect(l.chances.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
            for (const [i, p] of l.chances.entries()) {
              if (p < 0.01) continue; // a mean may lie outside the middle nine tenths where nearly all draws are near 0
              expect(p).toBeGreaterThan(l.intervals[i]?.low ?? 1);
              expect(p).toBeLessThan(l.intervals[i]?.high ?? 0);
            }
          }
        }),
        { numRuns: 20 },
      );
    });
  });
});

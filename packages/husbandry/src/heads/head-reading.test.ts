import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fromLogOdds, logOdds, probability, seededRandom } from "@pollard/base";
import type { PolledBelief } from "@pollard/genetics";
import { headLikelihood, headWarnings, hornsAfter, hornsInterval, signWeights } from "./head-reading.ts";
import type { HeadReading } from "./head-network.ts";
import { DEFAULT_HEAD_TABLES } from "./head-tables.ts";
import type { HeadSigns } from "./head-signs.ts";
import type { KidSex } from "../kid-sex.ts";
import { aHeadReading, someReadings } from "../testing.ts";

const TABLES = DEFAULT_HEAD_TABLES;
/** A kid of a carrier buck and a horned doe: as likely horned as not. */
const EVEN: PolledBelief = { PP: probability(0), Pp: probability(0.5), pp: probability(0.5) };
const MIXED: PolledBelief = { PP: probability(0.2), Pp: probability(0.3), pp: probability(0.5) };

const horns = (sex: KidSex, ...looks: readonly [ageDays: number, signs: HeadSigns][]) =>
  hornsAfter(
    EVEN,
    looks.map(([ageDays, signs], i) => aHeadReading({ reading: `r${i}`, ageDays, signs })),
    { sex },
    TABLES,
  );

const HORNED_LOOK: HeadSigns = {
  feel: { both: "pointed" },
  skin: { both: "held-fast" },
  whorls: { both: "clear" },
  crown: "flat",
};
const POLLED_LOOK: HeadSigns = { feel: { both: "rounded" }, skin: { both: "slides" }, whorls: { both: "none" } };

describe("headLikelihood", () => {
  test("[HD-5] common practice, no source: pointed buds with whorls and skin held fast on a days-old kid read as horns to come", () => {
    for (const sex of ["buck", "doe"] as const) expect(horns(sex, [4, HORNED_LOOK])).toBeGreaterThan(0.98);
  });

  test("[HD-5] common practice, no source: a slight rounded bump with sliding skin and no whorls reads as polled", () => {
    for (const sex of ["buck", "doe"] as const) expect(horns(sex, [4, POLLED_LOOK])).toBeLessThan(0.1);
  });

  test("[HD-5] common practice, no source: no bump on a doeling of a few days says much less than no bump on a buckling", () => {
    const nothing: HeadSigns = { feel: { both: "nothing" } };
    for (const age of [2, 3, 4, 5]) {
      const said = (sex: KidSex) => -logOdds(horns(sex, [age, nothing]));
      expect(said("buck")).toBeGreaterThan(2 * said("doe"));
    }
    expect(horns("doe", [3, nothing])).toBeGreaterThan(0.4);
  });

  test("[HD-5] common practice, no source: several signs that agree settle it, one alone does not", () => {
    expect(horns("doe", [4, { crown: "flat" }])).toBeLessThan(0.8);
    expect(horns("doe", [4, { whorls: { both: "clear" } }])).toBeLessThan(0.95);
    expect(horns("doe", [4, HORNED_LOOK])).toBeGreaterThan(0.98);
    expect(horns("doe", [4, { ...POLLED_LOOK, crown: "rounded-cap" }])).toBeLessThan(0.05);
  });

  test("[HD-5] a tip that is through settles it by itself", () => {
    for (const sex of ["buck", "doe"] as const)
      expect(horns(sex, [8, { feel: { both: "tip-through" } }])).toBeGreaterThan(0.95);
  });

  test("[HD-3] a second look at the same whorl adds little, a look at a later age adds much", () => {
    const whorl: HeadSigns = { whorls: { both: "clear" } };
    const once = logOdds(horns("doe", [2, whorl]));
    const twice = logOdds(horns("doe", [2, whorl], [9, whorl]));
    expect(twice - once).toBeLessThan(0.5 * once);
    const nothing: HeadSigns = { feel: { both: "nothing" } };
    const early = -logOdds(horns("doe", [2, nothing]));
    const late = -logOdds(horns("doe", [2, nothing], [9, nothing]));
    expect(late).toBeGreaterThan(4 * early);
  });

  test("[HD-4] an unclear whorl is evidence, if weak; one that was not looked at is none", () => {
    expect(horns("doe", [3, { whorls: { both: "not-looked" } }])).toBeCloseTo(0.5, 12);
    const unclear = horns("doe", [3, { whorls: { both: "unclear" } }]);
    expect(unclear).toBeGreaterThan(0.5);
    expect(unclear).toBeLessThan(0.65);
  });

  test("[HD-9] nothing felt on a kid born a week early says less than on one born when due", () => {
    const look = (fromDueDays: number): HeadReading =>
      aHeadReading({ ageDays: 5, fromDueDays, signs: { feel: { both: "nothing" } } });
    const due = hornsAfter(EVEN, [look(5)], { sex: "buck" }, TABLES);
    const early = hornsAfter(EVEN, [look(-2)], { sex: "buck" }, TABLES);
    expect(early).toBeGreaterThan(due + 0.05);
  });

  test("[HD-8] a kid whose sex could not be told lies between a buckling and a doeling", () => {
    const look: HeadSigns = { feel: { both: "nothing" } };
    const [buck, unsure, doe] = [horns("buck", [4, look]), horns("unsure", [4, look]), horns("doe", [4, look])];
    expect(unsure).toBeGreaterThan(buck);
    expect(unsure).toBeLessThan(doe);
    expect(horns("wether", [4, look])).toBe(buck);
  });

  test("[HD-7] a four-horned head and sides that disagree are pointed out", () => {
    const readings = [
      aHeadReading({ reading: "four", budSites: 4 }),
      aHeadReading({ reading: "differ", signs: { feel: { left: "nothing", right: "pointed" } } }),
      aHeadReading({ reading: "plain", budSites: 2, signs: { feel: { left: "rounded", right: "pointed" } } }),
    ];
    expect(headWarnings(readings)).toEqual([
      { code: "four-horned", reading: "four" },
      { code: "sides-differ", reading: "differ" },
    ]);
  });
});

describe("signWeights", () => {
  test("[HD-6] each sign has its say, in the order given, and agreeing signs all speak for horns", () => {
    const rows = signWeights([aHeadReading({ signs: HORNED_LOOK })], { sex: "buck" }, TABLES, EVEN);
    expect(rows.map((r) => r.sign)).toEqual(["feel", "skin", "whorls", "crown"]);
    for (const row of rows) expect(row.weight).toBeGreaterThan(0);
  });

  describe("laws", () => {
    test("[HD-6] the weights and the prior's log-odds add up to the posterior's exactly", () => {
      fc.assert(
        fc.property(someReadings(), fc.constantFrom(EVEN, MIXED), (readings, before) => {
          const weights = signWeights(readings, { sex: "unsure" }, TABLES, before).reduce((a, r) => a + r.weight, 0);
          const posterior = hornsAfter(before, readings, { sex: "unsure" }, TABLES);
          expect(fromLogOdds(logOdds(before.pp) + weights)).toBeCloseTo(posterior, 10);
        }),
      );
    });
  });
});

describe("hornsInterval", () => {
  const interval = (looks: readonly HeadReading[], seed = 3, tables = TABLES) =>
    hornsInterval(EVEN, looks, { sex: "doe" }, tables, seededRandom(seed));

  test("[HD-11] with no reading there is nothing for the tables to be unsure of", () => {
    const { low, high } = interval([]);
    expect([low, high].map((p) => p.toFixed(12))).toEqual(["0.500000000000", "0.500000000000"]);
  });

  test("[HD-11] the interval holds the best single answer, and is the narrower the more heads stand behind the tables", () => {
    const look = aHeadReading({ ageDays: 4, signs: POLLED_LOOK });
    const { low, high } = interval([look]);
    const best = hornsAfter(EVEN, [look], { sex: "doe" }, TABLES);
    expect(low).toBeLessThan(best);
    expect(high).toBeGreaterThan(best);
    const rows = Object.fromEntries(
      Object.entries(TABLES.rows).map(([k, c]) => [k, { ...c, value: c.value.map((x) => x * 50) }]),
    ) as unknown as typeof TABLES.rows;
    const surer = interval([look], 3, { ...TABLES, rows });
    expect(surer.high - surer.low).toBeLessThan(0.3 * (high - low));
  });

  test("[HD-11] whatever was seen, the interval holds the best single answer", () => {
    fc.assert(
      fc.property(someReadings(), (readings) => {
        const { low, high } = interval(readings);
        const best = hornsAfter(EVEN, readings, { sex: "doe" }, TABLES);
        expect(low).toBeLessThanOrEqual(best);
        expect(high).toBeGreaterThanOrEqual(best);
      }),
      { numRuns: 15 },
    );
  });

  test("[HD-11] the same seed gives the same interval", () => {
    const look = [aHeadReading({ signs: HORNED_LOOK })];
    expect(interval(look, 5)).toEqual(interval(look, 5));
  });
});

describe("laws of one more sign", () => {
  test("[HD-1] skin that is held faster never speaks less for horns, nor a clearer whorl, nor a flatter crown", () => {
    const order = (all: readonly HeadSigns[], age: number, sex: KidSex) => {
      const ps = all.map((signs) => horns(sex, [age, signs]));
      expect(ps).toEqual([...ps].sort((a, b) => a - b));
    };
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 14 }), fc.constantFrom<KidSex>("buck", "doe", "unsure"), (age, sex) => {
        order(
          [{ skin: { both: "slides" } }, { skin: { both: "slides-a-little" } }, { skin: { both: "held-fast" } }],
          age,
          sex,
        );
        order([{ whorls: { both: "none" } }, { whorls: { both: "unclear" } }, { whorls: { both: "clear" } }], age, sex);
        order([{ crown: "rounded-cap" }, { crown: "unclear" }, { crown: "flat" }], age, sex);
      }),
    );
  });

  test("[HD-1] the greatest of the three is 1 and none is 0", () => {
    fc.assert(
      fc.property(someReadings(), (readings) => {
        const l = headLikelihood(readings, { sex: "doe" }, TABLES);
        expect(Math.max(l.PP, l.Pp, l.pp)).toBe(1);
        expect(Math.min(l.PP, l.Pp, l.pp)).toBeGreaterThan(0);
      }),
    );
  });
});

describe("published", () => {
  test("[HD-5] extension-goat-handbook: skin fixed to the skull over two rosettes means buds, movable skin means hornless", () => {
    const fixed: HeadSigns = { skin: { both: "held-fast" }, whorls: { left: "clear", right: "clear" } };
    const movable: HeadSigns = { skin: { both: "slides" } };
    for (const sex of ["buck", "doe"] as const) {
      expect(horns(sex, [5, fixed])).toBeGreaterThan(0.9);
      expect(horns(sex, [5, movable])).toBeLessThan(0.3);
    }
  });
});

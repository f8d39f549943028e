import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { POLLED_GENOTYPES, type PolledGenotype } from "@pollard/genetics";
import { delayedPlaces } from "./bud-courses.ts";
import { type HeadKid, type HeadReading, headNetwork, logLikelihoods, seeRow, sightingsOf } from "./head-network.ts";
import { aHeadKid, aHeadReading, someReadings } from "../testing.ts";
import {
  BUD_AGES,
  CLOCKS,
  CROWN_TRUTHS,
  DEFAULT_HEAD_TABLES,
  type HeadChances,
  meanChances,
  PACE_DAYS,
  PACES,
  POLLED_STAGES,
  WHORL_TRUTHS,
} from "./head-tables.ts";
import { BUCK_SHARE } from "../kid-sex.ts";

const CHANCES = meanChances(DEFAULT_HEAD_TABLES);

/** The slow way: every hidden truth of the whole head at once, one full product for each. */
function byEnumeration(
  readings: readonly HeadReading[],
  kid: HeadKid,
  chances: HeadChances,
): Record<PolledGenotype, number> {
  const seen = sightingsOf(readings);
  const total = { PP: 0, Pp: 0, pp: 0 };
  const p = (row: Parameters<HeadChances["row"]>[0], i: number, reader?: string) =>
    chances.row(row, reader)[i] as number;
  for (const sex of ["buck", "doe"] as const) {
    const share = sex === "buck" ? BUCK_SHARE[kid.sex] : 1 - BUCK_SHARE[kid.sex];
    if (share === 0) continue;
    for (const [w, whorl] of WHORL_TRUTHS.entries())
      for (const [c, crown] of CROWN_TRUTHS.entries()) {
        const hair = (h: "horned" | "polled") => p(`is-whorl ${h}`, w) * p(`is-crown ${h}`, c);
        const report = (s: (typeof seen)[number], under: Parameters<typeof seeRow>[1]) => {
          const row = () => {
            if (s.sign === "whorls") return `see-whorl ${whorl}` as const;
            return s.sign === "crown" ? (`see-crown ${crown}` as const) : seeRow(s.sign, under);
          };
          const own = p(row(), s.value, s.reader);
          if (s.first === undefined) return own;
          return (
            (s.first === s.value ? p("see-second-side", 0, s.reader) : 0) + p("see-second-side", 1, s.reader) * own
          );
        };
        for (const g of ["PP", "Pp"] as const)
          for (const [k, stage] of POLLED_STAGES.entries())
            total[g] += seen.reduce(
              (x, s) => x * report(s, stage),
              share * hair("polled") * p(`is-polled-stage ${g} ${sex}`, k),
            );
        for (const [t, budAge] of BUD_AGES.entries())
          for (const [q, pace] of PACES.entries())
            for (const [k, clock] of CLOCKS.entries()) {
              const stage = (s: (typeof seen)[number]) => {
                const age = clock === "due" && s.fromDueDays !== undefined ? s.fromDueDays : s.ageDays;
                if (age < budAge) return "not-yet";
                if (age < budAge + PACE_DAYS.value[pace].pointed) return "low-bud";
                return age < budAge + PACE_DAYS.value[pace].tip ? "pointed-bud" : "tip";
              };
              total.pp += seen.reduce(
                (x, s) => x * report(s, stage(s)),
                share * hair("horned") * p(`is-bud-age ${sex}`, t) * p(`is-pace ${sex}`, q) * p("is-clock", k),
              );
            }
      }
  }
  return total;
}

describe("headNetwork", () => {
  test("[HD-1] no reading, no evidence: every genotype explains nothing equally well", () => {
    const log = logLikelihoods(headNetwork(aHeadKid(), CHANCES).start);
    for (const g of POLLED_GENOTYPES) expect(log[g]).toBeCloseTo(0, 12);
  });

  test("[HD-4] what was not reached, not looked at or could not be told is no piece of evidence", () => {
    const reading = aHeadReading({
      signs: { feel: { both: "unsure" }, whorls: { left: "not-looked" }, crown: "unsure" },
    });
    expect(sightingsOf([reading])).toEqual([]);
  });

  test("[HD-3] one answer for both sides is one piece, an answer per side is one each", () => {
    const count = (signs: HeadReading["signs"]) => sightingsOf([aHeadReading({ signs })]).length;
    expect(count({ feel: { both: "pointed" } })).toBe(1);
    expect(count({ feel: { left: "pointed", right: "rounded" } })).toBe(2);
    expect(count({ feel: { left: "pointed", right: "unsure" } })).toBe(1);
  });

  test("[HD-3] two sides that agree are more than one witness and less than two; two that differ are two", () => {
    const network = headNetwork(aHeadKid(), CHANCES);
    const spoke = (signs: HeadReading["signs"]) => {
      const log = logLikelihoods(network.after([aHeadReading({ signs })]));
      return log.pp - log.Pp;
    };
    const both = spoke({ feel: { both: "pointed" } });
    const agreed = spoke({ feel: { left: "pointed", right: "pointed" } });
    expect(agreed).toBeGreaterThan(both);
    expect(agreed).toBeLessThan(1.5 * both);
    const differ = spoke({ feel: { left: "pointed", right: "nothing" } });
    expect(differ).toBeLessThan(both);
    expect(spoke({ feel: { left: "nothing", right: "pointed" } })).toBeCloseTo(differ, 9);
  });

  test("[HD-10] a breed whose buds come a day and a half later shares each age between one day on and two", () => {
    expect(delayedPlaces(0, 1.5)).toEqual([
      { place: 1, share: 0.5 },
      { place: 2, share: 0.5 },
    ]);
    expect(delayedPlaces(1, -3)).toEqual([{ place: 0, share: 1 }]);
    expect(delayedPlaces(13, 4)).toEqual([{ place: 15, share: 1 }]);
  });

  test("[HD-10] nothing felt on day 5 says less against horns in a breed whose buds come late", () => {
    const late = meanChances({ ...DEFAULT_HEAD_TABLES, breedDelayDays: new Map([["nubian", 3.5]]) });
    const seen = [aHeadReading({ ageDays: 5, signs: { feel: { both: "nothing" } } })];
    const weight = (breed: string) => logLikelihoods(headNetwork({ sex: "doe", breed }, late).after(seen)).pp;
    expect(weight("Nubian")).toBeGreaterThan(weight("Saanen"));
  });

  describe("laws", () => {
    test("[HD-2] the likelihood equals enumerating every hidden truth of the whole head", () => {
      fc.assert(
        fc.property(someReadings(), fc.constantFrom("doe", "buck", "wether", "intersex", "unsure"), (readings, sex) => {
          const slow = byEnumeration(readings, { sex }, CHANCES);
          const fast = logLikelihoods(headNetwork({ sex }, CHANCES).after(readings));
          for (const g of POLLED_GENOTYPES) expect(fast[g]).toBeCloseTo(Math.log(slow[g]), 9);
        }),
        { numRuns: 60 },
      );
    });

    test("[HD-2] a reader with tables of their own is read by them, and only where they read", () => {
      const own = {
        ...DEFAULT_HEAD_TABLES.rows,
        "see-whorl over-buds": { ...DEFAULT_HEAD_TABLES.rows["see-whorl over-buds"], value: [1, 1, 8] },
      };
      const chances = meanChances({ ...DEFAULT_HEAD_TABLES, readers: new Map([["Runa", own]]) });
      fc.assert(
        fc.property(someReadings(["Runa", "Oda"]), (readings) => {
          const slow = byEnumeration(readings, { sex: "doe" }, chances);
          const fast = logLikelihoods(headNetwork({ sex: "doe" }, chances).after(readings));
          for (const g of POLLED_GENOTYPES) expect(fast[g]).toBeCloseTo(Math.log(slow[g]), 9);
        }),
        { numRuns: 40 },
      );
    });

    test("[HD-2] the order of readings makes no difference", () => {
      fc.assert(
        fc.property(someReadings(), (readings) => {
          const network = headNetwork({ sex: "unsure" }, CHANCES);
          const there = logLikelihoods(network.after(readings));
          const back = logLikelihoods(network.after(readings.toReversed()));
          for (const g of POLLED_GENOTYPES) expect(back[g]).toBeCloseTo(there[g], 9);
        }),
      );
    });

    test("[HD-10] a delay moves ages and loses none", () => {
      fc.assert(
        fc.property(fc.nat(BUD_AGES.length - 1), fc.double({ min: -20, max: 20, noNaN: true }), (age, days) => {
          expect(delayedPlaces(age, days).reduce((a, b) => a + b.share, 0)).toBeCloseTo(1, 12);
        }),
      );
    });
  });

  describe("regressions", () => {
    test("[HD-2] four hundred readings of one kid do not underflow", () => {
      const reading = aHeadReading({ signs: { feel: { left: "tip-through", right: "nothing" }, crown: "flat" } });
      const log = logLikelihoods(headNetwork(aHeadKid(), CHANCES).after(Array.from({ length: 400 }, () => reading)));
      for (const g of POLLED_GENOTYPES) expect(Number.isFinite(log[g])).toBe(true);
    });
  });
});

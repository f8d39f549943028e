import { seededRandom } from "@pollard/base";
import { describe, expect, test } from "vitest";
import { headForecast, HAIRS, TOUCHES } from "../heads/head-forecast.ts";
import { BUD_FEELS, CROWNS, SKIN_HOLDS, WHORLS } from "../heads/head-signs.ts";
import { simulateHead, simulateReading } from "./head-simulation.ts";
import { SIGNS } from "../heads/head-network.ts";
import { DEFAULT_HEAD_TABLES, meanChances } from "../heads/head-tables.ts";
import { aBelief } from "../testing.ts";

const CHANCES = meanChances(DEFAULT_HEAD_TABLES);

describe("simulateReading", () => {
  test("[HD-27] the same seed invents the same head and reading", () => {
    const reading = () => {
      const random = seededRandom(4);
      const head = simulateHead({ sex: "doe" }, "pp", CHANCES, random);
      return simulateReading(
        head,
        { reading: "r", reader: "Oda", ageDays: 5, signs: ["feel", "crown"] },
        CHANCES,
        random,
      );
    };
    expect(reading()).toEqual(reading());
    expect(Object.keys(reading().signs)).toEqual(["feel", "crown"]);
  });

  describe("laws", () => {
    test("[HD-27] answers come as often as the forecast says, for horned and polled, within 5 standard errors", () => {
      const n = 6000;
      for (const [genotype, belief] of [
        ["pp", aBelief(0, 0, 1)],
        ["Pp", aBelief(0, 1, 0)],
      ] as const) {
        const random = seededRandom(21);
        const kid = { sex: "unsure" } as const;
        const day = { ageDays: 6, fromDueDays: 2 };
        const forecast = headForecast({ kid, readings: [], belief, tables: DEFAULT_HEAD_TABLES, days: [day] });
        const touch = new Float64Array(TOUCHES);
        const hair = new Float64Array(HAIRS);
        for (let i = 0; i < n; i++) {
          const head = simulateHead(kid, genotype, CHANCES, random);
          const { feel, skin, whorls, crown } = simulateReading(
            head,
            { reading: "r", reader: "Oda", signs: SIGNS, ...day },
            CHANCES,
            random,
          ).signs;
          const place = <T>(list: readonly T[], sign: unknown) => list.indexOf((sign as { both: T }).both);
          const t = place(BUD_FEELS, feel) * SKIN_HOLDS.length + place(SKIN_HOLDS, skin);
          const h = place(WHORLS, whorls) * CROWNS.length + CROWNS.indexOf(crown as (typeof CROWNS)[number]);
          touch[t] = (touch[t] ?? 0) + 1 / n;
          hair[h] = (hair[h] ?? 0) + 1 / n;
        }
        const head = genotype === "pp" ? "horned" : "polled";
        const compare = (got: Float64Array, want: Float64Array) => {
          for (const [k, p] of want.entries())
            expect(Math.abs((got[k] ?? 0) - p)).toBeLessThan(5 * Math.sqrt((p * (1 - p)) / n) + 1e-9);
        };
        compare(touch, forecast.touch(0)[head]);
        compare(hair, forecast.hair[head]);
      }
    });
  });
});

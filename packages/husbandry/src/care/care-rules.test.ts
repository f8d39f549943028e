import { describe, expect, test } from "vitest";
import {
  BOOSTER_COUNTS,
  BUCK_LOAD,
  CARE_RULES,
  type CareWish,
  careRulesFor,
  FIRST_BREEDING,
  WEANING_KG,
} from "./care-rules.ts";
import { ABORTION_CAUTIONS, VISITOR_CAUTIONS } from "./care-rules-visitors.ts";

const rulesWith = (wishes: Readonly<Record<string, CareWish>>) => careRulesFor(new Map(Object.entries(wishes)));
const codes = (wishes: Readonly<Record<string, CareWish>> = {}) => rulesWith(wishes).map((r) => r.code);

describe("care", () => {
  test("[HD-44] every task has days that follow each other, and a source", () => {
    for (const { days } of CARE_RULES) {
      expect(days.value.from).toBeLessThanOrEqual(days.value.by);
      expect(days.value.by).toBeLessThanOrEqual(days.value.until);
      expect(days.source).not.toBe("");
    }
    expect(new Set(CARE_RULES.map((r) => r.code)).size).toBe(CARE_RULES.length);
  });

  test("[HD-44] published days: vaccination at five to six weeks, castration from two days to three weeks, weaning at 9 kg", () => {
    const days = (code: string) => CARE_RULES.find((r) => r.code === code)?.days.value;
    expect(days("kid-vaccine")).toMatchObject({ from: 5 * 7, by: 6 * 7 });
    expect(days("kid-vaccine-again")).toMatchObject({ from: 3 * 7, by: 4 * 7 });
    expect(days("castration")).toMatchObject({ from: 2, by: 3 * 7 });
    expect(days("dry-off")).toMatchObject({ from: -60 });
    expect(days("pregnancy-scan")).toMatchObject({ from: 45, by: 85 });
    expect([WEANING_KG.value, FIRST_BREEDING.value.dairyKg, BUCK_LOAD.value.atOneYear]).toEqual([9, 36, 30]);
    expect(BOOSTER_COUNTS.value.from).toBeGreaterThan(30);
  });

  test("[HD-44] what depends on the region is off until the vet says otherwise", () => {
    expect(codes()).not.toContain("selenium");
    expect(codes({ selenium: { state: "on" } })).toContain("selenium");
  });

  test("[HD-45] the vet's own days win, and a task may be switched off", () => {
    expect(codes({ "dry-off": { state: "off" } })).not.toContain("dry-off");
    const own = rulesWith({ "kid-vaccine": { from: 28, by: 35 } }).find((r) => r.code === "kid-vaccine");
    expect(own?.days).toMatchObject({ value: { from: 28, by: 35 }, source: "keepers-vet" });
    const late = rulesWith({ weaning: { by: 150 } }).find((r) => r.code === "weaning");
    expect(late?.days.value).toEqual({ from: 56, by: 150, until: 150 });
  });

  test("[HD-45] days that make no sense are left aside", () => {
    const rule = rulesWith({ weaning: { from: 99, by: 9 } }).find((r) => r.code === "weaning");
    expect(rule?.days.source).toBe("langston-weaning");
  });

  test("[HD-46] each caution for visitors and after a loss names where it stands", () => {
    for (const { sources } of [...VISITOR_CAUTIONS, ...ABORTION_CAUTIONS]) expect(sources.length).toBeGreaterThan(0);
  });
});

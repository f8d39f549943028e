import { day } from "@pollard/base";
import type { VetDaysModel } from "@pollard/advice";
import { describe, expect, test } from "vitest";
import { typed } from "../testing.ts";

const onTheDay = (line: string) => typed(line, { today: day("2026-03-18") });

describe("vetdays", () => {
  test("[CL-20] the invented herd: the agreed visit, further ones, and the does that may still kid", async () => {
    const { exit, out } = await onTheDay("vetdays --demo demo");
    expect(exit).toBe(0);
    expect(out).toMatch(/Fri 2026-03-20 {2}agreed/);
    expect(out).toMatch(/to ask for/);
    expect(out).toMatch(/One visit fewer: .*missed/);
    expect(out).toMatch(/^Yarrow .*Alder/m);
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(100);
  });

  test("[CL-20] pinned and forbidden days", async () => {
    const { out } = await onTheDay("vetdays --demo demo --json --pin 2026-04-01 --forbid 2026-03-25,2026-03-26");
    const days = (JSON.parse(out) as VetDaysModel).visits.map((v) => v.day);
    expect(days).toContain("2026-04-01");
    expect(days).not.toContain("2026-03-25");
    expect(days).not.toContain("2026-03-26");
  });

  test("[CL-2] a day that is none is refused in a sentence", async () => {
    const { exit, err } = await onTheDay("vetdays --demo demo --pin 2026-02-30");
    expect(exit).toBe(2);
    expect(err).toMatch(/is not a day of the calendar/);
  });
});

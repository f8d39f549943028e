import { day } from "@pollard/base";
import { describe, expect, test } from "vitest";
import { typed } from "../testing.ts";

const today = day("2026-03-18");
const onTheDay = (line: string) => typed(line, { today });

describe("sheet", () => {
  test.each([
    ["vet", /Vet&#39;s list, Fri 2026-03-20[\s\S]*Fescue[\s\S]*Look at these heads/],
    ["barn", /Barn card[\s\S]*Yarrow[\s\S]*Dunnock/],
    ["gate", /Kids are being born[\s\S]*Pregnant\?/],
    ["kid --animal demo-ember", /Paper of Ember[\s\S]*Never breed two polled goats together/],
  ])("[CL-27] %s of the invented herd", async (kind, holds) => {
    const [name, ...rest] = kind.split(" ");
    const { exit, out } = await onTheDay(`sheet ${name} --demo demo ${rest.join(" ")}`);
    expect(exit).toBe(0);
    expect(out).toMatch(/^<!doctype html>/);
    expect(out).toMatch(holds);
    expect(out).toContain("Sallowbank");
  });

  test("[CL-27] written to a file; who came since the last print is marked", async () => {
    const { out, written } = await onTheDay("sheet vet --demo demo --printed 2026-03-01 -o list.html");
    expect(out).toBe("");
    expect(written.get("list.html")).toContain("NEW Fescue");
  });

  test("[CL-27] nothing private: notes only where asked for", async () => {
    const plain = await onTheDay("sheet kid --demo demo --animal demo-moth");
    const open = await onTheDay("sheet kid --demo demo --animal demo-moth --notes");
    expect(open.out.length).toBeGreaterThan(plain.out.length);
    expect(plain.out).not.toContain("<h2>Notes</h2>");
  });

  test("[CL-2] no such sheet, no goat, no such goat", async () => {
    for (const [line, why] of [
      ["sheet poster --demo demo", /^Which sheet\?/],
      ["sheet kid --demo demo", /^Which goat\?/],
      ["sheet kid --demo demo --animal nobody", /no goat "nobody"/],
      ["sheet gate --demo demo --paper a3", /a4 or letter/],
    ] as const) {
      const { exit, err } = await onTheDay(line);
      expect(exit).toBe(2);
      expect(err).toMatch(why);
    }
  });
});

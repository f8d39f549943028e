import { animalId } from "@pollard/genetics";
import { writeHerdFile } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import { describe, expect, test } from "vitest";
import { typed } from "../testing.ts";

const onTheDay = (line: string) => typed(`${line} --demo demo --on 2026-03-18`);

describe("heads --record", () => {
  test("[CL-30] on the invented herd: calls, rivals, readers, lessons and regrowth, within the terminal's width", async () => {
    const { exit, out, err } = await onTheDay("heads --record");
    expect([exit, err]).toEqual([0, ""]);
    expect(out).toMatch(/^\d+ heads read and known since, \d+ of them horned/);
    for (const said of [/^Of \d+ heads called .* for horns/m, /^family alone +0\.\d{3}/m, /^Ines read \d+ heads/m])
      expect(out).toMatch(said);
    expect(out).toMatch(/^Tables moved by \d+ kids of this herd\.$/m);
    expect(out).toMatch(/^After disbudding, bud left in: Of \d+ buds/m);
    expect(out.split("\n").filter((line) => line.length > 100)).toEqual([]);
  });

  test("[CL-30] as plain data it says the same: the lines of calls hold every head, and so do their ways of knowing", async () => {
    const { heads } = JSON.parse((await onTheDay("heads --record --json")).out) as {
      heads: { kids: number; calls: { kids: number }[]; truths: { kids: number }[] };
    };
    const sum = (of: readonly { kids: number }[]) => of.reduce((all, { kids }) => all + kids, 0);
    expect([sum(heads.calls), sum(heads.truths)]).toEqual([heads.kids, heads.kids]);
  });

  test("[CL-30] a herd without a known head: said, not pretended", async () => {
    const hazel = anEntry("animal", { animal: animalId("hazel"), sex: "doe" }, { on: "2025-01-01" });
    const { exit, out } = await typed("heads herd.jsonl --record", {
      files: { "herd.jsonl": writeHerdFile([hazel], {}) },
    });
    expect(exit).toBe(0);
    expect(out).toMatch(/^No head that was read has shown what it is yet/);
    expect(out).toMatch(/No kid of this herd has moved the keepers' tables yet/);
    expect(out).toMatch(/No disbudded bud has been looked at since/);
  });

  test("[CL-30] one head explained: what the keepers' tables alone said, and how many kids moved them", async () => {
    const { out } = await onTheDay("heads --explain demo-pip");
    expect(out).toMatch(/By the keepers' tables alone [<>]?[01]\.\d+; \d+ kids of this herd have moved them\./);
  });
});

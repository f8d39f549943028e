import { describe, expect, test } from "vitest";
import { typed } from "./testing.ts";

describe("the unit of weights", () => {
  test("[CL-50] sheets and tables say weights in the unit that was asked for, the vet's list in both", async () => {
    const vet = await typed("sheet vet --demo demo --units lb");
    expect(vet.out).toMatch(/\d\.\d+ kg \(\d+\.\d+ lb\)/);
    expect((await typed("sheet vet --demo demo")).out).not.toMatch(/\d lb\b/);
    expect((await typed("sheet barn --demo demo --units lb")).out).toMatch(/>lb</);
    expect((await typed("review --kids --demo demo --units lb")).out).toMatch(/lb\/day/);
    expect((await typed("review --kids --demo demo --units kg")).out).toMatch(/ g\/day/);
  });

  test("[CL-51] plain data and exported tables are in kilograms, whatever was asked for", async () => {
    const json = await typed("review --kids --demo demo --json");
    expect((await typed("review --kids --demo demo --json --units lb")).out).toBe(json.out);
    const table = await typed("export --as csv --table weights --demo demo");
    expect((await typed("export --as csv --table weights --demo demo --units lb")).out).toBe(table.out);
    expect(table.out.split("\r\n")[0]).toContain("kg");
  });

  test("[CL-50] a unit that is not there is told of, with those that are", async () => {
    const { exit, err } = await typed("today --demo demo --units stone");
    expect([exit, err]).toEqual([2, 'Weights are not said in "stone"; there are kg and lb.\n']);
  });
});

import { day } from "@pollard/base";
import type { Entry } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import { describe, expect, test } from "vitest";
import { goat, id, kidding, service, situation } from "../testing.ts";
import { readyWeight, serviceCautions } from "./mating-cautions.ts";

const weight = (animal: string, on: string, kg: number): Entry =>
  anEntry("weight", { animal: id(animal), kg, how: "weighed" }, { on });
const young = goat("Fern", "doe", { born: day("2025-03-01") });
const rook = goat("Rook", "buck", { born: day("2022-03-01") });
const cautions = (on: string, ...entries: readonly Entry[]) =>
  serviceCautions(situation([young, rook, ...entries], on).herd, {
    doe: id("Fern"),
    bucks: [id("Rook")],
    on: day(on),
  }).map((c) => c.code);

describe("before a service", () => {
  test("[AD-49] a doeling of six months is too young, and her weight is asked for", () => {
    expect(cautions("2025-09-10")).toEqual(["doe-too-young", "doe-not-weighed"]);
  });

  test("[AD-49] of eight months and heavy enough, nothing speaks against it", () => {
    expect(cautions("2025-11-05", weight("Fern", "2025-11-01", 37))).toEqual([]);
    expect(cautions("2025-11-05", weight("Fern", "2025-11-01", 30))).toEqual(["doe-too-light"]);
    expect(cautions("2025-11-05", weight("Fern", "2025-08-01", 37))).toEqual(["doe-not-weighed"]);
  });

  test("[AD-49] what she should weigh follows the herd's grown does; two thirds, not a dairy goat's 36 kg", () => {
    const dwarfs = [goat("Pea", "doe", { born: day("2021-03-01") }), weight("Pea", "2025-06-01", 30)];
    expect(readyWeight(situation(dwarfs, "2025-11-05").herd, day("2025-11-05"))).toBeCloseTo(0.65 * 30, 9);
    expect(cautions("2025-11-05", ...dwarfs, weight("Fern", "2025-11-01", 20))).toEqual([]);
  });

  test("[AD-49] a doe who has kidded is grown enough", () => {
    expect(cautions("2026-03-05", kidding("Fern", "2026-03-01", { Moss: "doe" }))).toEqual([]);
  });

  test("[AD-49] a buck of five months serves nobody, of eight months ten, a grown one thirty", () => {
    const of = (born: string, does: number) => {
      const names = Array.from({ length: does }, (_, i) => `doe${i}`);
      const entries = [
        goat("Sprig", "buck", { born: day(born) }),
        ...names.map((name) => goat(name, "doe")),
        ...names.map((name) => service(name, ["Sprig"], "2025-11-01")),
        weight("Fern", "2025-11-01", 40),
      ];
      const { herd } = situation([young, ...entries], "2025-11-05");
      return serviceCautions(herd, { doe: id("Fern"), bucks: [id("Sprig")], on: day("2025-11-05") }).map((c) => c.code);
    };
    expect(of("2025-06-05", 0)).toEqual(["buck-too-young"]);
    expect(of("2025-03-05", 9)).toEqual([]);
    expect(of("2025-03-05", 10)).toEqual(["buck-has-enough"]);
    expect(of("2023-03-05", 29)).toEqual([]);
    expect(of("2023-03-05", 30)).toEqual(["buck-has-enough"]);
  });
});

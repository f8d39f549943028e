import type { KeptKid } from "@pollard/advice";
import { day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { describe, expect, test } from "vitest";
import { sorted } from "../../parts/lists/sorted.ts";
import { KEPT_COLUMNS, keptValue } from "./table-model.ts";

const ref = (name: string) => ({
  id: animalId(name),
  name,
  tag: undefined,
  mark: undefined,
  sex: "doe" as const,
  damName: undefined,
});
const kid = (name: string, more: Partial<KeptKid> = {}): KeptKid => ({
  kid: ref(name),
  born: day("2026-03-01"),
  ageDays: 100,
  genotype: undefined,
  inbreeding: 0,
  litter: 1,
  dam: undefined,
  damKids: 0,
  weight: undefined,
  growth: undefined,
  open: ["keep-to-breed"],
  closed: [],
  ...more,
});
const weighed = (kg: number): KeptKid["weight"] => ({ kg, on: day("2026-05-01"), how: "weighed" });
const order = (kids: readonly KeptKid[], column: (typeof KEPT_COLUMNS)[number], way: "up" | "down") =>
  sorted(kids, (one) => keptValue(one, column), way).map((one) => one.kid.name);

describe("the young goats in a table", () => {
  test("[UI-322] a kid that was never weighed comes last, whichever way weights are sorted", () => {
    const kids = [kid("Ash"), kid("Bryony", { weight: weighed(12) }), kid("Clover", { weight: weighed(9) })];
    expect(order(kids, "weight", "up")).toEqual(["Clover", "Bryony", "Ash"]);
    expect(order(kids, "weight", "down")).toEqual(["Bryony", "Clover", "Ash"]);
  });

  test("[UI-322] a head that is not read yet has no place by its genes: eyes first", () => {
    expect(keptValue(kid("Ash"), "genes")).toBeUndefined();
  });

  test("[UI-322] a kid without a dam in the record has no dam's kids, rather than none", () => {
    expect(keptValue(kid("Ash"), "damKids")).toBeUndefined();
    expect(keptValue(kid("Ash", { dam: ref("Hazel") }), "damKids")).toBe(0);
  });

  test("[UI-322] why breeding is closed is what that column sorts by; what goes without saying is not", () => {
    const closed: KeptKid["closed"] = [{ use: "wether", why: "not-a-buckling" }];
    expect(keptValue(kid("Ash", { closed }), "closed")).toBeUndefined();
    const inbred: KeptKid["closed"] = [...closed, { use: "keep-to-breed", why: "inbred" }];
    expect(keptValue(kid("Ash", { closed: inbred }), "closed")).toBe("inbred");
  });
});

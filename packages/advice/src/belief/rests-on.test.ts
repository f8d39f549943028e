import { animalId, POLLED } from "@pollard/genetics";
import { anEntry } from "@pollard/records/testing";
import { describe, expect, test } from "vitest";
import { id, kidding, ROOK_AND_ASH, situation } from "../testing.ts";
import { restsOn } from "./rests-on.ts";

const TODAY = "2026-03-20";
const horned = anEntry("outcome", { animal: animalId("a1"), left: "horn", right: "horn" }, { on: "2025-07-01" });
const herd = [...ROOK_AND_ASH, kidding("Ash", "2025-03-01", { a1: "doe", a2: "doe" }, ["Rook"])];

describe("what a belief rests on", () => {
  test("[AD-52] a buck is known by his horned kid; without it, as if it had not been entered", () => {
    const s = situation([...herd, horned], TODAY);
    const { now, without } = restsOn(s, POLLED, id("Rook"));
    const kid = without.find(({ fact }) => fact.of === id("a1"));
    expect(kid?.fact.about).toBe("growth");
    expect(now[1]).toBeGreaterThan(0.95);
    const before = situation(herd, TODAY).beliefs.polled(id("Rook"));
    expect(kid?.chances[1]).toBeCloseTo(before.Pp, 9);
  });

  test("[AD-52] with rarer polledness a polled buck of unknown parents is less likely PP", () => {
    const { now, founders } = restsOn(situation(herd.slice(0, 1), TODAY), POLLED, id("Rook"));
    const [half, twice] = founders;
    expect([half?.times, twice?.times]).toEqual([0.5, 2]);
    expect(half?.chances[0]).toBeLessThan(now[0] ?? 0);
    expect(twice?.chances[0]).toBeGreaterThan(now[0] ?? 1);
  });
});

import { present } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { describe, expect, test } from "vitest";
import { animalModel } from "./animal-model.ts";
import { goat, kidding, outcome, situation } from "./testing.ts";

const today = "2026-09-01";
/** Two polled parents, each of whom had a horned kid: one polled gene each, and no more. */
const carriers = [
  goat("Rook", "buck", { head: "polled" }),
  goat("Sedge", "doe", { head: "polled" }),
  goat("Ash", "doe", { head: "horned" }),
  kidding("Sedge", "2025-03-01", { s1: "doe", s2: "buck" }, ["Rook"]),
  kidding("Ash", "2025-03-02", { a1: "doe" }, ["Rook"]),
  outcome("s1", "2025-07-01", "horn"),
  outcome("s2", "2025-07-01", "nothing"),
];
const genotypeOf = (id: string) =>
  present(animalModel(situation(carriers, today), animalId(id)), "the goat's page").genotype;

describe("what an animal carries, counted out", () => {
  test("[AD-75] a hornless buck of two carriers: polled beyond doubt, one gene rather than two, both in twenties", () => {
    const { polled, carrier, belief } = genotypeOf("s2");
    expect(polled).toEqual({ of: 20, count: 20, sense: "all-but-one" });
    expect(carrier.of).toBe(20);
    expect(Math.abs(carrier.count / 20 - belief.Pp)).toBeLessThanOrEqual(1 / 40);
  });

  test("[AD-75] what is as good as sure, and not proven, is counted in twenties too", () => {
    const { carrier, surety } = genotypeOf("Rook");
    expect([surety, carrier.of]).toEqual(["near-sure", 20]);
  });
});

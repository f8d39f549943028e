import { animalId } from "@pollard/genetics";
import { anEntry } from "@pollard/records/testing";
import { describe, expect, test } from "vitest";
import { herdKinship } from "../pairing/herd-kinship.ts";
import { dnaTest, goat, id, kidding, service, situation } from "../testing.ts";
import { herdSires, MIXED_LITTERS, TWINS_OF_TWO_SIRES, WRONG_SIRE } from "./sires.ts";

const TODAY = "2026-03-20";
const mixed = MIXED_LITTERS.value;
/** A PP buck, a pp one and a pp doe, each tested; her twins. */
const stock = [
  goat("Rook", "buck", { head: "polled" }),
  goat("Jay", "buck", { head: "horned" }),
  goat("Ash", "doe", { head: "horned" }),
  dnaTest("Rook", ["P", "P"]),
  dnaTest("Jay", ["p", "p"]),
  dnaTest("Ash", ["p", "p"]),
];
const twins = kidding("Ash", "2025-03-01", { a1: "doe", a2: "doe" });
const inPen = [...stock, service("Ash", ["Rook", "Jay"], "2024-10-01", "2024-10-03"), twins];
const byRook = dnaTest("a1", ["P", "p"]);
type Entries = Parameters<typeof situation>[0];
const sireOf = (entries: Entries, kid: string, sire: string | undefined) =>
  new Map(situation(entries, TODAY).beliefs.sires(id(kid))).get(sire === undefined ? undefined : id(sire)) ?? 0;
const mixedIn = (entries: Entries) => herdSires(situation(entries, TODAY).herd, undefined).get(id("a1"))?.litter?.mixed;

describe("the sires of litter mates", () => {
  // By hand: one sire in 1 - m of the litters, and of the mixed ones half. What is left open is a test's error and a stranger.
  test("[AD-103] of two bucks in one pen, what a test shows of one twin speaks for the other as far as litters have one sire", () => {
    const want = 1 - mixed + mixed / 2;
    expect(want).toBeCloseTo(1 - TWINS_OF_TWO_SIRES.value, 12);
    expect(Math.abs(sireOf([...inPen, byRook], "a2", "Rook") - want)).toBeLessThan(0.03);
    expect(sireOf([...inPen, byRook], "a1", "Rook")).toBeGreaterThan(0.97);
    expect(sireOf(inPen, "a2", "Rook")).toBeCloseTo((1 - WRONG_SIRE.value) / 2, 1);
  });

  test("[AD-103] bucks of two heats cannot both be of one litter; bucks of one heat, or of days nobody wrote down, can", () => {
    const [first, later] = [service("Ash", ["Rook"], "2024-09-30"), service("Ash", ["Jay"], "2024-10-06")];
    expect(mixedIn(inPen)).toBe(mixed);
    expect(mixedIn([...stock, first, later, twins])).toBe(0);
    expect(mixedIn([...stock, first, service("Ash", ["Jay"], "2024-10-02"), twins])).toBe(mixed);
    expect(mixedIn([...stock, kidding("Ash", "2025-03-01", { a1: "doe", a2: "doe" }, ["Rook", "Jay"])])).toBe(mixed);
    expect(mixedIn([...stock, kidding("Ash", "2025-03-01", { a1: "doe", a2: "doe" }, ["Rook"])])).toBe(0);
    const apart = [...stock, first, later, twins, byRook];
    expect(sireOf(apart, "a2", "Rook")).toBeGreaterThan(0.97);
  });

  test("[AD-103] a kid that cannot be the written buck's puts him in doubt for its mate", () => {
    const written = [...stock, kidding("Ash", "2025-03-01", { a1: "doe", a2: "doe" }, ["Jay"])];
    const tests = [1, 2, 3].map(() => byRook);
    expect(sireOf(written, "a2", undefined)).toBeCloseTo(WRONG_SIRE.value, 4);
    expect(sireOf([...written, ...tests], "a2", undefined)).toBeCloseTo(
      sireOf([...written, ...tests], "a1", undefined),
      12,
    );
    expect(sireOf([...written, ...tests], "a2", undefined)).toBeGreaterThan(0.5);
  });

  test("[AD-104] a twin's own written sire speaks for the other, who was left open; a stranger's does not", () => {
    const told = (sire: string) => anEntry("animal", { animal: animalId("a1"), sex: "doe", sire: animalId(sire) });
    const rook = [...inPen, told("Rook")];
    expect(sireOf(rook, "a1", "Rook")).toBeCloseTo(1 - WRONG_SIRE.value, 3);
    expect(Math.abs(sireOf(rook, "a2", "Rook") - (1 - mixed / 2))).toBeLessThan(0.02);
    const stranger = [...inPen, goat("Finch", "buck"), told("Finch")];
    const alone = [...inPen.slice(0, -1), goat("Finch", "buck"), kidding("Ash", "2025-03-01", { a2: "doe" })];
    expect(sireOf(stranger, "a2", "Rook")).toBeCloseTo(sireOf(alone, "a2", "Rook"), 6);
  });

  // By hand: a quarter of the dam's 1/2; and of the sire's 1/2, a quarter where they have one.
  test("[AD-106] twins of a pen are full sibs as often as litters have one sire, and half sibs else", () => {
    const { kin } = herdKinship(situation(inPen, TODAY));
    const same = 1 - mixed + mixed / 2;
    expect(kin.kinship(id("a1"), id("a2"))).toBeCloseTo(1 / 8 + same / 8, 2);
    const known = herdKinship(situation([...inPen, byRook, dnaTest("a2", ["p", "p"])], TODAY)).kin;
    expect(known.kinship(id("a1"), id("a2"))).toBeLessThan(0.14);
  });
});

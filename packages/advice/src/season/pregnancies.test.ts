import { addDays, day, present } from "@pollard/base";
import { type Entry } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import { describe, expect, test } from "vitest";
import { goat, id, kidding, service, situation } from "../testing.ts";
import { type ExpectedDoe, expectedDoes, kiddingDays } from "./pregnancies.ts";

const herd = [
  goat("Ash", "doe", { head: "horned" }),
  goat("Rook", "buck", { head: "horned" }),
  goat("Flint", "buck", { head: "horned" }),
];
const heat = (on: string): Entry => anEntry("heat", { doe: id("Ash") }, { on });
const scan = (on: string, found: "pregnant" | "empty", kids?: number): Entry =>
  anEntry(
    "pregnancy-check",
    { doe: id("Ash"), way: "ultrasound", found, ...(kids === undefined ? {} : { kids }) },
    { on },
  );
const lost = (on: string): Entry => anEntry("abortion", { doe: id("Ash") }, { on });

const expected = (today: string, ...more: readonly Entry[]): ExpectedDoe | undefined =>
  expectedDoes(situation([...herd, ...more], today))[0];
const ash = (today: string, ...more: readonly Entry[]): ExpectedDoe => present(expected(today, ...more), "Ash");

const OCTOBER = service("Ash", ["Rook"], "2025-10-05");

describe("what to expect of a doe that was served", () => {
  test("[AD-30] not served, nothing to expect", () => {
    expect(expected("2025-12-01")).toBeUndefined();
  });

  test("[AD-30] served once: due five months on, by the buck she was with", () => {
    const doe = ash("2025-12-01", OCTOBER);
    expect(doe.inKid).toBeCloseTo(0.8, 6);
    expect([addDays(day("2025-10-05"), 150), addDays(day("2025-10-05"), 151)]).toContain(doe.days?.likely);
    expect(doe.sires[0]?.sire?.name).toBe("Rook");
  });

  test("[AD-30] once she has kidded or lost her kids, the service is done with", () => {
    expect(expected("2026-03-10", OCTOBER, kidding("Ash", "2026-03-04", { Moss: "doe" }))).toBeUndefined();
    expect(expected("2026-01-10", OCTOBER, lost("2026-01-04"))).toBeUndefined();
    const again = ash("2026-03-10", OCTOBER, lost("2026-01-04"), service("Ash", ["Flint"], "2026-02-01"));
    expect(again.sires[0]?.sire?.name).toBe("Flint");
  });

  test("[AD-31] a scan, a heat and kids counted move what is expected", () => {
    expect(ash("2025-12-01", OCTOBER, scan("2025-11-25", "pregnant")).inKid).toBeGreaterThan(0.99);
    expect(expected("2026-01-20", OCTOBER, scan("2025-11-25", "empty"), heat("2026-01-10"))).toBeUndefined();
    expect(ash("2025-12-01", OCTOBER, heat("2025-10-26")).inKid).toBeLessThan(0.2);
    const three = ash("2025-12-10", OCTOBER, scan("2025-12-01", "pregnant", 3));
    expect(three.meanKids).toBeGreaterThan(ash("2025-12-10", OCTOBER).meanKids + 0.5);
  });

  test("[AD-31] a second service three weeks on: the later day and buck are likelier", () => {
    const doe = ash("2025-11-20", OCTOBER, service("Ash", ["Flint"], "2025-10-26"));
    expect(doe.sires[0]?.sire?.name).toBe("Flint");
    expect((doe.days?.likely ?? "") > "2026-03-20").toBe(true);
  });

  test("[AD-31] heat is to be watched for at three and six weeks, until those days are over", () => {
    expect(ash("2025-10-06", OCTOBER).returns).toEqual([
      { from: "2025-10-23", to: "2025-10-29" },
      { from: "2025-11-13", to: "2025-11-19" },
    ]);
    expect(ash("2025-11-01", OCTOBER).returns).toHaveLength(1);
  });

  test("[AD-31] past her time she is less and less likely in kid, and then off the list", () => {
    expect(ash("2026-03-08", OCTOBER).inKid).toBeLessThan(0.5);
    expect(expected("2026-03-25", OCTOBER)).toBeUndefined();
    expect(kiddingDays(situation([...herd, OCTOBER], "2026-03-08").herd, id("Ash"))?.to).toBe("2026-03-09");
  });

  test("[AD-32] horned by horned gives horned kids, but for the error of records", () => {
    expect(ash("2025-12-01", OCTOBER).horned).toBeGreaterThan(0.95);
  });

  test("[AD-32] a polled buck of horned does: what is learnt of him moves the kids to come", () => {
    const polled = [goat("Ash", "doe", { head: "horned" }), goat("Rook", "buck", { head: "polled" })];
    const horned = (entries: readonly Entry[]) =>
      present(expectedDoes(situation([...polled, OCTOBER, ...entries], "2025-12-01"))[0], "Ash").horned;
    const earlier = [
      goat("Elm", "doe", { head: "horned" }),
      kidding("Elm", "2024-03-01", { Burr: "buck" }, ["Rook"]),
      anEntry("outcome", { animal: id("Burr"), left: "horn", right: "horn" }, { on: "2024-09-01" }),
    ];
    expect(horned(earlier)).toBeGreaterThan(horned([]));
    expect(horned(earlier)).toBeCloseTo(0.5, 1);
  });
});

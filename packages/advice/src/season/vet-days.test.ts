import { addDays, day, daysFrom, present } from "@pollard/base";
import { loadSolver } from "@pollard/planning";
import type { Entry } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import { describe, expect, test } from "vitest";
import { choice, goat, HORNED_SIGNS, id, kidding, reading, service, situation } from "../testing.ts";
import { buckWorlds, comingKids, vetDaysModel, type VetDaysOptions } from "./vet-days.ts";
import { visitWishes } from "./visit-wishes.ts";

const NAMES = ["Ash", "Elm", "Oak", "Yew", "Fir", "Bay"];
const does = NAMES.map((name) => goat(name, "doe", { head: "horned" }));
const herd = [...does, goat("Rook", "buck", { head: "horned" })];
const setting = (key: string, value: string | number): Entry =>
  anEntry("setting", { key, value }, { on: "2025-11-01" });
const visit = (on: string): Entry => anEntry("vet-day", {}, { on });
/** Served in two bunches, five weeks apart. */
const served = NAMES.map((name, i) => service(name, ["Rook"], i < 3 ? "2025-10-05" : "2025-11-09"));

const model = (today: string, entries: readonly Entry[], options: VetDaysOptions = {}) =>
  vetDaysModel(situation([...herd, ...entries], today), options);

describe("vet days", () => {
  test("[AD-33] nobody served, nobody born: no visit to ask for", () => {
    expect(model("2025-12-01", [])).toMatchObject({ visits: [], heads: 0, does: 0, kids: 0 });
  });

  test("[AD-33] in December, from services alone: visits for both bunches, after the kids are due", () => {
    const { visits, heads, missed, does: carrying } = model("2025-12-01", served);
    expect(carrying).toBe(6);
    expect(heads).toBeGreaterThan(6);
    expect(missed).toBeLessThan(0.5);
    const due = addDays(day("2025-10-05"), 150);
    expect(daysFrom(due, present(visits[0], "a visit").day)).toBeGreaterThan(1);
    expect(visits.some((v) => daysFrom(due, v.day) > 35)).toBe(true);
    for (const v of visits) expect(v.low <= v.expected && v.expected <= v.high).toBe(true);
  });

  test("[AD-33] kids that are born take the place of what was expected", () => {
    const born = [kidding("Ash", "2026-03-04", { Moss: "doe" }, ["Rook"]), reading("Moss", "2026-03-06", HORNED_SIGNS)];
    const { visits, kids } = model("2026-03-06", [...served, ...born]);
    expect(kids).toBe(1);
    const first = present(visits[0], "a visit");
    expect(first.from.some((f) => f.animal.name === "Moss" && f.what === "kid")).toBe(true);
    expect(first.from.some((f) => f.animal.name === "Ash")).toBe(false);
  });

  test("[AD-7] what is expected of a kid whose head nobody has read is withheld", () => {
    const born = [kidding("Ash", "2026-03-04", { Moss: "doe", Fern: "doe" }, ["Rook"])];
    const read = reading("Moss", "2026-03-06", HORNED_SIGNS);
    const from = present(model("2026-03-06", [...born, read]).visits[0], "a visit").from;
    expect(from.find((f) => f.animal.name === "Moss")?.expected).toBeGreaterThan(0.9);
    expect(from.find((f) => f.animal.name === "Fern")).toMatchObject({ expected: undefined });
  });

  test("[AD-33] a kid that the keeper has chosen to leave asks for no visit", () => {
    const born = [
      kidding("Ash", "2026-03-04", { Moss: "doe" }, ["Rook"]),
      reading("Moss", "2026-03-06", HORNED_SIGNS),
      choice("Moss", "2026-03-06", "leave"),
    ];
    expect(model("2026-03-06", born).visits).toEqual([]);
  });

  test("[AD-34] a visit agreed with the vet is kept, and others are chosen around it", () => {
    const { visits } = model("2025-12-01", [...served, visit("2026-03-12")]);
    expect(visits.find((v) => v.day === "2026-03-12")?.state).toBe("agreed");
    expect(visits.filter((v) => v.state === "proposed").length).toBeGreaterThan(0);
  });

  test("[AD-34] only the vet's weekdays, and none of the blocked days", () => {
    const entries = [
      ...served,
      setting("vet-weekdays", "tue, thu"),
      setting("vet-blocked-days", "2026-03-01..2026-03-12"),
    ];
    const { visits } = model("2025-12-01", entries);
    expect(visitWishes(situation([...herd, ...entries], "2025-12-01").herd)).toMatchObject({ weekdays: [1, 3] });
    expect(visits.length).toBeGreaterThan(0);
    for (const v of visits) expect(v.day < "2026-03-01" || v.day > "2026-03-12").toBe(true);
  });

  test("[AD-34] settings that are nonsense are left aside", () => {
    const nonsense = [
      setting("vet-weekdays", "whenever"),
      setting("vet-blocked-days", "soon"),
      setting("vet-most-heads", -3),
    ];
    expect(visitWishes(situation(nonsense, "2025-12-01").herd)).toEqual({
      weekdays: [0, 1, 2, 3, 4, 5, 6],
      blocked: [],
      mostHeads: undefined,
    });
  });

  test("[AD-34] days may be pinned and forbidden to see what changes", () => {
    const free = model("2025-12-01", served);
    const first = present(free.visits[0], "a visit").day;
    const without = model("2025-12-01", served, { forbid: [first] });
    expect(without.visits.some((v) => v.day === first)).toBe(false);
    const pinned = model("2025-12-01", served, { pin: [day("2026-02-01")] });
    expect(pinned.visits.some((v) => v.day === "2026-02-01")).toBe(true);
  });

  test("[AD-35] one visit fewer has its price; one more gains", () => {
    const { fewer, more, visits } = model("2025-12-01", served);
    expect(fewer?.days).toHaveLength(visits.length - 1);
    expect((fewer?.missed ?? 0) + (fewer?.lateDays ?? 0)).toBeGreaterThan(0);
    expect((more?.missed ?? 0) + (more?.lateDays ?? 0)).toBeLessThan(0);
  });

  test("[AD-34] a visit that can take two heads only: more visits, and the limit is kept", async () => {
    const solver = await loadSolver();
    const limited = [...served, setting("vet-most-heads", 2), setting("vet-weekdays", "tue fri")];
    const free = model("2025-12-01", served);
    const { visits, limit } = model("2025-12-01", limited, { solver });
    expect(limit).toMatchObject({ heads: 2, kept: "yes" });
    expect(visits.length).toBeGreaterThan(free.visits.length);
    for (const { taken } of visits) expect(taken).toBeLessThanOrEqual(2.001);
    expect(model("2025-12-01", limited).limit).toMatchObject({ kept: "not-asked" });
  });

  test("[AD-33] one unproven buck on all does: the heads come together or not at all", () => {
    const polled = [...does, goat("Rook", "buck", { head: "polled" })];
    const now = situation([...polled, ...served], "2025-12-01");
    const coming = comingKids(now);
    const worlds = buckWorlds(now, coming);
    expect(worlds.reduce((sum, w) => sum + w.chance, 0)).toBeCloseTo(1, 6);
    expect(worlds.length).toBeGreaterThan(1);
    // Over his genotypes each doe's kids need what they are expected to need.
    for (const { id: doe, needs } of coming) {
      const over = worlds.reduce((sum, w) => sum + w.chance * (w.needs.get(doe) ?? Number.NaN), 0);
      expect(over).toBeCloseTo(needs, 6);
    }
    // As PP none of his kids is horned, but for a buck nobody wrote down; as Pp half are.
    const needs = worlds.map((w) => w.needs.get("Ash") ?? Number.NaN);
    expect(Math.min(...needs)).toBeLessThan(0.02);
    expect(needs.some((n) => Math.abs(n - 0.5) < 0.02)).toBe(true);
  });

  test("[AD-33] a kid that came early is late only from its due date's best days", () => {
    const early = [service("Ash", ["Rook"], "2025-10-10"), kidding("Ash", "2026-03-02", { Moss: "doe" }, ["Rook"])];
    const [moss] = comingKids(situation([...herd, ...early], "2026-03-06")).filter((c) => c.what === "kid");
    expect(moss?.early).toBeGreaterThan(4);
  });

  test("[AD-33] a doe that is not counted on does not ask for visits", () => {
    const empty = NAMES.map((name) =>
      anEntry("pregnancy-check", { doe: id(name), way: "ultrasound", found: "empty" }, { on: "2026-01-15" }),
    );
    expect(model("2026-01-20", [...served, ...empty]).heads).toBeLessThan(1);
  });

  describe("regressions", () => {
    test("[AD-33] three hundred does in pens for weeks: an answer, not a stack that overflows", () => {
      const many = Array.from({ length: 300 }, (_, i) => `Doe${i}`);
      const entries = many.flatMap((name) => [
        goat(name, "doe", { head: "horned" }),
        service(name, ["Rook"], "2025-10-05", "2025-11-09"),
      ]);
      expect(model("2025-12-15", entries).does).toBe(300);
    });
  });
});

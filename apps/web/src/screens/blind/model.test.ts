import type { HornsBelief, KidAdvice, KidModel } from "@pollard/advice";
import { day, probability } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { describe, expect, test } from "vitest";
import { gateOf } from "./model.ts";

const advice: KidAdvice = { kind: "ring-vet", end: day("2026-03-25"), rule: "AD-8" };
const kidReadBy = (readers: readonly string[], over: Partial<KidModel> = {}): KidModel => ({
  kid: { id: animalId("k1"), name: "Pip", tag: undefined, mark: undefined, sex: "doe", damName: undefined },
  dam: undefined,
  sires: [],
  ages: { born: day("2026-03-11"), ageDays: 7, daysFromDue: undefined, early: undefined },
  belief: {
    horns: probability(0.8),
    low: probability(0.7),
    high: probability(0.9),
    forecast: probability(0.5),
    unlearnt: probability(0.8),
    learntFrom: 0,
    counted: { of: 10, count: 8, sense: "about" },
    weighed: [],
    readings: readers.length,
    readers,
  } satisfies HornsBelief,
  advice,
  chosen: undefined,
  apart: [],
  fourBuds: false,
  intersexWatch: false,
  ...over,
});
const asked = { who: "Tobias", reading: "none", shown: "not-asked-for" } as const;

describe("a second reader", () => {
  test("[UI-81] who has not read a head that others have is offered to read it first", () => {
    expect(gateOf({ kid: kidReadBy(["Ines"]), ...asked })).toBe("read-first");
  });

  test("[UI-81] their own reader sees the answer, and so does whoever asks for it", () => {
    expect(gateOf({ kid: kidReadBy(["Ines", "Tobias"]), ...asked })).toBe("open");
    expect(gateOf({ kid: kidReadBy(["Ines"]), ...asked, shown: "asked-for" })).toBe("open");
  });

  test("[UI-81] while a reading stands open, its own reader is blind too", () => {
    expect(gateOf({ kid: kidReadBy(["Ines", "Tobias"]), ...asked, reading: "open" })).toBe("under-way");
  });

  test("[UI-81] nothing is hidden where nothing is said yet, or where nothing is left to decide", () => {
    expect(gateOf({ kid: kidReadBy([], { belief: undefined }), ...asked })).toBe("open");
    const done: KidAdvice = { kind: "done", what: "disbudded", rule: "AD-6" };
    expect(gateOf({ kid: kidReadBy(["Ines"], { advice: done }), ...asked })).toBe("open");
  });
});

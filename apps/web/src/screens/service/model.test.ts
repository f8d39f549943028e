import type { AnimalLine } from "@pollard/advice";
import { addDays, day, daysFrom } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { describe, expect, test } from "vitest";
import { englishCatalogue, screens } from "@pollard/words";
import { isGrown } from "../../parts/grown.ts";
import {
  bothPolled,
  cautionsAsked,
  matingSaid,
  penEnds,
  readService,
  type ServiceAnswers,
  serviceFacts,
  serviceMissing,
} from "./model.ts";

const on = day("2026-03-18");
const goat = (id: string, head: AnimalLine["head"], born?: string): AnimalLine => ({
  ref: { id: animalId(id), name: id, tag: undefined, mark: undefined, sex: "doe", damName: undefined },
  born: born === undefined ? undefined : day(born),
  chip: undefined,
  gone: false,
  urgency: undefined,
  surety: "open",
  head,
});

describe("a mating", () => {
  test("[UI-29] two bucks that it could be are both kept; only a spell in a pen has an end", () => {
    const pen = { does: ["hazel"], bucks: ["rook", "gale"], way: "pen", on } as const;
    const body = { doe: "hazel", bucks: ["rook", "gale"] };
    const until = day("2026-03-30");
    expect(serviceFacts({ ...pen, until })?.map((fact) => fact.body)).toEqual([{ ...body, way: "pen", until }]);
    expect(serviceFacts({ ...pen, way: "hand", until })?.map((fact) => fact.body)).toEqual([{ ...body, way: "hand" }]);
    expect(serviceFacts({ ...pen, until, bucks: [] })).toBe(undefined);
  });

  test("[UI-352] a spell in a pen is not stored without its end, nor with one before its beginning", () => {
    const pen = { does: ["hazel"], bucks: ["rook"], way: "pen", on } as const;
    for (const wrong of [pen, { ...pen, until: day("2026-03-01") }]) {
      expect(serviceFacts(wrong)).toBe(undefined);
      expect(serviceMissing(wrong)).toEqual(["until"]);
    }
    expect(penEnds(on, on).map(({ day: end }) => daysFrom(on, end))).toEqual([21, 42]);
    expect(penEnds(on, addDays(on, 5)).map(({ day: end }) => daysFrom(on, end))).toEqual([5, 21, 42]);
  });

  test("[UI-353] does that ran together each have a mating of their own", () => {
    const facts = serviceFacts({ does: ["hazel", "moth"], bucks: ["rook"], way: "pen", on, until: addDays(on, 21) });
    expect(facts?.map((fact) => fact.kind === "service" && fact.body.doe)).toEqual(["hazel", "moth"]);
  });

  test("[AD-49] cautions are asked as soon as there is a doe, as of the day of the mating, else today", () => {
    expect(cautionsAsked({ does: [], bucks: ["rook"] }, on)).toEqual([]);
    expect(cautionsAsked({ does: ["hazel"], bucks: [] }, on)).toEqual([{ doe: "hazel", bucks: [], on }]);
    const march = { bucks: ["rook"], on: day("2026-03-01") };
    expect(cautionsAsked({ ...march, does: ["hazel", "moth"] }, on)).toEqual([
      { ...march, doe: "hazel" },
      { ...march, doe: "moth" },
    ]);
  });

  test("[UI-29] two polled parents are warned of before the mating is stored", () => {
    const herd = [goat("hazel", "polled"), goat("moth", "horned"), goat("rook", "polled"), goat("gale", "horned")];
    const polled = (does: readonly string[], bucks: readonly string[]) =>
      bothPolled({ does, bucks }, herd).map(({ id }) => id);
    expect(polled(["hazel"], ["gale", "rook"])).toEqual(["hazel", "rook"]);
    expect(polled(["hazel"], ["gale"])).toEqual([]);
    expect(polled([], ["rook"])).toEqual([]);
    expect(polled(["moth", "hazel"], ["rook"])).toEqual(["hazel", "rook"]);
  });

  test("[UI-29] kids too young to breed are not offered", () => {
    expect([
      isGrown(goat("a", "unknown", "2026-03-01"), on),
      isGrown(goat("b", "unknown", "2025-03-01"), on),
      isGrown(goat("c", "unknown"), on),
    ]).toEqual([false, true, true]);
  });

  const three = [goat("hazel", "horned"), goat("moth", "horned"), goat("rook", "horned"), goat("gale", "horned")];

  test("[UI-373] what is on disk comes back the same, but for goats that can be chosen no more", () => {
    const draft: ServiceAnswers = { does: ["hazel", "moth"], bucks: ["rook"], way: "pen", on, until: addDays(on, 21) };
    const stored: unknown = JSON.parse(JSON.stringify(draft));
    expect(readService(stored, three)).toEqual(draft);
    expect(readService(stored, [goat("moth", "horned")])).toEqual({ ...draft, does: ["moth"], bucks: [] });
    expect(readService("something else", three)).toBe(undefined);
    expect(readService({ does: ["hazel"] }, three)).toBe(undefined);
  });

  test("[UI-372] what was stored is said by does and bucks", () => {
    const words = englishCatalogue.words(() => goat("rook", "horned").ref);
    expect(matingSaid(screens, words, { does: ["hazel"], bucks: ["rook"] }, three)).toBe("Mating: hazel with rook");
    expect(matingSaid(screens, words, { does: ["hazel", "moth"], bucks: ["rook", "gale"] }, three)).toBe(
      "Mating: hazel and moth with rook or gale",
    );
  });

  test("[UI-220] what is still to be said, in the order in which it is asked; nothing where it can be stored", () => {
    expect(serviceMissing({ does: [], bucks: [] })).toEqual(["does", "bucks", "way", "on"]);
    expect(serviceMissing({ does: ["hazel"], bucks: ["rook"], way: "pen" })).toEqual(["on", "until"]);
    expect(serviceMissing({ does: ["hazel"], bucks: ["rook"], way: "hand", on })).toEqual([]);
  });
});

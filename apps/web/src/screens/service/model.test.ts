import type { AnimalLine } from "@pollard/advice";
import { day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { describe, expect, test } from "vitest";
import { isGrown } from "../../parts/grown.ts";
import { bothPolled, cautionsAsked, serviceFact, serviceMissing } from "./model.ts";

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
  test("[UI-29] two bucks that it could be are both kept, and a pen ends no earlier than it begins", () => {
    const pen = { doe: "hazel", bucks: ["rook", "gale"], way: "pen", on } as const;
    expect(serviceFact({ ...pen, until: day("2026-03-30") })?.body).toEqual({
      doe: "hazel",
      bucks: ["rook", "gale"],
      way: "pen",
      until: "2026-03-30",
    });
    expect(serviceFact({ ...pen, until: day("2026-03-01") })?.body).toEqual({
      doe: "hazel",
      bucks: ["rook", "gale"],
      way: "pen",
    });
    expect(serviceFact({ ...pen, way: "hand", until: day("2026-03-30") })?.body).toEqual({
      doe: "hazel",
      bucks: ["rook", "gale"],
      way: "hand",
    });
    expect(serviceFact({ ...pen, bucks: [] })).toBe(undefined);
  });

  test("[AD-49] cautions are asked as soon as there is a doe, as of the day of the mating, else today", () => {
    expect(cautionsAsked({ bucks: ["rook"] }, on)).toBe(undefined);
    expect(cautionsAsked({ doe: "hazel", bucks: [] }, on)).toEqual({ doe: "hazel", bucks: [], on });
    const march = { doe: "hazel", bucks: ["rook"], on: day("2026-03-01") };
    expect(cautionsAsked(march, on)).toEqual(march);
  });

  test("[UI-29] two polled parents are warned of before the mating is stored", () => {
    const herd = [goat("hazel", "polled"), goat("rook", "polled"), goat("gale", "horned")];
    expect(bothPolled({ doe: "hazel", bucks: ["gale", "rook"] }, herd)).toBe(true);
    expect(bothPolled({ doe: "hazel", bucks: ["gale"] }, herd)).toBe(false);
    expect(bothPolled({ bucks: ["rook"] }, herd)).toBe(false);
  });

  test("[UI-29] kids too young to breed are not offered", () => {
    expect([
      isGrown(goat("a", "unknown", "2026-03-01"), on),
      isGrown(goat("b", "unknown", "2025-03-01"), on),
      isGrown(goat("c", "unknown"), on),
    ]).toEqual([false, true, true]);
  });

  test("[UI-220] what is still to be said, in the order in which it is asked; nothing where it can be stored", () => {
    expect(serviceMissing({ bucks: [] })).toEqual(["doe", "bucks", "way", "on"]);
    expect(serviceMissing({ doe: "hazel", bucks: ["rook"], way: "pen" })).toEqual(["on"]);
    expect(serviceMissing({ doe: "hazel", bucks: ["rook"], way: "hand", on })).toEqual([]);
  });
});

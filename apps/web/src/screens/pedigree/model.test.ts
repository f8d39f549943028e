import type { HerdBookLine } from "@pollard/advice";
import { day, present, probability } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { familyOf } from "./family.ts";
import { layoutOf } from "./layout.ts";
import { fillOf, listed, roman, stripsOf, symbolAfter, zoomAfter, ZOOMS } from "./model.ts";

const ref = (name: string) => ({
  id: animalId(name),
  name,
  tag: undefined,
  mark: undefined,
  sex: name.startsWith("B") ? ("buck" as const) : ("doe" as const),
  damName: undefined,
});
const goat = (name: string, dam?: string, sire?: string): HerdBookLine => ({
  ref: ref(name),
  sex: ref(name).sex,
  born: day("2024-01-01"),
  where: "here",
  dam: dam === undefined ? undefined : ref(dam),
  sires: sire === undefined ? [] : [{ sire: ref(sire), chance: probability(1) }],
  kids: 0,
  genotype: undefined,
  head: undefined,
  intersex: "not-seen",
  inbreeding: 0,
  weight: undefined,
  losses: [],
});
const drawn = (lines: readonly HerdBookLine[]) => {
  const family = familyOf(lines, { who: "one", id: "Moth", generations: 3 }, new Set());
  return { family, layout: layoutOf(family) };
};
const { family, layout } = drawn([
  goat("Brook"),
  goat("Hazel"),
  goat("Moth", "Hazel", "Brook"),
  goat("Plover", "Hazel", "Brook"),
  goat("Birch"),
  goat("Pip", "Moth", "Birch"),
]);
const after = (key: string, from: string, shiftKey = false) => symbolAfter({ key, shiftKey }, from, family, layout);

const believed = (PP: number, Pp: number, pp: number, surety: "proven" | "open"): HerdBookLine => ({
  ...goat("Moth"),
  genotype: {
    belief: { PP: probability(PP), Pp: probability(Pp), pp: probability(pp) },
    surety,
    polled: { of: 4, count: 3, sense: "about" },
    carrier: { of: 4, count: 2, sense: "about" },
    kidsKnown: 0,
    kidsHorned: 0,
    tests: 0,
  },
});

describe("walking the pedigree", () => {
  test("[UI-122] arrows lead to sire, dam, kid and neighbour; M to the mate; Home to the goat in question", () => {
    expect(after("ArrowUp", "Moth")).toBe("Brook");
    expect(after("ArrowUp", "Moth", true)).toBe("Hazel");
    expect(after("ArrowDown", "Hazel")).toBe("Moth");
    expect(after("m", "Moth")).toBe("Birch");
    expect(after("M", "Birch")).toBe("Moth");
    expect(after("Home", "Pip")).toBe("Moth");
    expect(after("ArrowUp", "Brook")).toBeUndefined();
    expect(["Brook", "Hazel"].map((id) => after("ArrowRight", id))).toEqual(["Hazel", undefined]);
    expect(after("x", "Moth")).toBeUndefined();
  });

  test("[UI-122] sizes go up and down by one and stop at the ends", () => {
    expect(zoomAfter(1, "bigger")).toBe(1.4);
    expect(zoomAfter(0.6, "smaller")).toBe(0.5);
    expect(zoomAfter(ZOOMS[0], "smaller")).toBe(ZOOMS[0]);
  });

  test("[UI-123] what is as good as known is filled by genotype; else each part is as large as its chance", () => {
    expect(fillOf(believed(0, 1, 0, "proven"))).toEqual({ way: "known", genotype: "Pp" });
    expect(fillOf(believed(0.25, 0.5, 0.25, "open"))).toEqual({ way: "inferred", pp: 0.25, Pp: 0.5 });
    expect(fillOf(goat("Moth"))).toEqual({ way: "not-shown" });
  });

  test("[UI-123] the list holds every symbol once, under its parents", () => {
    const [first, second, third] = listed(family, layout);
    expect(first?.founders.map(({ id }) => id)).toEqual(["Brook", "Hazel"]);
    expect(second?.matings[0]?.kids.map(({ id }) => id)).toEqual(["Moth", "Plover"]);
    expect(third?.matings[0]?.mating.dam.symbol).toBe("Moth");
  });

  describe("laws", () => {
    test("[UI-122] no key leads off the drawing, and up again from a first kid leads back", () => {
      const keys = fc.constantFrom("ArrowUp", "ArrowDown", "ArrowLeft", "ArrowRight", "m", "Home");
      fc.assert(
        fc.property(fc.array(fc.tuple(keys, fc.boolean()), { maxLength: 12 }), (pressed) => {
          let at = "Moth";
          for (const [key, shiftKey] of pressed) {
            const kid = after("ArrowDown", at);
            if (kid !== undefined) expect([after("ArrowUp", kid), after("ArrowUp", kid, true)]).toContain(at);
            at = after(key, at, shiftKey) ?? at;
            expect(family.symbols.has(at)).toBe(true);
          }
        }),
      );
    });

    test("[UI-124] strips cover the whole drawing, each can be read, and what is cut stands whole on one of two", () => {
      fc.assert(
        fc.property(fc.integer({ min: 100, max: 30_000 }), (width) => {
          const strips = stripsOf(width);
          expect(strips[0]?.from).toBe(0);
          expect((strips.at(-1)?.from ?? 0) + (strips.at(-1)?.width ?? 0)).toBeCloseTo(width, 6);
          for (const [i, strip] of strips.entries()) {
            expect(strip.width).toBeLessThanOrEqual(1300);
            const next = strips[i + 1];
            if (next !== undefined) expect(strip.from + strip.width - next.from).toBeGreaterThanOrEqual(92);
          }
        }),
      );
    });

    test("[UI-123] the list and the drawing hold the same symbols", () => {
      const parents = fc.array(fc.tuple(fc.nat(5), fc.nat(5)), { maxLength: 12 });
      fc.assert(
        fc.property(parents, (kids) => {
          const lines = [goat("B0"), goat("B1"), goat("d0"), goat("Moth")];
          for (const [i, [d, b]] of kids.entries()) {
            const does = lines.filter(({ sex }) => sex === "doe");
            const dam = present(does[d % does.length], "a doe").ref.name;
            lines.push(goat(`k${i}`, dam, b === 5 ? undefined : `B${b % 2}`));
          }
          const all = familyOf(lines, { who: "all" }, new Set());
          const inList = listed(all, layoutOf(all)).flatMap(({ founders, matings }) => [
            ...founders,
            ...matings.flatMap((mating) => mating.kids),
          ]);
          const known = [...all.symbols.values()].filter(({ kind }) => kind !== "unknown");
          expect(inList.map(({ id }) => id).sort()).toEqual(known.map(({ id }) => id).sort());
        }),
      );
    });
  });

  test("[UI-123] generations are numbered as pedigrees are: Roman numerals", () => {
    // The usual subtractive notation; values from any table of Roman numerals.
    expect([1, 4, 9, 10, 14].map(roman)).toEqual(["I", "IV", "IX", "X", "XIV"]);
  });
});

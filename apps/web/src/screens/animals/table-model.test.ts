import type { AnimalLine, HerdBookLine } from "@pollard/advice";
import { day, probability } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { sorted } from "../../parts/lists/sorted.ts";
import { COLUMNS, genesOf, polledOf, rowsOf, siresOf, soughtGoats, valueOf, yearsOf } from "./table-model.ts";

const ref = (name: string, tag?: string) => ({
  id: animalId(name),
  name,
  tag,
  mark: undefined,
  sex: "doe" as const,
  damName: undefined,
});
const goat = (name: string, tag: string, born?: string): AnimalLine => ({
  ref: ref(name, tag),
  born: born === undefined ? undefined : day(born),
  chip: undefined,
  gone: false,
  urgency: undefined,
  surety: "open",
  head: "unknown",
});
const book = (name: string, over: Partial<HerdBookLine> = {}): HerdBookLine => ({
  ref: ref(name),
  sex: "doe",
  born: undefined,
  where: "here",
  dam: undefined,
  sires: [],
  kids: 0,
  genotype: undefined,
  head: undefined,
  intersex: "not-seen",
  inbreeding: 0,
  weight: undefined,
  losses: [],
  ...over,
});
const herd = [goat("Hazel", "SB 10", "2021-03-01"), goat("Moth", "SB 9", "2024-03-01"), goat("Sloe", "SB 101")];

describe("the herd's table", () => {
  test("[UI-125] narrowed by part of a name or a tag, and by the year of birth", () => {
    const names = (text: string, year = "") => soughtGoats(herd, { text, year }).map(({ ref: { name } }) => name);
    expect(names("")).toEqual(["Hazel", "Moth", "Sloe"]);
    expect(names("10")).toEqual(["Hazel", "Sloe"]);
    expect(names("mo")).toEqual(["Moth"]);
    expect(names("", "2021")).toEqual(["Hazel"]);
    expect(yearsOf(herd)).toEqual(["2024", "2021"]);
  });

  test("[UI-125] sorted by tag as a reader counts, by weight as a scale does, what is not known last", () => {
    const rows = rowsOf(herd, [
      book("Hazel", { weight: { kg: 61, on: day("2026-01-01") } }),
      book("Moth", { weight: { kg: 9.5, on: day("2026-01-01") } }),
    ]);
    const by = (column: (typeof COLUMNS)[number], way: "up" | "down") =>
      sorted(rows, (row) => valueOf(row, column), way).map(({ goat: { ref: of } }) => of.name);
    expect(by("tag", "up")).toEqual(["Moth", "Hazel", "Sloe"]);
    expect(by("weight", "up")).toEqual(["Moth", "Hazel", "Sloe"]);
    expect(by("weight", "down")).toEqual(["Hazel", "Moth", "Sloe"]);
  });

  test("[UI-125] genes and chance follow the belief, on one denominator; a head still open says neither", () => {
    const belief = { PP: probability(0.2), Pp: probability(0.5), pp: probability(0.3) };
    const genotype = {
      belief,
      surety: "open",
      polled: { of: 10, count: 7, sense: "about" },
      carrier: { of: 4, count: 2, sense: "about" },
      kidsKnown: 0,
      kidsHorned: 0,
      tests: 0,
    } as const;
    const [row, open] = rowsOf(herd, [book("Hazel", { genotype })]);
    expect(row && polledOf(row)).toEqual({ of: 20, count: 14, sense: "about" });
    expect(row && genesOf(row)).toBe("Pp");
    expect(open && [polledOf(open), genesOf(open), valueOf(open, "chance")]).toEqual([undefined, undefined, undefined]);
  });

  test("[UI-125] a sire that is clear stands alone, else all that it may be", () => {
    const sires = (chances: Readonly<Record<string, number>>) =>
      rowsOf(herd, [
        book("Hazel", {
          sires: Object.entries(chances).map(([name, chance]) => ({ sire: ref(name), chance: probability(chance) })),
        }),
      ])
        .slice(0, 1)
        .flatMap(siresOf);
    expect(sires({ Rook: 0.97, Flint: 0.03 })).toEqual(["Rook"]);
    expect(sires({ Rook: 0.6, Flint: 0.4 })).toEqual(["Rook", "Flint"]);
  });

  describe("laws", () => {
    test("[UI-125] sorting by any column loses no goat and finding narrows, never adds", () => {
      fc.assert(
        fc.property(
          fc.constantFrom(...COLUMNS),
          fc.constantFrom("up", "down"),
          fc.string({ maxLength: 3 }),
          (by, way, text) => {
            const found = soughtGoats(herd, { text, year: "" });
            expect(herd).toEqual(expect.arrayContaining([...found]));
            const rows = sorted(rowsOf(found, []), (row) => valueOf(row, by), way);
            expect(rows).toHaveLength(found.length);
            expect(new Set(rows.map(({ goat: each }) => each))).toEqual(new Set(found));
          },
        ),
      );
    });
  });
});

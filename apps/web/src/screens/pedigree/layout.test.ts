import type { HerdBookLine } from "@pollard/advice";
import { type Day, day, present, probability, seededRandom } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { pairsAlone, WIDTHS } from "./blocks.ts";
import { familyOf, type Family } from "./family.ts";
import { HEIGHTS, layoutOf, type PedigreeLayout } from "./layout.ts";
import { inOrder } from "./places.ts";

type Told = readonly [id: string, dam?: string | undefined, sires?: Readonly<Record<string, number>>];

/** A line of the book; an id that begins with B is a buck. Lines are in order of birth. */
function lineOf([id, dam, sires = {}]: Told, born: Day): HerdBookLine {
  const ref = (of: string) => ({
    id: animalId(of),
    name: of,
    tag: undefined,
    mark: undefined,
    sex: of.startsWith("B") ? ("buck" as const) : ("doe" as const),
    damName: undefined,
  });
  return {
    ref: ref(id),
    sex: ref(id).sex,
    born,
    where: "here",
    dam: dam === undefined ? undefined : ref(dam),
    sires: Object.entries(sires).map(([sire, chance]) => ({
      sire: sire === "?" ? undefined : ref(sire),
      chance: probability(chance),
    })),
    kids: 0,
    genotype: undefined,
    head: undefined,
    intersex: "not-seen",
    inbreeding: 0,
    weight: undefined,
    losses: [],
  };
}
const book = (told: readonly Told[]) => told.map((each, i) => lineOf(each, day(`20${10 + (i % 80)}-01-01`)));
const drawnOf = (told: readonly Told[], opened: readonly string[] = []) => {
  const family = familyOf(book(told), { who: "all" }, new Set(opened));
  return { family, layout: layoutOf(family) };
};
const at = (layout: PedigreeLayout, id: string) =>
  present(
    layout.placed.find((each) => each.id === id),
    id,
  );

/** Everything that holds of any drawing. */
function expectWellDrawn({ symbols, matings }: Family, layout: PedigreeLayout): void {
  expect(layout.placed.map(({ id }) => id).sort()).toEqual([...symbols.keys()].sort());
  const rows = [...new Set(layout.placed.map(({ y }) => y))].sort((a, b) => a - b);
  for (const row of rows) {
    const across = layout.placed.flatMap(({ x, y }) => (y === row ? [x] : [])).sort((a, b) => a - b);
    for (const [i, x] of across.entries()) if (i > 0) expect(x - (across[i - 1] ?? 0)).toBeGreaterThan(HEIGHTS.symbol);
  }
  for (const [i, y] of rows.entries())
    if (i > 0) expect(y - (rows[i - 1] ?? 0)).toBeGreaterThan(HEIGHTS.symbol + HEIGHTS.words);
  for (const { sires, dam, kids } of matings) {
    for (const parent of [...sires, dam])
      for (const kid of kids) expect(at(layout, parent.symbol).y).toBeLessThan(at(layout, kid).y);
    const across = kids.map((kid) => at(layout, kid).x);
    expect(across).toEqual(across.toSorted((a, b) => a - b));
  }
}

/** Is the sire left of the dam in every pair that has no other mate, where both stand in one row? */
const sireLeft = ({ matings }: Family, layout: PedigreeLayout): readonly boolean[] =>
  pairsAlone(matings).flatMap(({ sires, dam }) => {
    const [sire, mate] = [at(layout, present(sires[0], "a sire").symbol), at(layout, dam.symbol)];
    return sire.row === mate.row ? [sire.x < mate.x] : [];
  });

const LITTER: readonly Told[] = [
  ["Brook"],
  ["Hazel"],
  ["k1", "Hazel", { Brook: 1 }],
  ["Bk2", "Hazel", { Brook: 1 }],
  ["k3", "Hazel", { Brook: 1 }],
  ["Bk4", "Hazel", { Brook: 1 }],
];

/** Ten generations of thirty from four bucks and twenty-six does, each generation bred within itself and to older bucks. */
function tenGenerations(): readonly Told[] {
  const random = seededRandom(7);
  const told: Told[] = [];
  let parents: { readonly does: string[]; readonly bucks: string[] } = { does: [], bucks: [] };
  for (let generation = 0; generation < 10; generation++) {
    const here: typeof parents = { does: [], bucks: [] };
    for (let i = 0; i < 30; i++) {
      const id = `${i < 4 ? "B" : "d"}${generation}-${i}`;
      (i < 4 ? here.bucks : here.does).push(id);
      const dam = parents.does[Math.floor(random.next() * parents.does.length)];
      const sire = parents.bucks[Math.floor(random.next() * parents.bucks.length)];
      told.push(dam === undefined || sire === undefined ? [id] : [id, dam, { [sire]: 1 }]);
    }
    parents = { does: here.does, bucks: [...parents.bucks.slice(-2), ...here.bucks] };
  }
  return told;
}

describe("the drawn pedigree", () => {
  test("[UI-120] a litter of four below its parents, sire left, in order of birth, all alike kids one by one when opened", () => {
    const { family, layout } = drawnOf(LITTER);
    expectWellDrawn(family, layout);
    expect(at(layout, "Brook").x).toBeLessThan(at(layout, "Hazel").x);
    expect(["k1", "Bk2", "k3", "Bk4"].map((kid) => at(layout, kid).row)).toEqual([2, 2, 2, 2]);
  });

  test("[UI-325] litters of one pair hang apart, each from a line of its own with its year over it", () => {
    const born = (id: string, on: string): HerdBookLine => ({ ...lineOf([id, "Hazel", { Brook: 1 }], day(on)) });
    const lines = [
      lineOf(["Brook"], day("2020-01-01")),
      lineOf(["Hazel"], day("2020-01-01")),
      born("a", "2022-03-01"),
      born("Bb", "2022-03-02"),
      born("c", "2023-03-01"),
    ];
    const family = familyOf(lines, { who: "all" }, new Set());
    const [mating] = family.matings;
    expect(mating?.litters).toEqual([
      { kids: ["a", "Bb"], years: "2022" },
      { kids: ["c"], years: "2023" },
    ]);
    const layout = layoutOf(family);
    expectWellDrawn(family, layout);
    expect(layout.years.map(({ said }) => said)).toEqual(["2022", "2023"]);
    const { y } = at(layout, "a");
    const acrossAt = (height: number) =>
      layout.strokes
        .filter(({ points: [from, to] }) => from?.[1] === height && to?.[1] === height)
        .map(({ points }) => points.map(([x]) => x));
    // The twins share a line that ends at them; the single kid of the next year hangs from none.
    const line = Math.max(
      ...layout.strokes.flatMap(({ points }) => points.map(([, end]) => end)).filter((end) => end < y - 20),
    );
    expect(acrossAt(line)).toEqual([[at(layout, "a").x, at(layout, "Bb").x]]);
    expect(layout.years[0]?.y).toBeLessThan(line);
  });

  test("[UI-325] like kids of several litters stay one symbol, with the first year and the last over it", () => {
    const { family } = drawnOf(LITTER);
    expect(family.matings[0]?.litters.map(({ years }) => years)).toEqual(["2012", "2013", "2014", "2015"]);
    const alike = familyOf(
      book([["Brook"], ["Hazel"], ...["a", "b", "c"].map((id): Told => [id, "Hazel", { Brook: 1 }])]),
      { who: "all" },
      new Set(),
    );
    expect(alike.matings[0]?.litters.map(({ years }) => years)).toEqual(["2012–2014"]);
  });

  test("[UI-326] kids lost before their time hang among their dam's litters, with her and the buck that served her", () => {
    const brook = lineOf(["Brook"], day("2020-01-01"));
    const hazel = lineOf(["Hazel"], day("2020-01-01"));
    const losses = [
      { on: day("2022-01-10"), sire: brook.ref },
      { on: day("2024-01-10"), sire: undefined },
    ];
    const kid = lineOf(["a", "Hazel", { Brook: 1 }], day("2023-03-01"));
    const family = familyOf([brook, { ...hazel, losses }, kid], { who: "all" }, new Set());
    expectWellDrawn(family, layoutOf(family));
    const kinds = (kids: readonly string[]) => kids.map((id) => family.symbols.get(id)?.kind);
    expect(family.matings.map(({ sires, kids }) => [kinds([sires[0]?.symbol ?? ""])[0], kinds(kids)])).toEqual([
      ["animal", ["lost", "animal"]],
      ["unknown", ["lost"]],
    ]);
    expect(family.matings.flatMap(({ litters }) => litters.map(({ years }) => years))).toEqual([
      "2022",
      "2023",
      "2024",
    ]);
    // In her own family he is drawn, though they have no kid.
    const own = familyOf(
      [brook, { ...hazel, losses: losses.slice(0, 1) }],
      { who: "one", id: "Hazel", generations: 1 },
      new Set(),
    );
    expect([...own.symbols.keys()]).toContain("Brook");
  });

  test("[UI-120] a buck with twenty-five does: each doe once, one row, and their kids below", () => {
    const does = Array.from({ length: 25 }, (_, i) => `d${i}`);
    const { family, layout } = drawnOf([
      ["Brook"],
      ...does.map((id): Told => [id]),
      ...does.map((id): Told => [`kid of ${id}`, id, { Brook: 1 }]),
    ]);
    expectWellDrawn(family, layout);
    expect(new Set([...does, "Brook"].map((id) => at(layout, id).row))).toEqual(new Set([1]));
    expect(layout.rows).toHaveLength(2);
    for (const id of does) expect(Math.abs(at(layout, id).x - at(layout, `kid of ${id}`).x)).toBeLessThan(1);
  });

  test("[UI-120] loops: a buck with his daughter and with her daughter, full sisters and brothers bred", () => {
    const { family, layout } = drawnOf([
      ...LITTER,
      ["g1", "k1", { Brook: 1 }],
      ["g2", "g1", { Brook: 1 }],
      ["g3", "k3", { Bk2: 1 }],
    ]);
    expectWellDrawn(family, layout);
    expect(["Brook", "k1", "g1", "g2"].map((id) => at(layout, id).row)).toEqual([1, 2, 3, 4]);
  });

  test("[UI-121] several possible sires are all drawn with their chance, a sire nobody wrote down as unknown", () => {
    const { family, layout } = drawnOf([
      ["Brook"],
      ["Bramble"],
      ["Hazel"],
      ["k1", "Hazel", { Brook: 0.6, Bramble: 0.39, "?": 0.01 }],
      ["k2", "Hazel", {}],
    ]);
    expectWellDrawn(family, layout);
    expect(layout.chances.map(({ counted }) => `${counted.count} of ${counted.of}`)).toEqual(["12 of 20", "8 of 20"]);
    expect([...family.symbols.values()].filter(({ kind }) => kind === "unknown")).toHaveLength(1);
    expect(layout.strokes.some(({ kind }) => kind === "possible")).toBe(true);
  });

  test("[UI-121] three kids that look alike and have no kids are one symbol with a number, until it is opened", () => {
    const told: readonly Told[] = [
      ...LITTER,
      ["k5", "Hazel", { Brook: 1 }],
      ["g", "k5", { Bk4: 1 }],
      ["k6", "Hazel", { Brook: 1 }],
    ];
    const { family, layout } = drawnOf(told);
    expectWellDrawn(family, layout);
    const [many] = [...family.symbols.values()].filter(({ kind }) => kind === "like-kids");
    expect(many?.lines.map(({ ref }) => ref.id)).toEqual(["k1", "k3", "k6"]);
    expect(drawnOf(told, [present(many, "a group").id]).family.symbols.has("k6")).toBe(true);
  });

  test("[UI-121] a record that makes an animal its own ancestor is drawn all the same", () => {
    const { family, layout } = drawnOf([
      ["a", "b"],
      ["b", "a"],
    ]);
    expectWellDrawn(family, layout);
  });

  test("[UI-121] one animal's family: its ancestors, descendants, whom they were bred with, and its own litter", () => {
    const lines = book([...LITTER, ["other"], ["Bother"], ["x", "other", { Bother: 1 }], ["g", "k1", { Bother: 1 }]]);
    const drawn = (generations: number) =>
      [...familyOf(lines, { who: "one", id: "k1", generations }, new Set()).symbols.keys()].sort();
    expect(drawn(1)).toEqual(["Bk2", "Bk4", "Bother", "Brook", "Hazel", "g", "k1", "k3"].sort());
    expect(drawn(0)).toEqual(["Bk2", "Bk4", "k1", "k3"].sort());
  });

  test("[UI-120] a pair from two families has the sire's family left, whichever was written down first", () => {
    const hers: readonly Told[] = [["d1"], ["B1"], ["k", "d1", { B1: 1 }]];
    const his: readonly Told[] = [["d2"], ["B2"], ["Bk", "d2", { B2: 1 }]];
    const theirs: Told = ["g", "k", { Bk: 1 }];
    for (const told of [
      [...hers, ...his, theirs],
      [...his, ...hers, theirs],
    ]) {
      const { layout } = drawnOf(told);
      expect(at(layout, "Bk").x).toBeLessThan(at(layout, "k").x);
    }
  });

  test("[UI-120] three hundred animals in ten generations", () => {
    const { family, layout } = drawnOf(tenGenerations());
    expectWellDrawn(family, layout);
    expect(layout.rows).toHaveLength(10);
    expect([...family.symbols.values()].flatMap(({ lines }) => lines)).toHaveLength(300);
  });

  describe("laws", () => {
    const pedigrees = fc
      .array(fc.tuple(fc.boolean(), fc.nat(), fc.nat(), fc.nat(3)), { minLength: 1, maxLength: 18 })
      .map((drawn): readonly Told[] => {
        const told: Told[] = [];
        for (const [isBuck, d, s, kind] of drawn) {
          const bucks = told.filter(([id]) => id.startsWith("B"));
          const does = told.filter(([id]) => !id.startsWith("B"));
          const dam = kind === 0 ? undefined : does[d % Math.max(1, does.length)]?.[0];
          const sire = kind < 2 ? undefined : bucks[s % Math.max(1, bucks.length)]?.[0];
          const second = kind === 3 ? bucks[(s + 1) % Math.max(1, bucks.length)]?.[0] : undefined;
          const sires: Record<string, number> =
            sire === undefined
              ? {}
              : second === undefined || second === sire
                ? { [sire]: 1 }
                : { [sire]: 0.7, [second]: 0.3 };
          told.push([`${isBuck ? "B" : "d"}${told.length}`, dam, sires]);
        }
        return told;
      });

    test("[UI-120] each symbol once, none over another, parents above kids, kids in order of birth, always the same", () => {
      fc.assert(
        fc.property(pedigrees, (told) => {
          const { family, layout } = drawnOf(told);
          expectWellDrawn(family, layout);
          expect(drawnOf(told).layout).toEqual(layout);
        }),
        { numRuns: 150 },
      );
    });

    test("[UI-120] pairs from other families have the sire left, unless pairs of the same families forbid it", () => {
      let [left, right] = [0, 0];
      fc.assert(
        fc.property(pedigrees, (told) => {
          const { family, layout } = drawnOf(told);
          const pairs = sireLeft(family, layout);
          left += pairs.filter(Boolean).length;
          right += pairs.filter((each) => !each).length;
          const founders = new Set(
            told.filter(([, dam, sires]) => dam === undefined && sires === undefined).map(([id]) => id),
          );
          for (const { sires, dam } of pairsAlone(family.matings)) {
            const sire = present(sires[0], "a sire").symbol;
            if (founders.has(sire) && founders.has(dam.symbol))
              expect(at(layout, sire).x).toBeLessThan(at(layout, dam.symbol).x);
          }
        }),
        { numRuns: 150 },
      );
      expect(left).toBeGreaterThan(50);
      expect(right).toBeLessThan(left / 20);
    });

    test("[UI-120] places in order are no further from what is wanted than any other places in order", () => {
      const wants = fc.array(fc.integer({ min: 0, max: 400 }), { minLength: 1, maxLength: 6 });
      fc.assert(
        fc.property(
          wants,
          fc.array(fc.integer({ min: -60, max: 60 }), { minLength: 6, maxLength: 6 }),
          (wanted, moved) => {
            const row = wanted.map(() => ({ width: 40 }));
            const found = inOrder(
              row,
              wanted.map((want) => ({ at: want, weight: 1 })),
            );
            const miss = (places: readonly number[]) =>
              places.reduce((sum, x, i) => sum + (x - (wanted[i] ?? 0)) ** 2, 0);
            const isInOrder = (places: readonly number[]) =>
              places.every((x, i) => i === 0 || x - (places[i - 1] ?? 0) >= 40 + WIDTHS.between - 1e-9);
            expect(isInOrder(found)).toBe(true);
            const other = found.map((x, i) => x + (moved[i] ?? 0));
            if (isInOrder(other)) expect(miss(found)).toBeLessThanOrEqual(miss(other) + 1e-6);
          },
        ),
      );
    });
  });
});

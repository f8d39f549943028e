import { seededRandom } from "@pollard/base";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import founders from "../../published/inbreeding/founders.json";
import random500 from "../../published/inbreeding/inbreeding_random_500.json";
import random50 from "../../published/inbreeding/inbreeding_random_50.json";
import published from "../../published/inbreeding/published_inbreeding.json";
import effective from "../../published/inbreeding/published_ne.json";
import { type AnimalId, animalId } from "../vocabulary.ts";
import {
  effectiveSizeFromInbreeding,
  effectiveSizeFromNumbers,
  completeGenerations,
  inbreedingRate,
} from "./effective-size.ts";
import { effectiveAncestors, effectiveFounders, founderGenomes, founderShares, marginalAncestors } from "./founders.ts";
import { alleleRetention, founderGenomesByRetention } from "./gene-drop.ts";
import { inbreeding, type Inbreeding } from "./inbreeding.ts";
import { kinship, kinshipToGroup, meanKinship } from "./kinship.ts";
import { numberedPedigree, type Parentage } from "./numbered-pedigree.ts";
import { type DoubtfulParentage, expectedKinship } from "./uncertain-kinship.ts";

const idOf = (n: number): AnimalId => animalId(`a${n}`);
const parent = (n: number | undefined) => (n ? idOf(n) : undefined);
/** Animals 1..n with parents by number, 0 = unknown, as the published files give them. */
const rowsOf = (sire: readonly number[], dam: readonly number[]): Parentage[] =>
  sire.map((s, i) => ({ id: idOf(i + 1), sire: parent(s), dam: parent(dam[i]) }));
const worked = (rows: readonly Parentage[]): Inbreeding => inbreeding(numberedPedigree(rows).pedigree);
const place = (known: Inbreeding, n: number): number => known.pedigree.positions.get(idOf(n)) ?? Number.NaN;
const fOf = (known: Inbreeding, n: number): number => known.f[place(known, n)] ?? Number.NaN;
const relationship = (known: Inbreeding, a: number, b: number) => 2 * kinship(known, place(known, a), place(known, b));

/** The slow way: the whole matrix of relationships, row by row (tabular method). */
function tabular(sire: readonly number[], dam: readonly number[]): number[][] {
  const a: number[][] = [];
  const get = (i: number, j: number): number =>
    i === 0 || j === 0 ? 0 : (a[Math.max(i, j) - 1]?.[Math.min(i, j) - 1] ?? Number.NaN);
  sire.forEach((s, k) => {
    const row = Array.from({ length: k }, (_, j) => (get(j + 1, s) + get(j + 1, dam[k] ?? 0)) / 2);
    a.push([...row, 1 + get(s, dam[k] ?? 0) / 2]);
  });
  return a;
}

/** Animals in order of birth, parents among those before; the parents of one animal differ. */
const anyPedigree = fc.array(fc.tuple(fc.nat(), fc.nat()), { minLength: 1, maxLength: 25 }).map((rows) => {
  const sire: number[] = [];
  const dam: number[] = [];
  rows.forEach(([s, d], i) => {
    sire.push(s % (i + 1));
    dam.push(d % (i + 1) === s % (i + 1) ? 0 : d % (i + 1));
  });
  return { sire, dam };
});

describe("expectedKinship", () => {
  // By hand: a quarter of the dam's kinship with herself (1/2), and a quarter of the sire's if they have one.
  test("[GE-76] twins of one of two bucks are full sibs or half sibs, as often as their litter has one sire", () => {
    const sires = [
      { sire: idOf(2), weight: 0.5 },
      { sire: idOf(3), weight: 0.5 },
    ];
    const rows = [1, 2, 3].map((i) => ({ id: idOf(i), dam: undefined, sires: [] }));
    const twins = [4, 5].map((i) => ({ id: idOf(i), dam: idOf(1), sires }));
    const between = (same: number) => {
      const ways = [2, 3].flatMap((x) =>
        [2, 3].map((y) => ({ sires: [idOf(x), idOf(y)] as const, chance: (x === y ? same : 1 - same) / 2 })),
      );
      return expectedKinship([...rows, ...twins], [{ mates: [idOf(4), idOf(5)], ways }]).kinship(idOf(5), idOf(4));
    };
    expect([between(1), between(0.7), between(0.5), between(0)]).toEqual([0.25, 0.2125, 0.1875, 0.125]);
    expect(expectedKinship([...rows, ...twins]).kinship(idOf(4), idOf(5))).toBe(0.1875);
  });
});

describe("numberedPedigree", () => {
  test("[GE-19] rows may stand in any order; a parent without a row is one and the same founder", () => {
    const { pedigree, issues } = numberedPedigree([
      { id: idOf(3), sire: idOf(9), dam: idOf(2) },
      { id: idOf(2), sire: idOf(9), dam: undefined },
    ]);
    expect(issues).toEqual([{ code: "parent-without-row", animal: "a3", parent: "a9" }]);
    expect(fOf(inbreeding(pedigree), 3)).toBe(0.25);
  });

  test("[GE-19] a ring, an id twice and an animal that is both sire and dam are named, and nothing hangs", () => {
    const { pedigree, issues } = numberedPedigree([
      { id: idOf(1), sire: idOf(3), dam: undefined },
      { id: idOf(2), sire: idOf(1), dam: undefined },
      { id: idOf(3), sire: undefined, dam: idOf(2) },
      { id: idOf(3), sire: undefined, dam: undefined },
      { id: idOf(4), sire: idOf(2), dam: idOf(4) },
    ]);
    expect(issues.map((i) => i.code).sort()).toEqual([
      "both-sire-and-dam",
      "duplicate-id",
      "own-ancestor",
      "own-ancestor",
    ]);
    expect([...inbreeding(pedigree).f].every((x) => x >= 0 && x <= 1)).toBe(true);
    expect(numberedPedigree([]).pedigree.ids).toEqual([]);
  });
});

/** A pedigree as it grows; `born` gives the number of the animal that was added. */
function growing() {
  const sire: number[] = [];
  const dam: number[] = [];
  return { sire, dam, born: (s = 0, d = 0): number => (dam.push(d), sire.push(s)) };
}

/** One pair in each generation, brother and sister; the kids of each generation that is printed, by number. */
function fullSibs(generations: number) {
  const { sire, dam, born } = growing();
  let pair = [born(), born()];
  pair = [born(...pair), born(...pair)];
  const kids = Array.from({ length: generations }, () => (pair = [born(...pair), born(...pair)]));
  return { sire, dam, kids };
}

/** One buck and his half sisters, each of another mother; his sons' mothers' lines are not used again. */
function halfSibs(generations: number) {
  const { sire, dam, born } = growing();
  let herd = Array.from({ length: generations + 4 }, () => born());
  const kids = Array.from({ length: generations + 1 }, () => {
    const [buck, ...does] = herd;
    herd = does.map((doe) => born(buck, doe));
    return herd;
  });
  return { sire, dam, kids: kids.slice(1) };
}

/** Three sibships in a ring, from each a brother and a sister to its two neighbours: any two are first cousins, once. */
function firstCousins(generations: number) {
  const { sire, dam, born } = growing();
  let sibships = Array.from({ length: 3 }, () => [born(), born()] as const);
  const kids = Array.from({ length: generations + 2 }, () => {
    const couples = sibships.map(([brother], i) => [brother, sibships[(i + 1) % 3]?.[1]] as const);
    sibships = couples.map((couple) => [born(...couple), born(...couple)] as const);
    return sibships.flat();
  });
  return { sire, dam, kids: kids.slice(2) };
}

/** Daughters bred back to one buck, and their daughters to him again. */
function backToSire(generations: number) {
  const { sire, dam, born } = growing();
  const buck = born();
  let doe = born(buck, born());
  const kids = Array.from({ length: generations }, () => [(doe = born(buck, doe))]);
  return { sire, dam, kids };
}

/** Each kid is mated with the younger of its parents. */
function backToParent(generations: number) {
  const { sire, dam, born } = growing();
  let [older, younger] = [born(), born()];
  [older, younger] = [younger, born(older, younger)];
  const kids = Array.from({ length: generations }, () => {
    [older, younger] = [younger, born(older, younger)];
    return [younger];
  });
  return { sire, dam, kids };
}

/** Systems of mating with what is printed of them, by generation. */
const SYSTEMS = [
  ["full sibs", published.series.fullSib.F_from_first_sib_mating, fullSibs],
  ["half sibs", published.series.halfSib.F_from_first_halfsib_mating, halfSibs],
  ["first cousins", published.series.firstCousin.F, firstCousins],
  ["daughters to their sire", published.series.backcrossToSameNonInbredSire.F_by_generation, backToSire],
  ["kids to their younger parent", published.series.youngerParentOffspring.F, backToParent],
] as const;

describe("kinship", () => {
  test("[GE-22] complete generations: a founder 0, a kid of founders 1, of two such kids 2", () => {
    const { pedigree } = numberedPedigree(rowsOf([0, 0, 1, 1, 3], [0, 0, 2, 2, 4]));
    expect([...completeGenerations(pedigree)]).toEqual([0, 0, 1, 1, 2]);
  });

  test("[GE-22] full sibs mated on and on: the effective size is that of the rate of loss of one generation", () => {
    const known = worked(rowsOf([0, 0, 1, 1, 3, 3], [0, 0, 2, 2, 4, 4]));
    // F = 1/4 after two complete generations: 1 - (3/4)^(1/1) = 1/4, so 1/(2/4) = 2.
    expect(effectiveSizeFromInbreeding(known, [place(known, 5), place(known, 6)])).toBeCloseTo(2, 12);
    expect(effectiveSizeFromInbreeding(known, [place(known, 1)])).toBeUndefined();
  });

  describe("laws", () => {
    test("[GE-20] it equals the whole matrix, worked out row by row", () => {
      fc.assert(
        fc.property(anyPedigree, fc.infiniteStream(fc.nat()), ({ sire, dam }, order) => {
          const rows = rowsOf(sire, dam)
            .map((row) => ({ row, key: order.next().value ?? 0 }))
            .sort((a, b) => a.key - b.key)
            .map(({ row }) => row);
          const known = worked(rows);
          const a = tabular(sire, dam);
          a.forEach((row, i) => {
            expect(fOf(known, i + 1)).toBeCloseTo((row[i] ?? 0) - 1, 12);
            row.forEach((value, j) => {
              expect(relationship(known, i + 1, j + 1)).toBeCloseTo(value, 12);
            });
          });
        }),
        { numRuns: 40 },
      );
    });

    test("[GE-20] kinship to a group is the weighted sum of kinships", () => {
      fc.assert(
        fc.property(
          anyPedigree,
          fc.array(fc.tuple(fc.nat(), fc.integer({ min: 1, max: 9 })), { maxLength: 5 }),
          ({ sire, dam }, picks) => {
            const known = worked(rowsOf(sire, dam));
            const weights = new Map(picks.map(([at, w]) => [at % sire.length, w]));
            const all = kinshipToGroup(known, weights);
            all.forEach((value, at) => {
              const want = [...weights].reduce((s, [b, w]) => s + w * kinship(known, at, b), 0);
              expect(value).toBeCloseTo(want, 10);
            });
          },
        ),
        { numRuns: 40 },
      );
    });

    test("[GE-23] with sires in doubt it is the mean over all who they may have been", () => {
      const anyDoubt = fc.array(fc.tuple(fc.nat(), fc.nat(), fc.nat(), fc.constantFrom(1, 0.5, 0.25)), {
        minLength: 3,
        maxLength: 7,
      });
      fc.assert(
        fc.property(anyDoubt, (raw) => {
          const rows = raw.map(([d, s, t, weight], i): DoubtfulParentage & { options: [number, number][] } => {
            const [dam, one, two] = [d % (i + 1), s % (i + 1), t % (i + 1)];
            const options: [number, number][] =
              weight === 1 || one === two
                ? [[one, 1]]
                : [
                    [one, weight],
                    [two, 1 - weight],
                  ];
            return {
              id: idOf(i + 1),
              dam: parent(dam === one || dam === two ? 0 : dam),
              sires: options.map(([sire, w]) => ({ sire: parent(sire), weight: w })),
              options,
            };
          });
          const expected = expectedKinship(rows);
          const n = rows.length;
          const want = Array.from({ length: n * n }, () => 0);
          const visit = (i: number, weight: number, chosen: readonly Parentage[]): void => {
            const row = rows[i];
            if (!row) {
              const known = worked(chosen);
              for (let a = 1; a <= n; a++)
                for (let b = 1; b <= n; b++) {
                  const at = (a - 1) * n + b - 1;
                  want[at] = (want[at] ?? 0) + (weight * relationship(known, a, b)) / 2;
                }
              return;
            }
            for (const [sire, w] of row.options)
              visit(i + 1, weight * w, [...chosen, { id: row.id, dam: row.dam, sire: parent(sire) }]);
          };
          visit(0, 1, []);
          for (let a = 1; a <= n; a++) {
            expect((1 + expected.inbreeding(idOf(a))) / 2).toBeCloseTo(want[(a - 1) * n + a - 1] ?? Number.NaN, 10);
            for (let b = 1; b <= n; b++)
              expect(expected.kinship(idOf(a), idOf(b))).toBeCloseTo(want[(a - 1) * n + b - 1] ?? Number.NaN, 10);
          }
        }),
        { numRuns: 30 },
      );
    });

    test("[GE-76] with litter mates who may have one sire it is the mean over all pairs of sires they may have had", () => {
      const anyHerd = fc.record({
        older: fc.array(fc.tuple(fc.nat(), fc.nat()), { minLength: 3, maxLength: 5 }),
        mixed: fc.constantFrom(0, 0.5, 1),
        share: fc.constantFrom(0.5, 0.25),
        one: fc.nat(),
        two: fc.nat(),
      });
      fc.assert(
        fc.property(anyHerd, ({ older, mixed, share, one, two }) => {
          const n = older.length;
          const [dam, a, b] = [1, 2 + (one % (n - 1)), 2 + (two % (n - 1))];
          fc.pre(a !== b);
          const before = older.map(([s, d], i): Parentage => {
            const [sire, mother] = [s % (i + 1), d % (i + 1)];
            return { id: idOf(i + 1), sire: parent(sire), dam: parent(mother === sire ? 0 : mother) };
          });
          const [twin, mate, kid] = [n + 1, n + 2, n + 3];
          const weights = [
            [a, share],
            [b, 1 - share],
          ] as const;
          const ways = weights.flatMap(([x, p]) =>
            weights.map(([y, q]) => ({ x, y, chance: (x === y ? (1 - mixed) * p : 0) + mixed * p * q })),
          );
          const sires = weights.map(([sire, weight]) => ({ sire: idOf(sire), weight }));
          const expected = expectedKinship(
            [
              ...before.map(({ id, dam: mother, sire }) => ({ id, dam: mother, sires: [{ sire, weight: 1 }] })),
              { id: idOf(twin), dam: idOf(dam), sires },
              { id: idOf(mate), dam: idOf(dam), sires },
              { id: idOf(kid), dam: idOf(mate), sires: [{ sire: idOf(twin), weight: 1 }] },
            ],
            [
              {
                mates: [idOf(twin), idOf(mate)],
                ways: ways.map(({ x, y, chance }) => ({ sires: [idOf(x), idOf(y)], chance })),
              },
            ],
          );
          const mean = (of: (known: Inbreeding) => number): number =>
            ways.reduce((sum, { x, y, chance }) => {
              const litter = [
                { id: idOf(twin), dam: idOf(dam), sire: idOf(x) },
                { id: idOf(mate), dam: idOf(dam), sire: idOf(y) },
                { id: idOf(kid), dam: idOf(mate), sire: idOf(twin) },
              ];
              return sum + chance * of(worked([...before, ...litter]));
            }, 0);
          for (const [x, y] of [
            [twin, mate],
            [mate, twin],
            [kid, twin],
            [kid, dam],
            [twin, a],
            [kid, b],
          ] as const)
            expect(expected.kinship(idOf(x), idOf(y))).toBeCloseTo(
              mean((known) => relationship(known, x, y) / 2),
              10,
            );
          expect(expected.inbreeding(idOf(kid))).toBeCloseTo(
            mean((known) => fOf(known, kid)),
            10,
          );
        }),
        { numRuns: 40 },
      );
    });

    test("[GE-22] complete generations are counted ancestor by ancestor, each line back by itself", () => {
      fc.assert(
        fc.property(anyPedigree, ({ sire, dam }) => {
          const { pedigree } = numberedPedigree(rowsOf(sire, dam));
          const depths = completeGenerations(pedigree);
          /** Sum over all lines of parents back from an animal, of (1/2)^steps. */
          const lines = (animal: number, steps: number): number =>
            [sire[animal - 1] ?? 0, dam[animal - 1] ?? 0].reduce(
              (sum, of) => sum + (of === 0 ? 0 : 0.5 ** (steps + 1) + lines(of, steps + 1)),
              0,
            );
          fc.pre(sire.length <= 12);
          sire.forEach((_, i) => {
            expect(depths[pedigree.positions.get(idOf(i + 1)) ?? -1]).toBeCloseTo(lines(i + 1, 0), 12);
          });
        }),
        { numRuns: 40 },
      );
    });

    test("[GE-21] founders' shares and marginal shares each sum to 1 where both or no parents are known", () => {
      fc.assert(
        fc.property(anyPedigree, ({ sire, dam }) => {
          const both = sire.map((s, i) => ((s ?? 0) > 0 && (dam[i] ?? 0) > 0 ? s : 0));
          const { pedigree } = numberedPedigree(
            rowsOf(
              both,
              both.map((s, i) => (s > 0 ? (dam[i] ?? 0) : 0)),
            ),
          );
          const sires = new Set([...pedigree.sire, ...pedigree.dam]);
          const group = [...pedigree.ids.keys()].filter((i) => !sires.has(i) && (pedigree.sire[i] ?? -1) >= 0);
          fc.pre(group.length > 0);
          expect(founderShares(pedigree, group).reduce((a, b) => a + b, 0)).toBeCloseTo(1, 10);
          expect(marginalAncestors(pedigree, group).reduce((s, a) => s + a.share, 0)).toBeCloseTo(1, 10);
        }),
        { numRuns: 40 },
      );
    });
  });

  describe("published", () => {
    // One example gives a formula and no pedigree.
    const examples = published.examples.flatMap((e) => (e.sire && e.dam ? [{ ...e, sire: e.sire, dam: e.dam }] : []));
    test.each(examples)("[GE-20] $id", (example) => {
      const known = worked(rowsOf(example.sire, example.dam));
      if (example.F) example.F.forEach((f, i) => expect(fOf(known, i + 1)).toBeCloseTo(f, 12));
      if (example.F_last !== undefined)
        expect(fOf(known, example.sire.length)).toBeCloseTo(fraction(`${example.F_last}`), 12);
      if (example.D) example.D.forEach((d, i) => expect(known.own[place(known, i + 1)]).toBeCloseTo(d, 12));
      if (example.A)
        example.A.forEach((row, i) =>
          row.forEach((value, j) => expect(relationship(known, i + 1, j + 1)).toBeCloseTo(value, 12)),
        );
      const n = example.sire.length;
      const ours = Array.from({ length: n }, (_, i) =>
        Array.from({ length: n }, (_, j) => relationship(known, i + 1, j + 1)),
      );
      // The printed inverse of the relationships times ours is 1 on the diagonal and 0 beside it.
      example.Ainverse?.forEach((row, i) =>
        ours.forEach((_, j) => {
          const cell = row.reduce((sum, value, k) => sum + value * (ours[k]?.[j] ?? Number.NaN), 0);
          expect(cell).toBeCloseTo(i === j ? 1 : 0, 9);
        }),
      );
      expect([example.F, example.F_last, example.A].some((told) => told !== undefined)).toBe(true);
    });

    test.each([random50, random500])("[GE-20] random pedigree of $n", (file) => {
      const known = worked(rowsOf(file.sire, file.dam));
      file.F.forEach((f, i) => expect(fOf(known, i + 1)).toBeCloseTo(f, 12));
      for (const [i = 0, j = 0, value = 0] of file.A_samples_i_j_value_1based)
        expect(relationship(known, i, j)).toBeCloseTo(value, 12);
      const all = [...known.pedigree.ids.keys()];
      expect(meanKinship(known, all)).toBeCloseTo(file.summary.meanKinshipAllPairsInclSelf, 12);
      expect(meanKinship(known, file.sire.map((_, i) => place(known, i + 1)).slice(-30))).toBeCloseTo(
        file.summary.meanKinshipLast30,
        12,
      );
    });

    test.each(founders.cases)("[GE-21] founders: $id", (file) => {
      const known = worked(rowsOf(file.sire, file.dam));
      const group = file.population.map((n) => place(known, n));
      const shares = founderShares(known.pedigree, group);
      for (const [n, share] of Object.entries(file.founderContributions))
        expect(shares[place(known, Number(n))]).toBeCloseTo(fraction(share), 12);
      expect(effectiveFounders(shares)).toBeCloseTo(fraction(file.f_e), 12);
      const ancestors = marginalAncestors(known.pedigree, group);
      expect(ancestors.map((a) => [a.ancestor, a.share])).toEqual(
        file.selectedAncestors_inOrder.map(([n, share]) => [
          place(known, Number(n)),
          expect.closeTo(fraction(String(share)), 12),
        ]),
      );
      expect(effectiveAncestors(ancestors)).toBeCloseTo(fraction(file.f_a), 12);
      expect(meanKinship(known, group)).toBeCloseTo(fraction(file.meanKinshipInclSelf), 12);
      expect(founderGenomes(known, group)).toBeCloseTo(fraction(file.f_ge_coancestry_1_over_2MK), 12);
    });

    test.each(founders.cases)("[GE-21] alleles kept by dropping them, within five standard errors: $id", (file) => {
      const { pedigree } = numberedPedigree(rowsOf(file.sire, file.dam));
      const group = file.population.map((n) => pedigree.positions.get(idOf(n)) ?? -1);
      const drops = 20_000;
      const retention = alleleRetention(pedigree, group, seededRandom(1), drops);
      const at = (n: string) => pedigree.positions.get(idOf(Number(n))) ?? -1;
      for (const [n, r] of Object.entries(file.alleleRetention_r))
        expect(Math.abs((retention[at(n)] ?? 0) - fraction(r))).toBeLessThan((5 * 0.5) / Math.sqrt(drops));
      const exact = new Float64Array(retention.length);
      for (const [n, r] of Object.entries(file.alleleRetention_r)) exact[at(n)] = fraction(r);
      expect(founderGenomesByRetention(founderShares(pedigree, group), exact)).toBeCloseTo(fraction(file.f_g_Lacy), 10);
    });

    test.each(effective.rows)("[GE-22] $Nm bucks and $Nf does: $printed ($source)", ({ Nm, Nf, Ne, deltaF }) => {
      expect(effectiveSizeFromNumbers(Nm, Nf)).toBeCloseTo(Ne, 12);
      expect(inbreedingRate(Ne)).toBeCloseTo(deltaF, 12);
    });

    test.each(SYSTEMS)("[GE-20] %s, for as many generations as printed", (_, printed, pedigreeOf) => {
      const { sire, dam, kids } = pedigreeOf(printed.length);
      const known = worked(rowsOf(sire, dam));
      expect(kids).toHaveLength(printed.length);
      printed.forEach((f, t) => {
        for (const kid of kids[t] ?? []) expect(fOf(known, kid)).toBeCloseTo(f, 12);
      });
    });

    test("[GE-22] full sibs mated on and on lose 19.1 % a generation, in print; the effective size comes to that", () => {
      const { F_from_first_sib_mating: printed, asymptoticRateOfLoss: loss } = published.series.fullSib;
      const { sire, dam, kids } = fullSibs(printed.length);
      const known = worked(rowsOf(sire, dam));
      const sizes = kids.map(
        (born) =>
          effectiveSizeFromInbreeding(
            known,
            born.map((n) => place(known, n)),
          ) ?? Number.NaN,
      );
      const wanted = 1 / (2 * loss);
      const off = sizes.map((size) => Math.abs(size - wanted));
      // The mean since the founders nears the rate of the long run as 1 over the generations.
      expect(off.at(-1)).toBeLessThan(0.05);
      for (const t of [4, 9, 19]) expect(off[t] ?? Number.NaN).toBeLessThan(off[t - 4] ?? Number.NaN);
    });
  });
});

/** "32/9", as a number. */
function fraction(text: string): number {
  const [over = Number.NaN, under = 1] = text.split("/").map(Number);
  return over / under;
}

import { type AnimalId, animalId, type DoubtfulParentage, expectedKinship } from "@pollard/genetics";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { commonAncestors } from "./common-ancestors.ts";

const id = animalId;
type Row = readonly [string, string | undefined, ...(readonly (string | undefined)[])];

/** Rows of animal, dam, and the bucks that may be the sire, each as likely. */
const rowsOf = (list: readonly Row[]): ReadonlyMap<AnimalId, DoubtfulParentage> =>
  new Map(
    list.map(([name, dam, ...sires]) => [
      id(name),
      {
        id: id(name),
        dam: dam === undefined ? undefined : id(dam),
        sires: sires.map((s) => ({ sire: s === undefined ? undefined : id(s), weight: 1 / sires.length })),
      },
    ]),
  );
const shared = (list: readonly Row[], a: string, b: string) => {
  const rows = rowsOf(list);
  return commonAncestors(rows, expectedKinship([...rows.values()]), id(a), id(b));
};

describe("commonAncestors", () => {
  const family: readonly Row[] = [
    ["Rook", undefined],
    ["Fern", undefined],
    ["Ash", undefined],
    ["Sedge", "Fern", "Rook"],
    ["Burr", "Fern", "Rook"],
    ["Pip", "Ash", "Rook"],
  ];

  test("[PA-3] half sisters' kids: the grandsire is named, with all of it", () => {
    expect(shared(family, "Pip", "Sedge")).toEqual([{ ancestor: "Rook", share: 0.125 }]);
  });

  test("[PA-3] full sibs: both parents, alike; a sire on his daughter: himself", () => {
    expect(shared(family, "Burr", "Sedge")).toEqual([
      { ancestor: "Fern", share: 0.125 },
      { ancestor: "Rook", share: 0.125 },
    ]);
    expect(shared(family, "Rook", "Sedge")).toEqual([{ ancestor: "Rook", share: 0.25 }]);
  });

  test("[PA-3] strangers share nobody", () => {
    expect(shared(family, "Rook", "Fern")).toEqual([]);
  });

  test("[PA-3] where the sire may be one of two, each counts half", () => {
    const doubtful: readonly Row[] = [...family, ["Gale", undefined], ["Lark", "Ash", "Rook", "Gale"]];
    expect(shared(doubtful, "Burr", "Lark")).toEqual([{ ancestor: "Rook", share: 0.0625 }]);
  });

  test("[PA-3] the shares sum to the kinship, in any family", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(99), fc.nat(99), fc.nat(99), fc.nat(3)), { minLength: 3, maxLength: 9 }),
        (picks) => {
          const list = picks.map(([dam, one, two, how], i): Row => {
            const of = (n: number) => (i < 3 ? undefined : `a${n % i}`);
            if (i < 3 || how === 0) return [`a${i}`, undefined];
            return how === 1 ? [`a${i}`, of(dam), of(one), of(two)] : [`a${i}`, of(dam), of(one)];
          });
          const rows = rowsOf(list);
          const kin = expectedKinship([...rows.values()]);
          for (const a of rows.keys())
            for (const b of rows.keys()) {
              const sum = commonAncestors(rows, kin, a, b).reduce((s, c) => s + c.share, 0);
              expect(sum).toBeCloseTo(kin.kinship(a, b), 12);
            }
        },
      ),
      { numRuns: 60 },
    );
  });
});

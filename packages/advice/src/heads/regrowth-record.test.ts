import type { Entry } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import { describe, expect, test } from "vitest";
import { regrowthRecord } from "./regrowth-record.ts";
import { goat, id, kidding, outcome, situation } from "../testing.ts";

const herd = [goat("Rook", "buck", { head: "horned" }), goat("Ash", "doe", { head: "horned" })];
const disbudded = (
  kid: string,
  over: { readonly technique?: "bud-removed" | "bud-left" | "unsure"; readonly found?: "bud" | "no-bud" } = {},
  on = "2026-03-06",
): readonly Entry[] => [
  kidding("Ash", "2026-03-01", { [kid]: "doe" }, ["Rook"]),
  anEntry(
    "disbudding",
    {
      kid: id(kid),
      done: "both-sides",
      operator: "Dr Quillan",
      technique: over.technique ?? "bud-left",
      found: { left: over.found ?? "bud", right: over.found ?? "bud" },
    },
    { on },
  ),
];
const recordOf = (entries: readonly Entry[]) => regrowthRecord(situation([...herd, ...entries], "2026-10-01"));

describe("what grew again after disbudding", () => {
  test("[AD-25] buds by technique, by hand and by age, with what grew on each", () => {
    const record = recordOf([
      ...disbudded("a1"),
      outcome("a1", "2026-06-10", "scur"),
      ...disbudded("a2", {}, "2026-03-10"),
      outcome("a2", "2026-06-10", "nothing"),
    ]);
    expect(record).toMatchObject({ buds: 4, notSeen: 0, techniqueNotSaid: 0 });
    expect(record.techniques).toHaveLength(1);
    const [left] = record.techniques;
    expect(left).toMatchObject({ technique: "bud-left", all: { buds: 4, grew: { nothing: 2, scur: 2, horn: 0 } } });
    expect(left?.operators.map((o) => [o.of, o.buds])).toEqual([["Dr Quillan", 4]]);
    expect(left?.ages.map((a) => [a.of, a.buds])).toEqual([
      ["4-7", 2],
      ["8-14", 2],
    ]);
  });

  test("[AD-25] a side without a bud is left out, and so is what nobody has looked at or what came too soon to tell", () => {
    expect(recordOf([...disbudded("a1", { found: "no-bud" }), outcome("a1", "2026-06-10", "nothing")]).buds).toBe(0);
    expect(recordOf([...disbudded("a1")])).toMatchObject({ buds: 0, notSeen: 2 });
    expect(recordOf([...disbudded("a1"), outcome("a1", "2026-04-01", "nothing")])).toMatchObject({
      buds: 0,
      notSeen: 2,
    });
  });

  test("[AD-25] a technique nobody wrote down is in no group, and is counted", () => {
    const record = recordOf([...disbudded("a1", { technique: "unsure" }), outcome("a1", "2026-06-10", "scur")]);
    expect(record).toMatchObject({ buds: 2, techniqueNotSaid: 2, techniques: [] });
  });

  describe("published", () => {
    test("[AD-25] with few buds of its own a herd is told the printed trial: 4 in 5 where the bud is left, 1 in 4 where not", () => {
      // [hempstead2018]: nothing regrew on 20 % of buds left and on 77 % of buds removed; shares rescaled to sum to 1.
      const again = (technique: "bud-left" | "bud-removed") =>
        recordOf([...disbudded("a1", { technique }), outcome("a1", "2026-06-10", "scur")]).techniques[0]?.all.again
          .count;
      expect(again("bud-left")).toBe(16);
      expect(again("bud-removed")).toBe(5);
    });
  });
});

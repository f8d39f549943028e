import type { HeadReading, HeadSigns } from "@pollard/husbandry";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { comparedKids, litterOf } from "./comparison.ts";
import { readersApart } from "./readers-apart.ts";
import { goat, HORNED_SIGNS, id, kidding, POLLED_SIGNS, reading, situation } from "../testing.ts";

const TODAY = "2026-03-10";
const litter = [
  goat("Rook", "buck", { head: "polled" }),
  goat("Ash", "doe", { head: "horned" }),
  kidding("Ash", "2026-03-06", { a1: "buck", a2: "doe" }, ["Rook"]),
];
const seen = (reader: string, ageDays: number, signs: HeadSigns): HeadReading => ({
  reading: `${reader}-${ageDays}`,
  reader,
  ageDays,
  signs,
});
const signsApart = (...readings: readonly HeadReading[]) => readersApart(readings).map((a) => a.sign);

describe("two kids of a litter", () => {
  test("[AD-27] side by side: the latest finding of each sign, by whom and at what age, and what is believed of each", () => {
    const s = situation(
      [
        ...litter,
        reading("a1", "2026-03-07", { whorls: { both: "unclear" }, crown: "flat" }),
        reading("a1", "2026-03-09", { whorls: { both: "clear" } }, "Tobias"),
        reading("a2", "2026-03-09", POLLED_SIGNS),
      ],
      TODAY,
    );
    const model = comparedKids(s, id("a1"), id("a2"));
    const [one, other] = model?.kids ?? [];
    expect(one?.signs.find((f) => f.sign === "whorls")?.found).toEqual({
      finding: { both: "clear" },
      ageDays: 3,
      by: "Tobias",
    });
    expect(one?.signs.find((f) => f.sign === "crown")?.found?.ageDays).toBe(1);
    expect(one?.signs.find((f) => f.sign === "feel")?.found).toBeUndefined();
    expect(one?.kid.belief?.horns).toBeGreaterThan(other?.kid.belief?.horns ?? 1);
    expect(model?.litter.map((k) => k.name)).toEqual(["a1", "a2"]);
  });

  test("[AD-27] a kid that was not read keeps its forecast to itself here too", () => {
    const s = situation([...litter, reading("a1", "2026-03-07", HORNED_SIGNS)], TODAY);
    const [one, other] = comparedKids(s, id("a1"), id("a2"))?.kids ?? [];
    expect(one?.kid.belief).toBeDefined();
    expect(other?.kid.belief).toBeUndefined();
  });

  test("[AD-27] a kid alone has no mate; a goat without a birth date stands beside nobody", () => {
    const s = situation(litter, TODAY);
    expect(litterOf(s.herd, id("Ash"))).toEqual([]);
    expect(comparedKids(s, id("a1"), id("nobody"))).toBeUndefined();
  });
});

describe("two readers of one head", () => {
  test("[AD-26] one felt a point, the other nothing, on one day", () => {
    const apart = readersApart([
      seen("Ines", 4, { feel: { both: "pointed" }, crown: "flat" }),
      seen("Tobias", 4, { feel: { both: "nothing" }, crown: "unclear" }),
    ]);
    expect(apart).toEqual([
      {
        sign: "feel",
        readings: [
          { by: "Ines", ageDays: 4, finding: { both: "pointed" } },
          { by: "Tobias", ageDays: 4, finding: { both: "nothing" } },
        ],
      },
    ]);
  });

  test("[AD-26] buds may come between two looks; whorls may not", () => {
    const [early, late] = [
      seen("Ines", 2, { feel: { both: "nothing" }, whorls: { both: "none" } }),
      seen("Tobias", 6, { feel: { both: "pointed" }, whorls: { both: "clear" } }),
    ];
    expect(signsApart(early, late)).toEqual(["whorls"]);
  });

  test("[AD-26] one side is enough; one reader alone, shades of one leaning and unsure answers are no disagreement", () => {
    expect(
      signsApart(
        seen("Ines", 4, { feel: { left: "pointed", right: "rounded" } }),
        seen("Tobias", 4, { feel: { both: "rounded" } }),
      ),
    ).toEqual(["feel"]);
    expect(
      signsApart(seen("Ines", 4, { feel: { both: "pointed" } }), seen("Ines", 4, { feel: { both: "nothing" } })),
    ).toEqual([]);
    expect(
      signsApart(
        seen("Ines", 4, { feel: { both: "pointed" }, skin: { both: "slides" } }),
        seen("Tobias", 4, { feel: { both: "tip-through" }, skin: { both: "slides-a-little" }, crown: "unsure" }),
      ),
    ).toEqual([]);
  });

  describe("laws", () => {
    test("[AD-26] it makes no difference who is named first", () => {
      const signs = fc.record<HeadSigns>(
        {
          feel: fc.record({ both: fc.constantFrom("nothing", "rounded", "pointed", "unsure") }),
          skin: fc.record({
            left: fc.constantFrom("slides", "held-fast"),
            right: fc.constantFrom("slides", "held-fast"),
          }),
          whorls: fc.record({ both: fc.constantFrom("none", "unclear", "clear") }),
        },
        { requiredKeys: [] },
      );
      fc.assert(
        fc.property(signs, signs, fc.nat(4), fc.nat(4), (a, b, ageA, ageB) => {
          const [one, other] = [seen("Ines", ageA, a), seen("Tobias", ageB, b)];
          expect(signsApart(one, other)).toEqual(signsApart(other, one));
        }),
      );
    });
  });
});

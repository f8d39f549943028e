import { addDays, day } from "@pollard/base";
import type { Entry } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { goat, id, kidding, situation } from "../testing.ts";

const TODAY = "2026-11-25";
const move = (animal: string, on: string, pen?: string): Entry =>
  anEntry("move", { animal: id(animal), ...(pen === undefined ? {} : { pen }) }, { on });
const herd = [
  goat("Rook", "buck", { head: "polled" }),
  goat("Gale", "buck", { head: "horned" }),
  goat("Ash", "doe", { head: "horned" }),
];
const services = (...moves: Entry[]) =>
  situation([...herd, ...moves], TODAY).herd.services.map((s) => `${s.doe} ${s.bucks.join("+")} ${s.on} ${s.until}`);

describe("services that shared pens make", () => {
  test("[AD-50] the days that a doe and a buck share a pen, and no others", () => {
    expect(
      services(
        move("Ash", "2026-10-01", "long pen"),
        move("Rook", "2026-10-05", "long pen"),
        move("Rook", "2026-10-20"),
        move("Gale", "2026-10-05", "yard"),
      ),
    ).toEqual(["Ash Rook 2026-10-05 2026-10-20"]);
  });

  test("[AD-50] two bucks on the same days are one service; on other days two", () => {
    const both = [
      move("Ash", "2026-10-01", "pen"),
      move("Rook", "2026-10-01", "pen"),
      move("Gale", "2026-10-01", "pen"),
    ];
    expect(services(...both, move("Ash", "2026-10-21", "yard"))).toEqual(["Ash Gale+Rook 2026-10-01 2026-10-21"]);
    expect(services(...both, move("Gale", "2026-10-11"), move("Ash", "2026-10-21"))).toEqual([
      "Ash Rook 2026-10-01 2026-10-21",
      "Ash Gale 2026-10-01 2026-10-11",
    ]);
  });

  test("[AD-50] a stay that nobody ended goes on until today; who has left is gone", () => {
    const start = [move("Ash", "2026-11-01", "pen"), move("Rook", "2026-11-03", "pen")];
    expect(services(...start)).toEqual(["Ash Rook 2026-11-03 2026-11-25"]);
    const sold = anEntry("departure", { animal: id("Rook"), why: "sold" }, { on: "2026-11-10" });
    expect(services(...start, sold)).toEqual(["Ash Rook 2026-11-03 2026-11-10"]);
  });

  test("[AD-50] a buckling breeds from three months on", () => {
    const young = goat("Tern", "buck", { born: day("2026-09-01") });
    expect(services(young, move("Ash", "2026-10-01", "pen"), move("Tern", "2026-10-01", "pen"))).toEqual([]);
    expect(
      situation([...herd, young, move("Ash", "2026-10-01", "pen"), move("Tern", "2026-10-01", "pen")], "2026-12-10")
        .herd.services,
    ).toMatchObject([{ on: "2026-11-30", until: "2026-12-10" }]);
  });

  test("[AD-50] the sire of her kids follows from who was in the pen", () => {
    const kidded = [
      move("Ash", "2025-10-01", "pen"),
      move("Rook", "2025-10-01", "pen"),
      move("Rook", "2025-10-10"),
      kidding("Ash", addDays(day("2025-10-05"), 150), { a1: "doe" }),
    ];
    const [likeliest] = situation([...herd, ...kidded], TODAY).beliefs.sires(id("a1"));
    expect(likeliest?.[0]).toBe("Rook");
  });

  describe("laws", () => {
    test("[AD-50] equal to asking every day who stood where", () => {
      const aMove = fc.tuple(
        fc.constantFrom("Ash", "Rook", "Gale"),
        fc.integer({ min: 0, max: 30 }),
        fc.constantFrom("pen", "yard", undefined),
      );
      fc.assert(
        fc.property(fc.uniqueArray(aMove, { maxLength: 8, selector: ([who, at]) => `${who} ${at}` }), (moves) => {
          const first = day("2026-10-01");
          const { herd: h } = situation(
            [...herd, ...moves.map(([who, at, pen]) => move(who, addDays(first, at), pen))],
            TODAY,
          );
          /** Pens that a goat stood in on a day: the day of a move counts for both. */
          const pens = (who: string, on: string): readonly (string | undefined)[] => {
            const mine = moves.filter(([m]) => m === who).toSorted((a, b) => a[1] - b[1]);
            const before = mine.filter(([, at]) => addDays(first, at) < on).at(-1)?.[2];
            return [before, ...mine.filter(([, at]) => addDays(first, at) === on).map(([, , pen]) => pen)];
          };
          for (let d = 0; d <= 40; d++) {
            const on = addDays(first, d);
            for (const buck of ["Rook", "Gale"]) {
              const met = pens("Ash", on).some((pen) => pen !== undefined && pens(buck, on).includes(pen));
              const said = h.services.some((s) => s.bucks.includes(id(buck)) && s.on <= on && on <= s.until);
              expect(said, `${buck} ${on}`).toBe(met);
            }
          }
        }),
      );
    });
  });
});

import { present } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { anEntry } from "@pollard/records/testing";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { genotypeSaid } from "../animal-model.ts";
import { goat, HORNED_SIGNS, kidding, situation } from "../testing.ts";
import { herdBook } from "./herd-book.ts";

const line = (book: ReturnType<typeof herdBook>, id: string) =>
  present(
    book.find(({ ref }) => ref.id === id),
    id,
  );

const herd = [
  goat("Rook", "buck", { head: "polled" }),
  goat("Hazel", "doe", { head: "horned" }),
  kidding("Hazel", "2025-03-01", { Moth: "doe", Barley: "buck" }, ["Rook"]),
  kidding("Moth", "2026-03-01", { Pip: "buck" }, ["Rook"]),
];

describe("the herd book", () => {
  test("[AD-60] parents, whereabouts, weight and inbreeding of each", () => {
    const gone = anEntry("departure", { animal: animalId("Barley"), why: "died" }, { on: "2025-10-01" });
    const weight = anEntry("weight", { animal: animalId("Moth"), kg: 31, how: "weighed" }, { on: "2025-11-01" });
    const book = herdBook(situation([...herd, gone, weight], "2026-09-01"));
    expect(book.map(({ ref }) => ref.id)).toEqual(["Hazel", "Rook", "Barley", "Moth", "Pip"]);
    expect(line(book, "Barley").where).toBe("dead");
    expect(line(book, "Moth")).toMatchObject({ dam: { id: "Hazel" }, weight: { kg: 31, on: "2025-11-01" }, kids: 1 });
    expect(line(book, "Moth").sires[0]?.sire?.id).toBe("Rook");
    // A buck with his own daughter: the kid's inbreeding is a quarter (Wright 1922).
    expect(line(book, "Pip").inbreeding).toBeCloseTo(1 / 4, 12);
    expect(line(book, "Moth").inbreeding).toBe(0);
  });

  test("[AD-60] a head that is still open tells nothing, before a reading and after it", () => {
    const reading = anEntry("head-reading", { kid: animalId("Pip"), signs: HORNED_SIGNS }, { on: "2026-03-04" });
    for (const entries of [herd, [...herd, reading]]) {
      const book = herdBook(situation(entries, "2026-03-05"));
      expect(line(book, "Pip")).toMatchObject({ genotype: undefined, head: undefined });
      expect(line(book, "Rook").genotype).toBeDefined();
    }
  });

  test("[AD-90] kids lost before their time are told with the one buck that served her for them, or with none", () => {
    const served = (on: string, bucks: readonly string[]) =>
      anEntry("service", { doe: animalId("Hazel"), bucks: bucks.map(animalId), way: "hand" }, { on });
    const lost = (on: string) => anEntry("abortion", { doe: animalId("Hazel") }, { on });
    const entries = [
      ...herd,
      goat("Wren", "buck"),
      served("2025-10-01", ["Rook"]),
      lost("2026-01-10"),
      served("2026-02-01", ["Rook"]),
      served("2026-02-20", ["Wren"]),
      lost("2026-05-01"),
      lost("2027-02-01"), // too long after any service
    ];
    const { losses } = line(herdBook(situation(entries, "2027-03-01")), "Hazel");
    expect(losses.map(({ on, sire }) => [on, sire?.id])).toEqual([
      ["2026-01-10", "Rook"],
      ["2026-05-01", undefined],
      ["2027-02-01", undefined],
    ]);
    expect(line(herdBook(situation(herd, "2026-09-01")), "Hazel").losses).toEqual([]);
  });

  describe("laws", () => {
    test("[AD-60] every animal stands in it once, whatever was recorded, with its own page's genotype", () => {
      const names = ["a", "b", "c", "d", "e"];
      const births = fc.uniqueArray(fc.tuple(fc.constantFrom("Rook", "Wren"), fc.constantFrom(...names)), {
        selector: ([, kid]) => kid,
        maxLength: 5,
      });
      fc.assert(
        fc.property(births, fc.subarray(names), (born, died) => {
          const entries = [
            ...herd,
            goat("Wren", "buck"),
            ...born.map(([sire, kid], i) => kidding("Hazel", `2024-0${i + 1}-01`, { [kid]: "doe" }, [sire])),
            ...died.map((id) => anEntry("departure", { animal: animalId(id), why: "died" }, { on: "2025-01-01" })),
          ];
          const now = situation(entries, "2026-09-01");
          const book = herdBook(now);
          expect(book.map(({ ref }) => ref.id).sort()).toEqual([...now.herd.animals.keys()].sort());
          for (const each of book) {
            const animal = present(now.herd.animals.get(each.ref.id), each.ref.id);
            if (each.genotype !== undefined) expect(each.genotype).toEqual(genotypeSaid(now, animal));
          }
        }),
        { numRuns: 25 },
      );
    });
  });
});

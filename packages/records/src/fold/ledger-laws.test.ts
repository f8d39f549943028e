import { day } from "@pollard/base";
import { type AnimalId, animalId } from "@pollard/genetics";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Entry, entryJson, isTooNew, type TooNewEntry } from "../entry/entry.ts";
import { isCorrection } from "./corrections.ts";
import { anEntry } from "../entry/entry-builders.ts";
import type { EntryId } from "../entry/ids.ts";
import { parseEntry } from "../entry/parse.ts";
import { anyEntries } from "./any-entries.ts";
import { fold, openLedger } from "./ledger.ts";
import { slowFold } from "./slow-fold.ts";

const TODAY = day("2026-06-01");

describe("fold, laws", () => {
  test("[RE-4] the entries that the laws are tried on are entries", () => {
    fc.assert(
      fc.property(anyEntries, (entries) => {
        for (const entry of entries) expect(parseEntry(entryJson(entry))).toEqual({ ok: true, value: entry });
      }),
    );
  });

  test("[RE-6] it equals folding slowly, from scratch, by definition", () => {
    fc.assert(
      fc.property(anyEntries, (entries) => {
        expect(fold(entries, TODAY)).toEqual(slowFold(entries, TODAY));
      }),
      { numRuns: 1000 },
    );
  });

  test("[RE-6] the entries that the laws are tried on meet every problem", () => {
    const met = new Set<string>();
    for (const entries of fc.sample(anyEntries, { numRuns: 3000, seed: 20260301 }))
      for (const { code } of fold(entries, TODAY).problems) met.add(code);
    expect([...met].sort()).toEqual([
      "after-departure",
      "before-birth",
      "born-twice",
      "corrects-nothing",
      "dam-is-no-doe",
      "ends-before-it-starts",
      "in-the-future",
      "older-than-parent",
      "one-id-two-entries",
      "other-herd",
      "other-kind",
      "own-ancestor",
      "rival-corrections",
      "sire-is-no-buck",
      "too-new",
      "two-with-one-tag",
      "unknown-animal",
    ]);
  });

  test("[RE-6] in any order and any number of times, the same entries give the same herd and problems", () => {
    const twice = anyEntries.chain((entries) =>
      fc.tuple(
        fc.constant(entries),
        fc.shuffledSubarray([...entries], { minLength: entries.length }),
        fc.subarray([...entries]),
      ),
    );
    fc.assert(
      fc.property(twice, ([entries, shuffled, again]) => {
        const copies = again.map((entry) => structuredCopy(entry));
        expect(fold([...shuffled, ...copies], TODAY)).toEqual(fold(entries, TODAY));
      }),
      { numRuns: 300 },
    );
  });

  test("[RE-7] a few at a time is the same as all at once, at every step", () => {
    fc.assert(
      fc.property(
        anyEntries,
        fc.array(fc.integer({ min: 1, max: 5 }), { minLength: 24, maxLength: 24 }),
        (entries, sizes) => {
          const ledger = openLedger(TODAY);
          let taken = 0;
          for (const size of sizes) {
            if (taken >= entries.length) break;
            ledger.add(entries.slice(taken, taken + size));
            taken = Math.min(taken + size, entries.length);
            expect(ledger.folded()).toEqual(fold(entries.slice(0, taken), TODAY));
          }
        },
      ),
      { numRuns: 300 },
    );
  });

  test("[RE-7] an answer stays as it was when given", () => {
    fc.assert(
      fc.property(anyEntries, anyEntries, (before, after) => {
        const ledger = openLedger(TODAY);
        ledger.add(before);
        const given = ledger.folded();
        const wanted = fold(before, TODAY);
        ledger.add(after);
        ledger.folded();
        expect(given).toEqual(wanted);
      }),
    );
  });

  test("[RE-9] nothing is dropped in silence: each entry has its line in the history, or is named by a problem", () => {
    fc.assert(
      fc.property(anyEntries, (entries) => {
        const { herd, problems } = fold(entries, TODAY);
        const told = new Set<string>([
          ...herd.history.flatMap(({ entry, undoneBy }) => [entry, undoneBy ?? ""]),
          ...problems.flatMap((problem) => [problem.entry, "rivals" in problem ? problem.rivals.join(" ") : ""]),
        ]);
        for (const entry of entries)
          if (!isTooNew(entry) && !isCorrection(entry)) expect(told.has(entry.id)).toBe(true);
      }),
    );
  });

  test("[RE-9] whatever was entered, the herd that comes out makes sense", () => {
    fc.assert(
      fc.property(anyEntries, (entries) => {
        const { animals, services } = fold(entries, TODAY).herd;
        const parentsOf = (id: AnimalId) => [animals.get(id)?.dam ?? [], animals.get(id)?.sires ?? []].flat();
        for (const animal of animals.values()) {
          expect(ancestorsOf(animal.id, parentsOf).has(animal.id)).toBe(false);
          for (const parent of parentsOf(animal.id)) expect(animals.has(parent)).toBe(true);
          for (const sire of animal.sires) expect(animals.get(sire)?.sex).not.toBe("doe");
          if (animal.dam) expect(["buck", "wether"]).not.toContain(animals.get(animal.dam)?.sex);
          const { readings, outcomes, weights, disbuddings, choices, tests, traits } = animal;
          const { heats, pregnancyChecks, abortions, care } = animal;
          const seen = [readings, outcomes, weights, disbuddings, choices, tests, traits].flat();
          const dated = [...seen, ...[heats, pregnancyChecks, abortions, care].flat()];
          for (const { on } of dated) {
            expect(on <= TODAY).toBe(true);
            if (animal.born !== undefined) expect(on >= animal.born).toBe(true);
          }
        }
        for (const { on, until, bucks } of services) {
          expect(on <= until).toBe(true);
          expect(bucks.length).toBeGreaterThan(0);
        }
      }),
    );
  });

  test("[RE-9] one bad entry more never takes anything away from the animals it does not name", () => {
    fc.assert(
      fc.property(anyEntries, (entries) => {
        const before = fold(entries, TODAY).herd.animals;
        const note = entries.find((entry) => !isTooNew(entry) && entry.herd === fold(entries, TODAY).herd.id);
        fc.pre(note !== undefined && !isTooNew(note));
        const stray = { ...note, id: "z1", kind: "weight", body: { animal: "zinnia", kg: 3, how: "weighed" } };
        const after = new Map(fold([...entries, stray as unknown as Entry], TODAY).herd.animals);
        after.delete("zinnia" as AnimalId);
        expect(after).toEqual(before);
      }),
    );
  });
});

describe("fold, regressions", () => {
  test("[RE-9] a buck who is named by 130,000 entries is an animal like any other", () => {
    const bruno = animalId("bruno");
    const weighed = anEntry("weight", { animal: bruno, kg: 90, how: "weighed" });
    const many = Array.from({ length: 130_000 }, (_, at) => ({ ...weighed, id: `w${at}` as EntryId }));
    const { animals } = fold([anEntry("animal", { animal: bruno, sex: "buck" }), ...many], TODAY).herd;
    expect(animals.get(bruno)?.weights.length).toBe(130_000);
  });
});

/** The same entry as it would come from a file or a peer: equal, with its keys in another order. */
function structuredCopy(entry: Entry | TooNewEntry): Entry | TooNewEntry {
  const copy = JSON.parse(JSON.stringify(entryJson(entry))) as object;
  const turned = Object.fromEntries(Object.entries(copy).toReversed());
  return isTooNew(entry) ? { id: entry.id, tooNew: turned } : (turned as unknown as Entry);
}

function ancestorsOf(id: AnimalId, parentsOf: (id: AnimalId) => readonly AnimalId[]): ReadonlySet<AnimalId> {
  const found = new Set(parentsOf(id));
  for (const ancestor of found) for (const parent of parentsOf(ancestor)) found.add(parent);
  return found;
}

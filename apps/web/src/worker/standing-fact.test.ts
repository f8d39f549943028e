import { animalId } from "@pollard/genetics";
import { day, present } from "@pollard/base";
import { type Entry, type EntryId, type Fact, fold } from "@pollard/records";
import { anEntry, aReplacement, aStrike } from "@pollard/records/testing";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { replacementsNamed, standingFact } from "./standing-fact.ts";

const goat = anEntry("animal", { animal: animalId("hazel"), name: "Hazel", sex: "doe" });
const weightFact = (kg: number): Fact => ({
  kind: "weight",
  on: "2026-03-01",
  body: { animal: animalId("hazel"), kg, how: "weighed" },
});
const weight = anEntry("weight", { animal: animalId("hazel"), kg: 1, how: "weighed" }, { id: "w" });
const id = "w" as EntryId;
const kgOf = (entries: readonly Entry[]): number | undefined => {
  const fact = standingFact(entries, id)?.fact;
  return fact?.kind === "weight" ? fact.body.kg : undefined;
};

describe("a fact as it stands", () => {
  test("[UI-40] the last correction counts, a struck one does not, and a corrected correction counts as corrected", () => {
    const two = aReplacement("w", weightFact(2), [], { id: "r2" });
    const three = aReplacement("w", weightFact(3), [], { id: "r3" });
    expect(kgOf([weight])).toBe(1);
    expect(kgOf([weight, two, three])).toBe(3);
    expect(kgOf([three, weight, two])).toBe(3);
    expect(kgOf([weight, two, three, aStrike("r3", { id: "s" })])).toBe(2);
    expect(kgOf([weight, two, three, aStrike("r3", { id: "s" }), aStrike("s")])).toBe(3);
    expect(kgOf([weight, two, aReplacement("r2", weightFact(4))])).toBe(4);
    expect(replacementsNamed([weight, two, three], ["r3" as EntryId]).map(({ fact }) => fact)).toEqual([weightFact(3)]);
    expect(standingFact([], id)).toBe(undefined);
  });

  test("[UI-252] somebody who corrects again what was corrected contradicts nobody, however often", () => {
    const entries: Entry[] = [goat, weight];
    for (const kg of [2, 3, 4, 5]) {
      const standing = present(standingFact(entries, id), "the weight");
      entries.push(aReplacement(standing.entry, weightFact(kg)));
    }
    const { herd, problems } = fold(entries, day("2026-12-31"));
    expect(problems).toEqual([]);
    expect(herd.animals.get(animalId("hazel"))?.weights[0]?.kg).toBe(5);
    expect(standingFact([...entries, aStrike(entries.at(-1)?.id ?? "")], id)?.entry).toBe(entries.at(-2)?.id);
  });

  describe("laws", () => {
    test("[UI-40] it is what the fold says of the same entries", () => {
      const step = fc.record({
        sort: fc.constantFrom("replace", "strike"),
        pick: fc.nat(20),
        kg: fc.integer({ min: 2, max: 60 }),
      });
      fc.assert(
        fc.property(fc.array(step, { maxLength: 8 }), (steps) => {
          const entries: Entry[] = [goat, weight];
          for (const { sort, pick, kg } of steps) {
            const earlier = entries.slice(1);
            const target = earlier[pick % earlier.length]?.id ?? "w";
            // The weight itself stays: a struck fact has no standing to compare.
            const isStrike = sort === "strike" && target !== "w";
            if (isStrike) entries.push(aStrike(target));
            else if (entries.find((entry) => entry.id === target)?.kind !== "strike")
              entries.push(aReplacement(target, weightFact(kg)));
          }
          const folded = fold(entries, day("2026-12-31")).herd.animals.get(animalId("hazel"));
          expect(kgOf(entries)).toBe(folded?.weights[0]?.kg);
        }),
      );
    });
  });
});

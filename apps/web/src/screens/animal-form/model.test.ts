import { day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { describe, expect, test } from "vitest";
import { animalFact, animalFacts, animalMissing, chipWrong, firstAnimal, mayHaveKidded, readAnimal } from "./model.ts";

const today = day("2026-03-18");
const start = firstAnimal(animalId("a1"));

describe("adding a goat", () => {
  test("[UI-34] a name or a tag, and the sex, are all that is needed; a tag stays text", () => {
    expect(animalFact({ ...start, name: "Hazel" }, today)).toBe(undefined);
    expect(animalFact({ ...start, sex: "doe" }, today)).toBe(undefined);
    expect(animalFact({ ...start, tag: " 0012 ", sex: "doe", head: "kid" }, today)?.body).toEqual({
      animal: "a1",
      tag: "0012",
      sex: "doe",
    });
  });

  test("[UI-297] a mark is enough to know a goat by that has neither name nor tag yet; nothing at all is not", () => {
    const nameless = { ...start, sex: "buck" } as const;
    expect(animalFact({ ...nameless, mark: "  white sock " }, today)?.body).toEqual({
      animal: "a1",
      sex: "buck",
      mark: "white sock",
    });
    expect(animalFact({ ...nameless, mark: "  " }, today)).toBe(undefined);
    expect(animalFact({ ...start, mark: "white sock" }, today)).toBe(undefined);
  });

  test("[UI-143] a chip number is kept as fifteen digits; one that cannot be holds the goat up and is explained", () => {
    const hazel = { ...start, name: "Hazel", sex: "doe" } as const;
    expect(animalFact({ ...hazel, chip: "276 000 123 456 789" }, today)?.body).toMatchObject({
      chip: "276000123456789",
    });
    expect(animalFact({ ...hazel, chip: " " }, today)?.body).not.toHaveProperty("chip");
    const short = { ...hazel, chip: "27600012345678" };
    expect([animalFact(short, today), chipWrong(short)]).toEqual([undefined, "not-15-digits"]);
    expect(chipWrong(hazel)).toBe(undefined);
  });

  test("[UI-34] everything answered is kept", () => {
    const full = {
      ...start,
      name: "Rook",
      sex: "buck",
      born: day("2021-04-01"),
      breed: "Alpine",
      dam: "d",
      sire: "s",
      head: "polled",
    } as const;
    expect(animalFact(full, today)).toEqual({
      kind: "animal",
      on: today,
      body: {
        animal: "a1",
        name: "Rook",
        sex: "buck",
        born: "2021-04-01",
        breed: "Alpine",
        dam: "d",
        sire: "s",
        head: "polled",
      },
    });
    expect(readAnimal(JSON.parse(JSON.stringify(full)))).toEqual(full);
  });

  test("[UI-346] whether she kidded before she came is asked of a doe old enough; yes is an entry of its own", () => {
    const sedge = { ...start, name: "Sedge", sex: "doe", head: "polled" } as const;
    expect(mayHaveKidded(sedge, today)).toBe(true);
    expect(mayHaveKidded({ ...sedge, born: day("2024-03-01") }, today)).toBe(true);
    expect(mayHaveKidded({ ...sedge, born: day("2026-01-10") }, today)).toBe(false);
    expect(mayHaveKidded({ ...sedge, head: "kid" }, today)).toBe(false);
    expect(mayHaveKidded({ ...sedge, sex: "buck" }, today)).toBe(false);
    const kidded = { kind: "trait", on: today, body: { animal: "a1", trait: "kidded-before", value: "yes" } };
    const goat = animalFact(sedge, today);
    expect(animalFacts({ ...sedge, kidded: "yes" }, today)).toEqual([goat, kidded]);
    expect(animalFacts({ ...sedge, kidded: "no" }, today)).toEqual([goat]);
    expect(animalFacts(sedge, today)).toEqual([goat]);
    // An answer that was given before the sex was put right is none.
    expect(animalFacts({ ...sedge, sex: "buck", kidded: "yes" }, today)).toHaveLength(1);
    expect(animalFacts({ ...start, kidded: "yes" }, today)).toBe(undefined);
  });

  test("[UI-220] what is still to be said of a goat, or is wrong, in the order in which it is asked", () => {
    expect(animalMissing({ ...start, chip: "12" })).toEqual(["name", "chip", "sex"]);
    expect(animalMissing({ ...start, tag: "0012" })).toEqual(["sex"]);
    expect(animalMissing({ ...start, name: "Hazel", sex: "doe" })).toEqual([]);
  });
});

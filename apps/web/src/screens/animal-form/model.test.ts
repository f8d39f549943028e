import { day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { describe, expect, test } from "vitest";
import { animalFact, animalMissing, chipWrong, firstAnimal, readAnimal } from "./model.ts";

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

  test("[UI-220] what is still to be said of a goat, or is wrong, in the order in which it is asked", () => {
    expect(animalMissing({ ...start, chip: "12" })).toEqual(["name", "chip", "sex"]);
    expect(animalMissing({ ...start, tag: "0012" })).toEqual(["sex"]);
    expect(animalMissing({ ...start, name: "Hazel", sex: "doe" })).toEqual([]);
  });
});

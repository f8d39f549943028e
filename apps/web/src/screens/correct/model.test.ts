import { day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import type { Fact } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import { describe, expect, test } from "vitest";
import { chipMended, namesIn, originIn, renamed, withOrigin } from "./model.ts";

const twins: Fact = anEntry(
  "kidding",
  {
    dam: animalId("hazel"),
    kids: [
      { kid: animalId("k1"), sex: "doe", born: "alive", mark: "star", weightKg: 3.1 },
      { kid: animalId("k2"), sex: "buck", born: "alive" },
    ],
  },
  { on: "2026-03-01T22:50" },
);

describe("putting a name right", () => {
  test("[UI-41] a kid of a litter gets its name and tag, and nothing else of the litter changes", () => {
    const now = namesIn(twins, animalId("k1"));
    expect(now).toEqual({ name: "", tag: "", mark: "star", sex: "doe" });
    expect(renamed(twins, animalId("k1"), { name: " Pip ", tag: "0012", mark: "", sex: "buck" })).toEqual({
      kind: "kidding",
      on: "2026-03-01T22:50",
      body: {
        dam: "hazel",
        kids: [
          { kid: "k1", sex: "buck", born: "alive", weightKg: 3.1, name: "Pip", tag: "0012" },
          { kid: "k2", sex: "buck", born: "alive" },
        ],
      },
    });
  });

  test("[UI-297] a goat that came without a name is given one, and its mark is put right", () => {
    const goat: Fact = anEntry("animal", { animal: animalId("new"), sex: "buck", mark: "wite sock" });
    expect(namesIn(goat, animalId("new"))?.mark).toBe("wite sock");
    const answers = { name: "Alder", tag: "", mark: "white sock", sex: "buck" } as const;
    expect(renamed(goat, animalId("new"), answers).body).toEqual({
      animal: "new",
      name: "Alder",
      sex: "buck",
      mark: "white sock",
    });
  });

  test("[UI-343] a chip number that was misread is put right, or taken off; one that cannot be holds it up", () => {
    const goat: Fact = anEntry("animal", { animal: animalId("rook"), sex: "buck", chip: "276000123456780" });
    const now = { name: "", tag: "", mark: "", chip: "276000123456780", sex: "buck" } as const;
    expect(namesIn(goat, animalId("rook"))).toEqual(now);
    const chipOf = (chip: string) => renamed(goat, animalId("rook"), { ...now, chip }).body;
    expect(chipOf("276 000 123 456 789")).toMatchObject({ chip: "276000123456789" });
    expect(chipOf(" ")).not.toHaveProperty("chip");
    expect(chipMended(now, { ...now, chip: "27600012345678" })).toBe("not-15-digits");
    expect(chipMended(now, { ...now, chip: "276 000 123 456 789" })).toBe(undefined);
    expect(chipMended(now, { ...now, chip: "" })).toBe(undefined);
  });

  test("[UI-354] of a goat that came from elsewhere head, birth, breed and parents are put right, and nothing else changes", () => {
    const written = {
      animal: animalId("new"),
      sex: "doe",
      name: "Alder",
      head: "horned",
      dam: animalId("hazel"),
    } as const;
    const goat: Fact = anEntry("animal", written);
    expect(originIn(goat)).toEqual({ head: "horned", born: undefined, breed: "", dam: "hazel", sire: undefined });
    const right = { head: "disbudded", born: day("2022-03-01"), breed: " Alpine ", sire: "rook" } as const;
    expect(withOrigin(goat, right).body).toEqual({
      animal: "new",
      sex: "doe",
      name: "Alder",
      head: "disbudded",
      born: "2022-03-01",
      breed: "Alpine",
      sire: "rook",
    });
    // A kid born in the herd has all this from its kidding.
    expect([originIn(twins), withOrigin(twins, right)]).toEqual([undefined, twins]);
  });

  test("[UI-343] a number that came in otherwise, and was not touched, holds up no other correction", () => {
    const goat: Fact = anEntry("animal", { animal: animalId("rook"), sex: "buck", chip: "AB-12" });
    const now = namesIn(goat, animalId("rook")) ?? { name: "", tag: "", mark: "", sex: "unsure" };
    expect(chipMended(now, { ...now, name: "Rook" })).toBe(undefined);
    expect(renamed(goat, animalId("rook"), { ...now, name: "Rook" }).body).toMatchObject({
      name: "Rook",
      chip: "AB-12",
    });
    // The birth of a litter holds no chip, so none is asked.
    expect(namesIn(twins, animalId("k1"))).not.toHaveProperty("chip");
  });

  test("[UI-41] a goat that came otherwise keeps everything that was not asked", () => {
    const goat: Fact = anEntry("animal", {
      animal: animalId("rook"),
      name: "Rok",
      sex: "buck",
      breed: "Alpine",
      head: "polled",
    });
    const form = namesIn(goat, animalId("rook"));
    expect(
      renamed(goat, animalId("rook"), { name: "Rook", tag: "", mark: "", sex: form?.sex ?? "unsure" }).body,
    ).toEqual({
      animal: "rook",
      name: "Rook",
      sex: "buck",
      breed: "Alpine",
      head: "polled",
    });
    expect(namesIn(goat, animalId("somebody-else"))).not.toBe(undefined);
    expect(namesIn(twins, animalId("somebody-else"))).toBe(undefined);
  });
});

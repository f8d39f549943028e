import { animalId } from "@pollard/genetics";
import type { Fact } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import { describe, expect, test } from "vitest";
import { namesIn, renamed } from "./model.ts";

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

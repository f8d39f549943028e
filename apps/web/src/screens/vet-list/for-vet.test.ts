import type { VetListLine, VetListModel } from "@pollard/advice";
import { day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { screens } from "@pollard/words";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { weighIn } from "../../house/wording.ts";
import { forVet, printedMark, sincePrinted } from "./for-vet.ts";

const on = day("2026-03-14");
const line = (name: string, over: Partial<VetListLine> = {}): VetListLine => ({
  kid: { id: animalId(name), name, tag: undefined, mark: undefined, sex: "doe", damName: "Hazel" },
  dam: { id: animalId("hazel"), name: "Hazel", tag: undefined, mark: undefined, sex: "doe", damName: undefined },
  born: day("2026-03-08"),
  ageOnDay: 6,
  daysFromDueOnDay: 6,
  weight: { kg: 4.2, on: day("2026-03-12"), how: "weighed" },
  belief: undefined,
  why: "chosen",
  since: day("2026-03-12"),
  expectedKg: { mean: 4.6, low: 4.3, high: 4.9 },
  growth: "thriving",
  gainKgADay: { mean: 0.2, low: 0.15, high: 0.25 },
  tetanus: { damBooster: day("2026-02-05"), kid: undefined },
  colostrum: "given",
  pressing: [],
  end: day("2026-03-22"),
  notes: [],
  done: undefined,
  ...over,
});
const list = (...names: readonly string[]): VetListModel => ({
  day: on,
  planned: true,
  vet: undefined,
  list: names.map((name) => line(name)),
  lookFirst: [],
  cautions: [],
});
const said = (over: Partial<VetListLine> = {}): string =>
  forVet(screens, line("Wren", over), { day: on, sayDay: (d) => d }).join(" ");

describe("what the vet must know", () => {
  test("[UI-68] dam, cover of dam and kid, colostrum and growth are always said, on record or not", () => {
    expect(said()).toBe(
      "Dam: Hazel. Dam's tetanus booster: 2026-02-05. Own tetanus cover: not on record. Colostrum: given. " +
        "Gains 150 g a day to 250 g a day. Expected that day, if it grows so: 4.3 to 4.9 kg.",
    );
    const bare = said({
      dam: undefined,
      tetanus: { damBooster: undefined, kid: on },
      colostrum: "not-recorded",
      weight: undefined,
      gainKgADay: undefined,
      expectedKg: undefined,
    });
    expect(bare).toContain("Dam's tetanus booster: not on record.");
    expect(bare).toContain(`Own tetanus cover: ${on}.`);
    expect(bare).toContain("Colostrum: not on record.");
    expect(bare).not.toContain("Expected that day");
  });

  test("[UI-68] a kid that loses weight is said so; weighed that morning, nothing is expected of it", () => {
    expect(said({ growth: "losing" })).toContain("It is losing weight.");
    expect(said({ growth: "losing" })).not.toContain("Expected that day");
    expect(said({ tetanus: { damBooster: undefined, kid: undefined } })).toContain("no cover on record");
    expect(said({ weight: { kg: 4.6, on, how: "weighed" } })).not.toContain("Expected that day");
  });

  test("[UI-203] on a phone in pounds the vet reads the weight to come in kilograms first", () => {
    weighIn("lb");
    try {
      expect(said()).toContain("Expected that day, if it grows so: 4.3 to 4.9 kg (9.5 to 10.8 lb).");
    } finally {
      weighIn("kg");
    }
  });

  test("[UI-69] who is new since the list was printed, and who is off it", () => {
    const printed = printedMark(list("Wren", "Pip"), "2026-03-13T18:20");
    expect(sincePrinted(list("Pip", "Robin"), printed)).toEqual({
      at: "2026-03-13T18:20",
      fresh: new Set(["Robin"]),
      gone: 1,
    });
    expect(sincePrinted(list("Pip"), undefined)).toBeUndefined();
  });

  describe("laws", () => {
    test("[UI-69] just printed, nobody is new and nobody is gone", () => {
      fc.assert(
        fc.property(fc.uniqueArray(fc.string({ minLength: 1 })), (names) => {
          const since = sincePrinted(list(...names), printedMark(list(...names), "2026-03-13T18:20"));
          expect([since?.fresh.size, since?.gone]).toEqual([0, 0]);
        }),
      );
    });
  });
});

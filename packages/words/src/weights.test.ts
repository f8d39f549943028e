import type { VetListLine, VetListModel } from "@pollard/advice";
import { day, keptKg, WEIGHT_UNITS } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { englishCatalogue } from "./index.ts";
import { CATALOGUES, expectPlain } from "./testing.ts";
import { spanishCatalogue } from "./es/catalogue.ts";

const wren = {
  id: animalId("wren"),
  name: "Wren",
  tag: undefined,
  mark: undefined,
  sex: "doe",
  damName: undefined,
} as const;
const on = day("2026-03-12");
const line: VetListLine = {
  kid: wren,
  dam: undefined,
  why: "advised",
  since: on,
  born: on,
  ageOnDay: 5,
  daysFromDueOnDay: undefined,
  weight: { kg: 3.583, on, how: "weighed" },
  expectedKg: { mean: 4.6, low: 4.3, high: 4.9 },
  growth: "thriving",
  gainKgADay: { mean: 0.2, low: 0.15, high: 0.25 },
  belief: undefined,
  end: on,
  tetanus: { damBooster: undefined, kid: undefined },
  colostrum: "not-recorded",
  notes: [],
} as unknown as VetListLine;
const model: VetListModel = {
  day: day("2026-03-17"),
  planned: true,
  vet: undefined,
  list: [line],
  lookFirst: [],
  cautions: [],
};
const paper = (catalogue: typeof spanishCatalogue, units: "kg" | "lb") => {
  const sheet = catalogue.sheets.vetList(model, { herdName: "Sallowbank", today: on, paper: "A4", units });
  const table = sheet.blocks.find((block) => block.kind === "table");
  if (table?.kind !== "table") throw new Error("no table");
  return { heads: table.columns.map(({ title }) => title), cells: table.rows[0] ?? [] };
};

describe("weights in words", () => {
  test("[WO-30] a weight is said in the unit that was asked for, as each language writes figures", () => {
    const [en, es] = [englishCatalogue.weights("lb"), spanishCatalogue.weights("lb")];
    expect([en.said(3.583), es.said(3.583)]).toEqual(["7.9 lb", "7,9 lb"]);
    expect([en.figure(3.583), en.about(9), en.between({ low: 4.3, high: 4.9 })]).toEqual([
      "7.9",
      "19.8 lb",
      "9.5 to 10.8 lb",
    ]);
    expect([es.gain(0.187), en.gainBetween({ mean: 0.15, low: 0.12, high: 0.18 })]).toEqual([
      "0,41 lb al día",
      "0.33 lb (0.26 to 0.40)",
    ]);
    const kg = englishCatalogue.weights("kg");
    expect([kg.said(3.583), kg.said(4), kg.said(3.45), kg.gainBetween({ mean: 0.15, low: 0.12, high: 0.18 })]).toEqual([
      "3.58 kg",
      "4.0 kg",
      "3.45 kg",
      "150 g (120 to 180)",
    ]);
  });

  test("[WO-30] a kid that falls behind is told of in the unit that was asked for", () => {
    const task = {
      task: { kind: "falling-behind", kid: wren, how: "losing", lastKg: 3.583, weighed: on },
      by: on,
    } as never;
    expect(englishCatalogue.words(() => wren, "lb").task(task, on).why).toMatch(/^Weighed 7\.9 lb today\./);
    expect(spanishCatalogue.words(() => wren, "lb").task(task, on).why).toMatch(/^Pesó 7,9 lb hoy\./);
    expect(englishCatalogue.words(() => wren).task(task, on).why).toMatch(/^Weighed 3\.58 kg today\./);
  });

  test("[WO-31] the vet's list in pounds says kilograms first, and asks in which unit the day's weight is", () => {
    expect(paper(spanishCatalogue, "lb").cells[2]).toContain("3,58 kg (7,9 lb)");
    const { heads, cells } = paper(englishCatalogue, "lb");
    expect(cells[2]).toContain("3.58 kg (7.9 lb)");
    expect(cells[2]).toContain("4.3 to 4.9 kg (9.5 to 10.8 lb)");
    expect([heads[6], cells[6]]).toEqual(["Weight today", "\u25a1\u00a0kg\n\u25a1\u00a0lb"]);
  });

  test("[WO-31] in kilograms the vet's list says kilograms alone", () => {
    const { heads, cells } = paper(englishCatalogue, "kg");
    expect(cells[2]).not.toContain("lb");
    expect([heads[6], cells[6]]).toEqual(["kg today", ""]);
  });

  test.each(CATALOGUES)("[WO-1] what the vet is told of the weight to come keeps to 15 words: %s", (_, catalogue) => {
    for (const unit of WEIGHT_UNITS) {
      const { forVet } = catalogue.weights(unit);
      expectPlain([catalogue.screens.forVet.expected(forVet.between({ low: 4.3, high: 4.9 }))]);
    }
  });

  test.each(CATALOGUES)("[WO-32] names stand in the order of the language: %s", (language, catalogue) => {
    const words = catalogue.words(() => wren);
    const names = ["oveja", "Nuez", "9", "10", "\u00d1and\u00fa", "Nzinga", "\u00c1gata", "bruma"];
    expect(names.toSorted((a, b) => words.inOrder(a, b))).toEqual(
      language === "es"
        ? ["9", "10", "\u00c1gata", "bruma", "Nuez", "Nzinga", "\u00d1and\u00fa", "oveja"]
        : ["9", "10", "\u00c1gata", "bruma", "\u00d1and\u00fa", "Nuez", "Nzinga", "oveja"],
    );
  });

  describe("laws", () => {
    test.each(CATALOGUES)("[WO-30] what was typed is what is said, in either unit: %s", (_, catalogue) => {
      fc.assert(
        fc.property(fc.integer({ min: 1, max: 55_000 }), fc.constantFrom(...WEIGHT_UNITS), (hundredths, unit) => {
          const typed = hundredths / 100;
          const said = catalogue.weights(unit).said(keptKg(typed, unit));
          expect(said).toMatch(/^\d+[.,]\d\d? (kg|lb)$/);
          expect(Number(said.split(" ")[0]?.replace(",", "."))).toBe(typed);
        }),
      );
    });
  });
});

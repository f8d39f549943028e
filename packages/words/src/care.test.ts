import type { AnimalRef, ServiceCaution } from "@pollard/advice";
import { WEIGHT_UNITS } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { describe, expect, test } from "vitest";
import type { Catalogue } from "./catalogue.ts";
import { englishCatalogue } from "./en/catalogue.ts";
import { CATALOGUES, expectPlain } from "./testing.ts";

const fern: AnimalRef = {
  id: animalId("fern"),
  name: "Fern",
  tag: undefined,
  mark: undefined,
  sex: "doe",
  damName: undefined,
};
const CAUTIONS: readonly ServiceCaution[] = [
  { code: "doe-too-young", doe: fern, ageDays: 183 },
  { code: "doe-too-light", doe: fern, kg: 30, readyKg: 36 },
  { code: "doe-not-weighed", doe: fern, readyKg: 36 },
  { code: "buck-too-young", buck: fern, ageDays: 150 },
  { code: "buck-has-enough", buck: fern, does: 31, most: 30 },
];
const textsOf = ({ care, careTexts, weights }: Catalogue): readonly string[] => [
  ...WEIGHT_UNITS.flatMap((unit) => CAUTIONS.map((caution) => care.serviceCaution(caution, weights(unit)))),
  ...Object.values(careTexts.tasks).flatMap(({ title, why }) => [title, why]),
  ...Object.values(careTexts.visitors),
  ...Object.values(careTexts.afterLoss),
  care.lawNote,
  care.vetNote,
];

describe("care in words", () => {
  test.each(CATALOGUES)("[WO-1] no sentence has more than 15 words: %s", (_, catalogue) => {
    expectPlain(textsOf(catalogue));
  });

  test.each(CATALOGUES)("[WO-8] no task names a drug or an amount to give: %s", (_, catalogue) => {
    for (const text of textsOf(catalogue))
      expect(text).not.toMatch(
        /\b\d+ ?(ml|mg|cc|iu|units?|drops?|gotas?|unidades)\b|lidoca[ií]n|xila[cz]in|xylazin|meloxicam|antitoxin/i,
      );
  });

  test("[WO-8] a weight to come is said as a range, a gain in round grams", () => {
    const { between, gain } = englishCatalogue.weights("kg");
    expect(between({ low: 4.12, high: 4.96 })).toBe("4.1 to 5.0 kg");
    expect(gain(0.187)).toBe("190 g a day");
  });
});

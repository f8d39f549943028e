import type { AnimalRef, ServiceCaution } from "@pollard/advice";
import { animalId } from "@pollard/genetics";
import { describe, expect, test } from "vitest";
import { AFTER_LOSS, CARE, VISITORS } from "./en/care.ts";
import { care } from "./index.ts";

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
const said = [
  ...CAUTIONS.map((caution) => care.serviceCaution(caution)),
  ...Object.values(CARE).flatMap(({ title, why }) => [title, why]),
  ...Object.values(VISITORS),
  ...Object.values(AFTER_LOSS),
  care.lawNote,
  care.vetNote,
];

describe("care in words", () => {
  test("[WO-1] no sentence has more than 15 words", () => {
    for (const text of said)
      for (const sentence of text.split(/(?<=[.?]) /))
        expect(sentence.split(/\s+/).length, sentence).toBeLessThanOrEqual(15);
  });

  test("[WO-8] no task names a drug or an amount to give", () => {
    for (const text of said)
      expect(text).not.toMatch(/\b\d+ ?(ml|mg|cc|iu|units?|drops?)\b|lidocaine|xylazine|meloxicam|antitoxin/i);
  });

  test("[WO-8] a weight to come is said as a range, a gain in round grams", () => {
    expect(care.between({ low: 4.12, high: 4.96 })).toBe("4.1 to 5.0 kg");
    expect(care.gramsADay(0.187)).toBe("190 g a day");
  });
});

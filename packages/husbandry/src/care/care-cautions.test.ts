import { describe, expect, test } from "vitest";
import { CARE_CAUTIONS, pressingCautions } from "./care-cautions.ts";

describe("care cautions", () => {
  test("[HD-21] a kid of unknown weight and cover: weigh it and ask about tetanus; a covered, weighed one: nothing pressing", () => {
    expect(pressingCautions({ weighed: "never", tetanus: "unknown" })).toEqual([
      "weigh-on-the-morning",
      "tetanus-cover",
    ]);
    expect(pressingCautions({ weighed: "that-morning", weightKg: 3.2, tetanus: "covered" })).toEqual([]);
  });

  test("[HD-21] a dwarf kid of 1.2 kg is pointed out", () => {
    expect(pressingCautions({ weighed: "that-morning", weightKg: 1.2, tetanus: "covered" })).toEqual([
      "very-small-kid",
    ]);
  });

  test("[HD-21] every caution names its source, and none holds a figure that could be taken for a dose", () => {
    for (const { code, sources } of CARE_CAUTIONS) {
      expect(sources.length).toBeGreaterThan(0);
      expect(code).not.toMatch(/\d|mg|ml/);
    }
  });
});

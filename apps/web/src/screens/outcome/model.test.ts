import { day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { describe, expect, test } from "vitest";
import { asksKnobs, firstOutcome, outcomeFact, readOutcome } from "./model.ts";

const start = firstOutcome(day("2026-03-18"));
const goat = animalId("k1");

describe("what grew", () => {
  test("[UI-27] both sides are asked; not sure is an answer, silence is not", () => {
    expect(outcomeFact({ ...start, left: "scur" }, goat)).toBe(undefined);
    expect(outcomeFact({ ...start, left: "scur", right: "unsure" }, goat)).toEqual({
      kind: "outcome",
      on: "2026-03-18",
      body: { animal: goat, left: "scur", right: "unsure" },
    });
  });

  test("[UI-27] the shape of knobs is asked and kept only where a knob grew", () => {
    const knobs = { ...start, left: "knob", right: "nothing", knobs: "beans-in-v" } as const;
    expect(asksKnobs(knobs)).toBe(true);
    expect(outcomeFact(knobs, goat)?.body).toEqual({
      animal: goat,
      left: "knob",
      right: "nothing",
      knobs: "beans-in-v",
    });
    expect(outcomeFact({ ...knobs, left: "nothing" }, goat)?.body).toEqual({
      animal: goat,
      left: "nothing",
      right: "nothing",
    });
  });

  test("[UI-2] what is on disk comes back the same", () => {
    const draft = { ...start, left: "horn" } as const;
    expect(readOutcome(JSON.parse(JSON.stringify(draft)))).toEqual(draft);
    expect(readOutcome("something else")).toBe(undefined);
  });
});

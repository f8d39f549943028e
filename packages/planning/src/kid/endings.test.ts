import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Ending, envelope } from "./endings.ts";

const anyEnding: fc.Arbitrary<Ending> = fc.record({
  horned: fc.integer({ min: 0, max: 12 }),
  polled: fc.integer({ min: 0, max: 12 }),
  kind: fc.constantFrom("leave", "vet-list"),
});

describe("envelope", () => {
  test("[KD-1] leaving and one visit: they change places where the odds of horns are 1 to 2", () => {
    const leave: Ending = { horned: 3, polled: 0, kind: "leave" };
    const visit: Ending = { horned: 1, polled: 1, kind: "vet-list" };
    expect(envelope([leave, visit])).toEqual({ endings: [visit, leave], turns: Float64Array.of(0.5) });
  });

  describe("laws", () => {
    test("[KD-1] the ending the turns point to is the cheapest of all, for any weights", () => {
      fc.assert(
        fc.property(
          fc.array(anyEnding, { minLength: 1, maxLength: 8 }),
          fc.nat(50),
          fc.integer({ min: 1, max: 50 }),
          (open, h, p) => {
            const { endings, turns } = envelope(open);
            const place = turns.findIndex((turn) => h / p >= turn);
            const chosen = endings[place < 0 ? endings.length - 1 : place];
            const loss = (e: Ending | undefined) => h * (e?.horned ?? 0) + p * (e?.polled ?? 0);
            expect(loss(chosen)).toBeCloseTo(Math.min(...open.map(loss)), 9);
            expect([...turns]).toEqual([...turns].sort((a, b) => b - a));
          },
        ),
      );
    });
  });
});

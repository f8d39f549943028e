import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { callsCame } from "./calls-came.ts";

/** The slow way: every way in which `n` kids can turn out, counted one by one. */
function byCounting(yes: number, n: number, chance: number): number {
  let sum = 0;
  for (let way = 0; way < 2 ** n; way++) {
    const horned = way.toString(2).replaceAll("0", "").length;
    if (horned <= yes) sum += chance ** horned * (1 - chance) ** (n - horned);
  }
  return sum;
}

describe("did it come as called?", () => {
  test("[AD-24] of ten called half and half: one horned is too few, two may be luck", () => {
    // By hand: 11 and 56 of 1024 ways.
    expect(callsCame({ kids: 10, horned: 1, meanCall: 0.5 })).toBe("fewer-horned");
    expect(callsCame({ kids: 10, horned: 2, meanCall: 0.5 })).toBe("as-called");
    expect(callsCame({ kids: 10, horned: 9, meanCall: 0.5 })).toBe("more-horned");
  });

  test("[AD-24] one miss among 22 called near all is no reproof, two are", () => {
    expect(callsCame({ kids: 22, horned: 21, meanCall: 0.992 })).toBe("as-called");
    expect(callsCame({ kids: 22, horned: 20, meanCall: 0.992 })).toBe("fewer-horned");
  });

  describe("laws", () => {
    const line = fc
      .record({ kids: fc.integer({ min: 1, max: 9 }), share: fc.double({ min: 0, max: 1, noNaN: true }) })
      .chain(({ kids, share }) =>
        fc.record({
          kids: fc.constant(kids),
          horned: fc.constant(Math.round(share * kids)),
          meanCall: fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        }),
      );

    test("[AD-24] it equals counting every way the kids can turn out", () => {
      fc.assert(
        fc.property(line, ({ kids, horned, meanCall }) => {
          const few = byCounting(horned, kids, meanCall);
          const many = byCounting(kids - horned, kids, 1 - meanCall);
          fc.pre(Math.abs(few - 0.05) > 1e-9 && Math.abs(many - 0.05) > 1e-9);
          const slow = few < 0.05 ? "fewer-horned" : many < 0.05 ? "more-horned" : "as-called";
          expect(callsCame({ kids, horned, meanCall })).toBe(slow);
        }),
        { numRuns: 60 },
      );
    });

    test("[AD-24] horns called hornless are too many just where hornless called horned are", () => {
      fc.assert(
        fc.property(line, ({ kids, horned, meanCall }) => {
          const turned = { "fewer-horned": "more-horned", "more-horned": "fewer-horned", "as-called": "as-called" };
          const other = callsCame({ kids, horned: kids - horned, meanCall: 1 - meanCall });
          const both = turned[callsCame({ kids, horned, meanCall })];
          // Where both ends are surprising at once the first is told; with a call inside 1 to 99 in 100 that cannot be.
          expect(other).toBe(both);
        }),
        { numRuns: 60 },
      );
    });
  });
});

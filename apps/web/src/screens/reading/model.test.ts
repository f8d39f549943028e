import { day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { NO_FINDINGS } from "@pollard/husbandry";
import { parseEntry } from "@pollard/records";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  answerSign,
  findingOf,
  FINDINGS,
  firstOpen,
  firstReading,
  hasAnswer,
  linesOf,
  nextStep,
  readingFact,
  readReading,
  SIGNS,
  sideShown,
} from "./model.ts";

const start = () => firstReading(day("2026-03-03"), "14:32");
const kid = animalId("k1");

describe("a head reading in the making", () => {
  test("[UI-6] one answer for both sides is one observation; one for each side is two", () => {
    const alike = answerSign(start(), "feel", "both", "pointed");
    expect(alike.signs).toEqual({ feel: { both: "pointed" } });
    const leftOnly = answerSign(alike, "feel", "left", "rounded");
    expect(leftOnly.signs).toEqual({ feel: { left: "rounded" } });
    const each = answerSign(leftOnly, "feel", "right", "pointed");
    expect(each.signs).toEqual({ feel: { left: "rounded", right: "pointed" } });
    expect(answerSign(each, "feel", "both", "nothing").signs).toEqual({ feel: { both: "nothing" } });
  });

  test("[UI-6] an interrupted reading goes on at the first question without an answer", () => {
    const half = answerSign(answerSign(start(), "feel", "both", "pointed"), "skin", "both", "not-looked");
    expect(firstOpen(half.signs)).toBe("whorls");
    expect(firstOpen(start().signs)).toBe("feel");
    expect(nextStep("crown")).toBe("check");
  });

  test("[UI-6] what was not reached is not recorded, and not sure is", () => {
    const draft = answerSign(start(), "whorls", "both", "unsure");
    expect(readingFact(draft, kid)).toEqual({
      kind: "head-reading",
      on: "2026-03-03T14:32",
      body: { kid, signs: { whorls: { both: "unsure" } } },
    });
    expect(hasAnswer(start().signs)).toBe(false);
    expect(hasAnswer(draft.signs)).toBe(true);
  });

  test("[UI-6] the check page lists each side answered, and what was not reached", () => {
    const draft = answerSign(answerSign(start(), "feel", "left", "pointed"), "feel", "right", "nothing");
    expect(linesOf(draft.signs).map(({ sign, side, finding }) => `${sign} ${side} ${finding}`)).toEqual([
      "feel left pointed",
      "feel right nothing",
      "skin both undefined",
      "whorls both undefined",
      "crown both undefined",
    ]);
  });

  test("[UI-6] the side that is shown is the one still to be answered", () => {
    expect(sideShown(start().signs, "feel")).toBe("both");
    const left = answerSign(start(), "feel", "left", "pointed");
    expect(sideShown(left.signs, "feel")).toBe("right");
    expect(sideShown(left.signs, "crown")).toBe("both");
  });

  describe("laws", () => {
    const sign = fc.constantFrom(...SIGNS);
    const step = fc.tuple(sign, fc.constantFrom("both", "left", "right"), fc.nat(9));
    const answered = fc.array(step, { maxLength: 12 }).map((steps) =>
      steps.reduce((draft, [on, side, pick]) => {
        const answers: readonly string[] = [...FINDINGS[on], ...NO_FINDINGS];
        return answerSign(draft, on, side, answers[pick % answers.length] ?? "unsure");
      }, start()),
    );

    test("[UI-6] whatever is tapped, the result is an entry that can be stored", () => {
      fc.assert(
        fc.property(answered, (draft) => {
          const envelope = {
            v: 1,
            id: "e",
            herd: "h",
            by: "Ines",
            at: "2026-03-03T14:32:00.000Z-0000-phone",
            device: "phone",
          };
          expect(parseEntry({ ...envelope, ...readingFact(draft, kid) }).ok).toBe(true);
        }),
      );
    });

    test("[UI-2] whatever is tapped comes back from disk the same", () => {
      fc.assert(
        fc.property(answered, (draft) => {
          expect(readReading(JSON.parse(JSON.stringify(draft)))).toEqual(JSON.parse(JSON.stringify(draft)));
        }),
      );
    });

    test("[UI-6] the last answer of a sign and side is the one that stands", () => {
      fc.assert(
        fc.property(answered, sign, (draft, on) => {
          const finding = FINDINGS[on][0];
          expect(findingOf(answerSign(draft, on, "both", finding).signs, on, "both")).toBe(finding);
        }),
      );
    });
  });
});

import { type CareTask, careWishes } from "@pollard/advice";
import { addDays, day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { CARE_RULES } from "@pollard/husbandry";
import { fold, parseEntry } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import { CATALOGUES } from "@pollard/words/testing";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type CareAnswers,
  careByDays,
  careFact,
  careGroups,
  careMissing,
  careStatus,
  doneToday,
  firstCare,
  isBehind,
  movedDays,
  REASONS,
} from "./model.ts";

const today = day("2026-03-14");
const wren = animalId("wren");
const sayReason = (reason: string): string => `said ${reason}`;
const fact = (answers: CareAnswers) => careFact(answers, "navel", [wren], today, sayReason);
const task = (code: CareTask["code"], name: string, over: Partial<CareTask> = {}): CareTask => ({
  code,
  animal: { id: animalId(name), name, tag: undefined, mark: undefined, sex: "doe", damName: undefined },
  from: today,
  by: today,
  kind: "do",
  state: "open",
  because: undefined,
  source: "dawson",
  pressing: undefined,
  ...over,
});

test.each(CATALOGUES)(
  "[UI-273] whose word the days of a task are is said by name, not by a key: %s",
  (_, { screens }) => {
    const named: Readonly<Record<string, string>> = screens.care.sources;
    expect(CARE_RULES.map(({ days }) => days.source).filter((key) => named[key] === undefined)).toEqual([]);
  },
);

describe("what became of a task of care", () => {
  test("[UI-65] done today is one tap, for one goat or for all", () => {
    expect(doneToday("navel", [wren], today)).toEqual({
      kind: "care",
      on: today,
      body: { animals: [wren], task: "navel", answer: "done" },
    });
    expect(fact({ ...firstCare(today), answer: "done" })).toEqual(doneToday("navel", [wren], today));
  });

  test("[UI-65] what is put off has a day to come and a reason; what is not needed has a reason", () => {
    const off = { ...firstCare(today), answer: "put-off" } as const;
    expect(careMissing(off, today)).toBe("until");
    expect(careMissing({ ...off, until: today }, today)).toBe("until");
    expect(careMissing({ ...off, until: addDays(today, 3) }, today)).toBe("because");
    expect(fact({ ...off, until: addDays(today, 3), reason: "no-time" })?.body).toEqual({
      animals: [wren],
      task: "navel",
      answer: "put-off",
      until: addDays(today, 3),
      because: "said no-time",
    });
    const not = { ...firstCare(today), answer: "not-needed", reason: "other" } as const;
    expect(careMissing(not, today)).toBe("because");
    expect(fact({ ...not, reasonText: " born in iodine " })?.body).toMatchObject({ because: "born in iodine" });
  });

  test("[UI-66] days without milk or meat are written as the vet said, and only with what was done", () => {
    const done = { ...firstCare(today), answer: "done", means: " Vet's bottle ", hold: "yes" } as const;
    expect(careMissing(done, today)).toBe("held");
    const held = { ...done, noMeatUntil: addDays(today, 30) };
    expect(fact(held)?.body).toMatchObject({ means: "Vet's bottle", noMeatUntil: addDays(today, 30) });
    expect(fact({ ...held, hold: "no" })?.body).not.toHaveProperty("noMeatUntil");
    expect(fact({ ...held, answer: "put-off", until: addDays(today, 1), reason: "no-time" })?.body).not.toHaveProperty(
      "noMeatUntil",
    );
  });

  test("[UI-65] tasks stand together by what is to be done; past their day they are due now", () => {
    const groups = careGroups([task("navel", "a"), task("colostrum", "a"), task("navel", "b")]);
    expect(groups.map(({ code, tasks }) => [code, tasks.length])).toEqual([
      ["navel", 2],
      ["colostrum", 1],
    ]);
    expect(careStatus(task("navel", "a", { by: addDays(today, -1) }), today)).toBe("now");
    expect(careStatus(task("navel", "a", { by: addDays(today, 2) }), today)).toBe("soon");
    expect(careStatus(task("navel", "a", { from: addDays(today, 1), by: addDays(today, 2) }), today)).toBe("planned");
    expect(careStatus(task("navel", "a", { state: "put-off", by: addDays(today, 2) }), today)).toBe("planned");
  });

  test("[UI-65] what is past its days comes after what is due, and is not forgotten", () => {
    const { due, past } = careByDays(
      [task("identification", "a", { by: addDays(today, -40) }), task("navel", "b"), task("navel", "c")],
      today,
    );
    expect(due.map(({ code, tasks }) => [code, tasks.length])).toEqual([["navel", 2]]);
    expect(past.map(({ code, tasks }) => [code, tasks.length])).toEqual([["identification", 1]]);
  });

  test("[UI-67] a kid that loses or gains too little is behind; one weighed once is not", () => {
    expect((["thriving", "slow", "losing", "unknown"] as const).filter((state) => isBehind({ state }))).toEqual([
      "slow",
      "losing",
    ]);
  });

  test("[UI-72] the vet's days are kept where care reads them, both ends together, and never cross", () => {
    expect(movedDays("kid-vaccine", { from: 35, by: 42 }, "from", "more")).toEqual([
      { key: "care-kid-vaccine-from", value: 36 },
      { key: "care-kid-vaccine-by", value: 42 },
    ]);
    expect(movedDays("kid-vaccine", { from: 35, by: 35 }, "by", "less")).toEqual([]);
    const entries = movedDays("kid-vaccine", { from: 35, by: 42 }, "by", "less").map((body) =>
      anEntry("setting", body, { on: "2026-03-01" }),
    );
    expect(careWishes(fold(entries, today).herd).get("kid-vaccine")).toEqual({ from: 35, by: 41 });
  });

  describe("laws", () => {
    test("[UI-65] whatever is complete is an entry that the herd takes; whatever is not is none", () => {
      const someDay = fc.integer({ min: -5, max: 40 }).map((n) => addDays(today, n));
      const answers: fc.Arbitrary<CareAnswers> = fc
        .record(
          {
            answer: fc.constantFrom("done", "not-needed", "put-off"),
            until: someDay,
            reason: fc.constantFrom(...REASONS),
            reasonText: fc.constantFrom("", "  ", "kicks"),
            means: fc.constantFrom("", "  ", "Vet's bottle"),
            hold: fc.constantFrom("no", "yes"),
            noMilkUntil: someDay,
            noMeatUntil: someDay,
          },
          { requiredKeys: ["reasonText", "means"] },
        )
        .map((given) => ({ ...firstCare(today), ...given }));
      fc.assert(
        fc.property(answers, (given) => {
          const made = fact(given);
          expect(made === undefined).toBe(careMissing(given, today) !== undefined);
          if (made !== undefined) expect(parseEntry(anEntry(made.kind, made.body, { on: made.on })).ok).toBe(true);
        }),
      );
    });
  });
});

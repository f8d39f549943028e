import type { AnimalRef, ExpectedDoe, VetDayLine, VetDaysModel } from "@pollard/advice";
import { day, probability } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { describe, expect, test } from "vitest";
import { season } from "./en/season.ts";
import { CATALOGUES, expectPlain } from "./testing.ts";

const ref = (name: string): AnimalRef => ({
  id: animalId(name),
  name,
  tag: undefined,
  mark: undefined,
  sex: "doe",
  damName: undefined,
});
const visit = (part: Partial<VetDayLine> = {}): VetDayLine => ({
  day: day("2026-03-24"),
  state: "proposed",
  expected: 3.2,
  low: 1,
  high: 5,
  chances: [],
  from: [],
  ...part,
});

describe("the season in words", () => {
  test("[WO-6] in tables a day has its weekday and its whole date", () => {
    expect(season.tableDay(day("2026-03-24"))).toBe("Tue 2026-03-24");
  });

  test("[WO-7] what is expected is said as a person counts, with its range", () => {
    expect(season.heads(visit())).toBe("about 3, 1 to 5");
    expect(season.heads(visit({ expected: 3, low: 3, high: 3 }))).toBe("3 heads");
    expect(season.heads(visit({ expected: 0.4, low: 0, high: 1 }))).toBe("perhaps one, 0 to 1");
    expect(season.heads(visit({ taken: 2 }))).toBe("about 3, 1 to 5; takes 2");
  });

  test("[WO-7] kids are named, and the dams of those to come", () => {
    const from = [
      { animal: ref("Moss"), what: "kid" as const, expected: undefined },
      { animal: ref("Hazel"), what: "dam" as const, expected: 1.2 },
      { animal: ref("Ash"), what: "dam" as const, expected: 0.01 },
    ];
    expect(season.visitFrom(visit({ from }))).toBe("Moss, kids of Hazel");
  });

  const expected = (part: Partial<ExpectedDoe> = {}): ExpectedDoe => ({
    doe: ref("Hazel"),
    served: { from: day("2025-10-05"), to: day("2025-10-05") },
    inKid: probability(0.8),
    willKid: probability(0.75),
    days: { from: day("2026-02-28"), likely: day("2026-03-04"), to: day("2026-03-09") },
    litter: [],
    meanKids: 1.8,
    sires: [],
    horned: probability(0.5),
    returns: [],
    ...part,
  });
  const plan = (heads: number): VetDaysModel => ({
    today: day("2026-01-01"),
    visits: [visit(), visit()],
    heads,
    missed: 0.2,
    lateDays: 3,
    fewer: undefined,
    more: undefined,
    does: 5,
    kids: 0,
    limit: undefined,
    rule: "AD-33",
  });

  test.each(CATALOGUES)("[WO-62] one head is one, and several are several: %s", (_, { season }) => {
    const one = [0.1, 0.5, 1, 1.4].map((heads) => season.plan(plan(heads)));
    for (const said of one) expect(said).toMatch(/\b(head|cabeza);/);
    for (const heads of [1.5, 3, 20]) expect(season.plan(plan(heads))).toMatch(/\b(heads|cabezas);/);
  });

  test("[WO-63] a doe that is with the buck still is said to be so, and is not called empty", () => {
    const started = { inKid: probability(0.05), served: { from: day("2026-01-01"), to: day("2026-01-22") } };
    for (const [, { season }] of CATALOGUES) {
      const said = season.expected(expected(started), day("2026-01-01"));
      expect(said).toMatch(/still with the buck|Sigue con el macho/);
      expect(said).not.toMatch(/empty|vacía/);
      expect(season.expected(expected(started), day("2026-01-22"))).toMatch(/empty|vacía/);
    }
  });

  test("[WO-64] a spell is said with the day on which it began and the day on which it ends", () => {
    const said = CATALOGUES.map(([, catalogue]) => {
      const words = catalogue.words(ref);
      const said = (on: string) => words.day(day(on), day("2026-07-02"));
      return [
        catalogue.screens.plan.span(said("2026-06-25"), said("2026-07-16")),
        catalogue.screens.plan.span(said("2026-07-01"), said("2026-07-02")),
      ];
    });
    expect(said).toEqual([
      ["Thursday 25 June to Thursday 16 July", "yesterday to today"],
      ["del jueves 25 de junio al jueves 16 de julio", "de ayer a hoy"],
    ]);
  });

  test.each(CATALOGUES)("[WO-1] its sentences are short: %s", (_, { season }) => {
    const days = [day("2026-03-24")];
    const said = [
      season.otherCount({ days, missed: 1.26, lateDays: 4 }, "fewer"),
      season.otherCount({ days, missed: -0.4, lateDays: -3 }, "more"),
      season.limit({ heads: 6, kept: "yes" }),
      season.limit({ heads: 6, kept: "best-found" }),
      season.limit({ heads: 6, kept: "not-asked" }),
      season.plan(plan(9.3)),
      season.expected(expected(), day("2026-01-01")),
      season.expected(expected({ served: { from: day("2026-01-01"), to: day("2026-01-22") } }), day("2026-01-01")),
    ];
    expectPlain(said);
    expect(said[0]).toMatch(
      /^(One visit fewer: 1\.3 kids more missed, 4|Una visita menos: 1,3 crías más perdidas, 4) /,
    );
  });
});

import { day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import type { BodyOf } from "@pollard/records";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  addKid,
  answerKid,
  firstKidding,
  type KiddingDraft,
  kiddingFact,
  maybeYesterday,
  readKidding,
  type NewbornDraft,
  toggleKid,
  weightTyped,
} from "./model.ts";

const dam = animalId("hazel");
const born = day("2026-03-01");
const start = (): KiddingDraft => firstKidding(born, "22:50", animalId("k1"));

describe("a kidding in the making", () => {
  test("[UI-5] twins take two answers each", () => {
    let draft = answerKid(start(), 0, { sex: "doe" });
    draft = answerKid(draft, 0, { born: "alive" });
    draft = addKid(draft, animalId("k2"));
    draft = answerKid(draft, 1, { sex: "buck" });
    draft = answerKid(draft, 1, { born: "dead" });
    expect(kiddingFact(draft, dam)).toEqual({
      kind: "kidding",
      on: "2026-03-01T22:50",
      body: {
        dam,
        kids: [
          { kid: "k1", sex: "doe", born: "alive" },
          { kid: "k2", sex: "buck", born: "dead" },
        ],
      },
    });
  });

  test("[UI-5] what nobody answered is never made up: sex is not sure, weight is not there", () => {
    expect(kiddingFact(answerKid(start(), 0, { weightText: "a lot" }), dam).body).toEqual({
      dam,
      kids: [{ kid: "k1", sex: "unsure", born: "alive" }],
    });
  });

  test("[UI-5] a kid taken off is not recorded, and can be put back", () => {
    const off = toggleKid(addKid(start(), animalId("k2")), 0);
    expect(kiddingFact(off, dam).body).toEqual({ dam, kids: [{ kid: "k2", sex: "unsure", born: "alive" }] });
    expect(kiddingFact(toggleKid(off, 0), dam)).toEqual(kiddingFact(addKid(start(), animalId("k2")), dam));
  });

  test("[UI-202] a weight is stored from the unit in which it was typed, whatever the phone uses by then", () => {
    const kgOf = (kid: Partial<NewbornDraft>): number | undefined => {
      const { body } = kiddingFact(answerKid(start(), 0, kid), dam) as { body: BodyOf<"kidding"> };
      return body.kids[0]?.weightKg;
    };
    expect(kgOf({ weightText: "7.9", weightUnit: "lb" })).toBe(3.583);
    expect(kgOf({ weightText: "3,4", weightUnit: "kg" })).toBe(3.4);
    expect(kgOf({ weightText: "3.4" })).toBe(3.4);
    expect(kgOf({ weightText: "1,200", weightUnit: "lb" })).toBe(undefined);
    const typed = { kid: animalId("k1"), weightText: "7.9", weightUnit: "lb" } as const;
    expect(weightTyped(typed, "kg")).toEqual({ text: "7.9", unit: "lb" });
    expect(weightTyped({ kid: animalId("k1"), weightText: "3.4" }, "lb")).toEqual({ text: "3.4", unit: "kg" });
    expect(weightTyped({ kid: animalId("k1"), weightUnit: "lb" }, "kg")).toEqual({ text: "", unit: "kg" });
  });

  test("[UI-8] in the small hours it is asked whether it was yesterday", () => {
    const at = (time: string) => maybeYesterday(firstKidding(born, time, animalId("k1")), born);
    expect([at("00:10"), at("02:59"), at("03:00"), at("22:50")]).toEqual([true, true, false, false]);
    expect(maybeYesterday(firstKidding(born, "00:10", animalId("k1")), day("2026-03-02"))).toBe(false);
  });

  test("[UI-2] what is on disk comes back the same; what is no kidding is not taken for one", () => {
    const draft = answerKid(start(), 0, { sex: "doe", mark: "white star" });
    expect(readKidding(JSON.parse(JSON.stringify(draft)))).toEqual(draft);
    for (const other of [undefined, null, 3, "x", {}, { on: 3 }, { on: "2026-03-01" }])
      expect(readKidding(other)).toBe(undefined);
  });

  describe("laws", () => {
    test("[UI-5] taking off and putting back any kid changes nothing that is recorded", () => {
      const litters = fc.array(fc.constantFrom("doe" as const, "buck" as const, undefined), {
        minLength: 1,
        maxLength: 5,
      });
      fc.assert(
        fc.property(litters, fc.nat(4), (sexes, pick) => {
          let draft: KiddingDraft = { ...start(), kids: [] };
          for (const [at, sex] of sexes.entries())
            draft = answerKid(addKid(draft, animalId(`k${at}`)), at, sex ? { sex } : {});
          const at = pick % sexes.length;
          expect(kiddingFact(toggleKid(toggleKid(draft, at), at), dam)).toEqual(kiddingFact(draft, dam));
        }),
      );
    });
  });
});

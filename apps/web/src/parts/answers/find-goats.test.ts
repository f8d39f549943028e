import type { AnimalLine } from "@pollard/advice";
import { animalId } from "@pollard/genetics";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { findGoats } from "./find-goats.ts";

const goat = (name: string | undefined, tag: string | undefined, gone = false): AnimalLine => ({
  ref: { id: animalId(`${name}/${tag}`), name, tag, mark: undefined, sex: "doe", damName: undefined },
  born: undefined,
  chip: undefined,
  gone,
  urgency: undefined,
  surety: "open",
  head: "unknown",
});
const herd = [
  goat("Hazel", "SB 01"),
  goat("Hawthorn", "26-101"),
  goat("Lady Fern", "26 01", true),
  goat(undefined, "0126"),
  goat("Juniper", undefined),
];
const found = (way: "tag" | "name" | "any", typed: string) =>
  findGoats(herd, way, typed).map(({ ref }) => ref.name ?? ref.tag);

describe("finding a goat", () => {
  test("[UI-21] by the digits of its tag: the end of a tag first, then by name, those that are gone last", () => {
    expect(found("tag", "01")).toEqual(["Hawthorn", "Hazel", "0126", "Lady Fern"]);
    expect(found("tag", "26101")).toEqual(["Hawthorn"]);
    expect(found("tag", "999")).toEqual([]);
  });

  test("[UI-21] by the beginning of any word of its name, whatever the case", () => {
    expect(found("name", "HA")).toEqual(["Hawthorn", "Hazel"]);
    expect(found("name", "fer")).toEqual(["Lady Fern"]);
    expect(found("name", "01")).toEqual([]);
  });

  test("[UI-297] one that has neither name nor tag is found by its mark", () => {
    const nameless = { ...goat(undefined, undefined), ref: { ...goat(undefined, undefined).ref, mark: "White sock" } };
    expect(findGoats([...herd, nameless], "name", "sock")).toEqual([nameless]);
    expect(findGoats([...herd, nameless], "tag", "sock")).toEqual([]);
  });

  test("[UI-342] with or without the accents of its name, or of what is typed", () => {
    const spanish = [goat("Núria", undefined), goat("Peña Blanca", "Ñ 7"), goat("Zoë", undefined)];
    const names = (typed: string) => findGoats(spanish, "name", typed).map(({ ref }) => ref.name);
    expect(names("nuria")).toEqual(["Núria"]);
    expect(names("NÚR")).toEqual(["Núria"]);
    expect(names("pena")).toEqual(["Peña Blanca"]);
    expect(names("zoe")).toEqual(["Zoë"]);
    // Typed on one phone as one letter, on another as a letter and its accent.
    expect(names("nu\u0301ria")).toEqual(["Núria"]);
    expect(findGoats(spanish, "tag", "n7").map(({ ref }) => ref.name)).toEqual(["Peña Blanca"]);
  });

  test("[UI-342] by four digits or more of its chip, behind the tags that fit; the whole number stands first", () => {
    const chipped = { ...goat("Sloe", "SB 09"), chip: "276000123450126" };
    const all = [...herd, chipped];
    const names = (typed: string) => findGoats(all, "tag", typed).map(({ ref }) => ref.name ?? ref.tag);
    expect(names("0126")).toEqual(["0126", "Sloe"]);
    expect(names("126")).toEqual(["0126"]);
    expect(names("276 000 123 450 126")).toEqual(["Sloe"]);
    expect(findGoats(all, "name", "0126")).toEqual([]);
  });

  describe("laws", () => {
    const goats = fc.array(
      fc
        .record({
          name: fc.option(fc.string({ minLength: 1, maxLength: 6 }), { nil: undefined }),
          tag: fc.option(fc.stringMatching(/^[A-Z0-9 -]{1,8}$/), { nil: undefined }),
        })
        .map(({ name, tag }) => goat(name, tag)),
      { maxLength: 20 },
    );

    test("[UI-21] every goat is found by its whole tag, and one digit more never finds more", () => {
      fc.assert(
        fc.property(goats, fc.stringMatching(/^[0-9]{1,4}$/), (all, digits) => {
          for (const each of all) {
            const { tag } = each.ref;
            if (tag !== undefined && /[A-Z0-9]/.test(tag)) expect(findGoats(all, "tag", tag)).toContain(each);
          }
          const fewer = new Set(findGoats(all, "tag", digits.slice(0, -1)));
          for (const each of findGoats(all, "tag", digits)) expect(fewer.has(each)).toBe(true);
        }),
      );
    });
  });
});

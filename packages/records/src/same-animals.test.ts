import { type Day, day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Entry } from "./entry/entry.ts";
import { anEntry, aStrike, stampOf } from "./entry/entry-builders.ts";
import { fold } from "./fold/ledger.ts";
import { putTogether, sameKey, sameNewborns, withSameAnimals } from "./same-animals.ts";

const TODAY: Day = day("2026-06-01");
const [hazel, a, b, c] = ["hazel", "kid-a", "kid-b", "kid-c"].map(animalId) as [never, never, never, never];
let written = 0;
const at = () => stampOf(++written * 1000);
const doe = anEntry("animal", { animal: hazel, name: "Hazel", sex: "doe" }, { on: "2024-01-01", at: at() });
const birth = (on: string, kids: readonly { readonly kid: never; readonly [more: string]: unknown }[]) =>
  anEntry(
    "kidding",
    { dam: hazel, kids: kids.map((kid) => ({ sex: "doe", born: "alive", ...kid })) as never },
    { on, at: at() },
  );
const answer = (value: string, one: never = a, other: never = b) =>
  anEntry("setting", { key: sameKey(one, other), value }, { on: "2026-03-03", at: at() });
const weight = (animal: never, on: string, kg: number) =>
  anEntry("weight", { animal, kg, how: "weighed" }, { on, at: at() });

const here = birth("2026-03-01", [{ kid: a, tag: "12" }]);
const there = birth("2026-03-02", [{ kid: b, tag: "12", name: "Moth" }]);
const both = [doe, here, there, weight(b, "2026-03-03", 3.4), weight(a, "2026-03-04", 3.6)];
const folded = (entries: readonly Entry[]) => withSameAnimals(fold(entries, TODAY));

describe("the same newborn on two phones", () => {
  test("[RE-65] is asked about once, and no more once it is answered either way", () => {
    expect(sameNewborns(folded(both).herd).map(({ kids }) => kids)).toEqual([[a, b]]);
    expect(sameNewborns(folded([...both, answer("two")]).herd)).toEqual([]);
    expect(sameNewborns(folded([...both, answer("one")]).herd)).toEqual([]);
  });

  test("[RE-64] called one, it is one: of the first record, with everything that either says, in one kidding", () => {
    const { herd, problems } = folded([...both, answer("one")]);
    expect([...herd.animals.keys()]).toEqual([hazel, a]);
    expect(herd.animals.get(a)).toMatchObject({ id: a, tag: "12", name: "Moth", born: "2026-03-01", dam: hazel });
    expect(herd.animals.get(a)?.weights.map(({ kg }) => kg)).toEqual([3.4, 3.6]);
    expect(herd.kiddings.map(({ kids }) => kids)).toEqual([[a]]);
    expect(herd.history.every(({ animals }) => !animals.includes(b))).toBe(true);
    expect(problems).toEqual([]);
    expect(fold(both, TODAY).problems.map(({ code }) => code)).toEqual(["two-with-one-tag"]);
  });

  test("[RE-64] whom it does not concern stays the very same, and a kid's dam is the one", () => {
    const born = day("2026-05-01");
    const kid = anEntry("animal", { animal: c, sex: "doe", dam: b, born }, { on: "2026-05-01", at: at() });
    const grown = [birth("2024-03-01", [{ kid: a }]), birth("2024-03-02", [{ kid: b }])];
    const told = fold([doe, ...grown, kid, answer("one")], TODAY);
    const { herd } = withSameAnimals(told);
    expect(told.herd.animals.get(c)?.dam).toBe(b);
    expect(herd.animals.get(c)?.dam).toBe(a);
    expect(herd.animals.get(hazel)).toBe(told.herd.animals.get(hazel));
  });

  test("[RE-64] the answer struck, there are two again, and nothing is lost", () => {
    const said = answer("one");
    const { herd } = folded([...both, said, aStrike(said.id, { at: at() })]);
    expect([...herd.animals.keys()]).toEqual([hazel, a, b]);
    expect(herd.animals.get(b)?.weights.map(({ kg }) => kg)).toEqual([3.4]);
  });

  test("[RE-64] what the other phone enters afterwards under its own name comes to the one", () => {
    const { herd } = folded([...both, answer("one"), weight(b, "2026-04-01", 8)]);
    expect(herd.animals.get(a)?.weights.at(-1)?.kg).toBe(8);
  });

  test("[RE-65] records that cannot be of one kid are not put to anybody", () => {
    for (const other of [
      birth("2026-03-04", [{ kid: b }]),
      birth("2026-03-02", [{ kid: b, tag: "13" }]),
      birth("2026-03-02", [{ kid: b, sex: "buck" }]),
    ])
      expect(sameNewborns(folded([doe, here, other]).herd)).toEqual([]);
  });

  test("[RE-65] of twins each is put beside the record that is likest", () => {
    const twins = birth("2026-03-01", [
      { kid: a, mark: "red collar" },
      { kid: c, mark: "blue collar" },
    ]);
    const again = birth("2026-03-01", [{ kid: b, mark: "blue collar" }]);
    expect(sameNewborns(folded([doe, twins, again]).herd).map(({ kids }) => kids)).toEqual([[c, b]]);
  });

  test("[RE-64] the order of entries makes no difference, nor does a chain of answers", () => {
    const third = birth("2026-03-01", [{ kid: c }]);
    const all = [...both, third, answer("one"), answer("one", b, c)];
    const want = folded(all);
    expect([...want.herd.animals.keys()]).toEqual([hazel, a]);
    expect(putTogether(want.herd, a)).toEqual([
      [a, b],
      [b, c],
    ]);
    expect(putTogether(want.herd, hazel)).toEqual([]);
    fc.assert(
      fc.property(fc.shuffledSubarray(all, { minLength: all.length }), (shuffled) => {
        expect(folded(shuffled)).toEqual(want);
      }),
      { numRuns: 50 },
    );
  });

  test("[RE-64] where nobody said so the herd is the very same", () => {
    const plain = fold(both, TODAY);
    expect(withSameAnimals(plain)).toBe(plain);
  });
});

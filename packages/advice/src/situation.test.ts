import { day } from "@pollard/base";
import { type Entry, fold, openLedger } from "@pollard/records";
import { anEntry, aReplacement, aStrike } from "@pollard/records/testing";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { nothingKept, type Situation, situationOf } from "./situation.ts";
import { choice, goat, HORNED_SIGNS, id, kidding, outcome, POLLED_SIGNS, reading, service } from "./testing.ts";

const TODAY = day("2026-04-01");
/** The engine does the same sums in another order where it starts from what it kept. */
const DIGITS = 10;

const herd: readonly Entry[] = [
  goat("Rook", "buck", { head: "polled" }),
  goat("Gale", "buck", { head: "horned" }),
  goat("Ash", "doe", { head: "horned" }),
  goat("Birch", "doe"),
  service("Ash", ["Rook"], "2025-10-01"),
  service("Birch", ["Rook", "Gale"], "2025-10-01", "2025-10-20"),
  kidding("Ash", "2026-03-01", { k0: "doe", k1: "buck" }),
  kidding("Birch", "2026-03-10", { k2: "buck", k3: "unsure" }),
  ...["k0", "k1", "k2", "k3"].map((kid, i) => reading(kid, "2026-03-14", i % 2 === 0 ? HORNED_SIGNS : POLLED_SIGNS)),
];

const anyone = fc.constantFrom("Rook", "Gale", "Ash", "Birch", "k0", "k1", "k2", "k3");
const aKid = fc.constantFrom("k0", "k1", "k2", "k3");
const aDay = fc.constantFrom("2025-10-03", "2025-10-20", "2026-03-11", "2026-03-13", "2026-03-20", "2026-03-28");

/** What a keeper may enter next, of kinds that change who is believed to carry what, and of others. */
const anyEntry = fc.oneof(
  fc.tuple(aKid, aDay, fc.constantFrom(HORNED_SIGNS, POLLED_SIGNS)).map(([kid, on, signs]) => reading(kid, on, signs)),
  fc
    .tuple(anyone, aDay, fc.constantFrom("horn" as const, "nothing" as const, "scur" as const))
    .map(([animal, on, grew]) => outcome(animal, on, grew)),
  fc
    .tuple(aKid, aDay, fc.constantFrom("bud" as const, "no-bud" as const))
    .map(([kid, on, found]) =>
      anEntry("disbudding", { kid: id(kid), done: "both-sides", found: { left: found, right: found } }, { on }),
    ),
  fc
    .tuple(fc.constantFrom("Ash", "Birch"), fc.constantFrom("Rook", "Gale"), aDay)
    .map(([doe, buck, on]) => service(doe, [buck], on)),
  fc
    .tuple(anyone, aDay, fc.constantFrom("stable", "meadow"))
    .map(([animal, on, pen]) => anEntry("move", { animal: id(animal), pen }, { on })),
  fc.constantFrom("Saanen", "Nigerian Dwarf").map((breed) => anEntry("setting", { key: "herd-breed", value: breed })),
  fc
    .tuple(fc.constantFrom("wattles", "polled"), anyone)
    .map(([locus, animal]) =>
      anEntry("dna-test", { animal: id(animal), locus, alleles: locus === "polled" ? ["P", "p"] : ["W", "w"] }),
    ),
  fc.tuple(aKid, aDay).map(([kid, on]) => choice(kid, on, "leave")),
  fc.constant(kidding("k0", "2026-03-30", { k9: "doe" }, ["Gale"])),
  anyone.map((animal) => anEntry("weight", { animal: id(animal), kg: 20, how: "weighed" })),
);

/** An entry more, or an earlier one that is moved to another day or taken back: which of them, by its place. */
const anyStep = fc.oneof(
  { weight: 4, arbitrary: anyEntry.map((entry) => ({ entry })) },
  { weight: 1, arbitrary: fc.record({ strikes: fc.nat(40) }) },
  { weight: 1, arbitrary: fc.record({ moves: fc.nat(40), to: aDay }) },
);

function entryFor(
  step: { entry: Entry } | { strikes: number } | { moves: number; to: string },
  before: readonly Entry[],
) {
  if ("entry" in step) return step.entry;
  const facts = before.filter(({ kind }) => kind !== "strike" && kind !== "replace");
  const of = facts[("strikes" in step ? step.strikes : step.moves) % facts.length];
  if (of === undefined || of.kind === "strike" || of.kind === "replace") throw new Error("a herd has entries");
  if ("strikes" in step) return aStrike(of.id);
  return aReplacement(of.id, { kind: of.kind, on: day(step.to), body: of.body } as Parameters<typeof aReplacement>[1]);
}

/** All that a situation says of every animal, with numbers to so many digits that another order of the same sums is alike. */
const saidBy = (situation: Situation) =>
  JSON.parse(
    JSON.stringify({
      animals: [...situation.herd.animals.keys()].map((animal) => ({
        animal,
        polled: situation.beliefs.polled(animal),
        forecast: situation.beliefs.forecast(animal),
        sires: situation.beliefs.sires(animal).toSorted(([a = ""], [b = ""]) => (a < b ? -1 : 1)),
        facts: situation.beliefs.facts(animal),
        advice: situation.advice(animal),
      })),
      open: situation.openHeads().map(({ animal }) => animal.id),
    }),
  ) as unknown;

function expectAlike(got: unknown, want: unknown, at = ""): void {
  if (typeof got === "number" && typeof want === "number") expect(got, at).toBeCloseTo(want, DIGITS);
  else if (typeof got === "object" && got !== null && typeof want === "object" && want !== null) {
    expect(Object.keys(got), at).toEqual(Object.keys(want));
    for (const [key, value] of Object.entries(got))
      expectAlike(value, Object.entries(want).find(([k]) => k === key)?.[1], `${at}.${key}`);
  } else expect(got, at).toBe(want);
}

describe("a situation made from what the one before had worked out", () => {
  test("[AD-113] the herd's breed, set later, tells of a kid what was learnt from others of that breed", () => {
    // Their buds come late, on the tenth day in place of the fourth; those of the others do not.
    const late = { ...HORNED_SIGNS, feel: { both: "rounded" }, skin: { both: "slides" } } as const;
    const kids = Array.from({ length: 50 }, (_, i) => `n${i}`).flatMap((kid, i) => [
      goat(kid, "buck", { born: day("2025-08-01"), breed: i % 2 === 0 ? "Nubian" : "Saanen" }),
      reading(kid, "2025-08-04", i % 2 === 0 ? late : HORNED_SIGNS),
      reading(kid, "2025-08-10", HORNED_SIGNS),
      outcome(kid, "2026-02-01", "horn"),
    ]);
    const ledger = openLedger(TODAY);
    ledger.add([...herd, ...kids]);
    const kept = nothingKept();
    const before = situationOf(ledger.folded(), TODAY, kept);
    const told = anEntry("setting", { key: "herd-breed", value: "Nubian" });
    ledger.add([told]);
    const after = situationOf(ledger.folded(), TODAY, kept);
    expectAlike(saidBy(after), saidBy(situationOf(fold([...herd, ...kids, told], TODAY), TODAY)));
    expect(after.beliefs.polled(id("k1")).pp).not.toBe(before.beliefs.polled(id("k1")).pp);
  });

  test("[AD-113] entry by entry it says what one from nothing says", () => {
    fc.assert(
      fc.property(fc.array(anyStep, { minLength: 3, maxLength: 8 }), (steps) => {
        const ledger = openLedger(TODAY);
        const kept = nothingKept();
        ledger.add(herd);
        let entered = herd;
        situationOf(ledger.folded(), TODAY, kept);
        for (const step of steps) {
          const entry = entryFor(step, entered);
          entered = [...entered, entry];
          ledger.add([entry]);
          const afresh = situationOf(fold(entered, TODAY), TODAY);
          expectAlike(saidBy(situationOf(ledger.folded(), TODAY, kept)), saidBy(afresh));
        }
      }),
      { numRuns: 40 },
    );
  });
});

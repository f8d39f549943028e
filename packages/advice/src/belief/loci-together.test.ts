import { animalId, POLLED } from "@pollard/genetics";
import type { Entry } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import { describe, expect, test } from "vitest";
import { herdKinship } from "../pairing/herd-kinship.ts";
import { dnaTest, goat, id, kidding, service, situation } from "../testing.ts";
import { herdLoci } from "./herd-loci.ts";
import { locusAnswer, locusProblem } from "./locus-answer.ts";
import { recordedLoci } from "./findings.ts";
import { restsOn } from "./rests-on.ts";
import { WRONG_SIRE } from "./sires.ts";

const TODAY = "2026-03-20";
const own = (locus: string, inheritance: string): Entry =>
  anEntry("setting", {
    key: `locus:${locus}`,
    value: JSON.stringify({
      name: locus,
      alleles: ["F", "f"],
      inheritance,
      frequencies: { F: 0.5, f: 0.5 },
      trait: {
        id: locus,
        phenotypes: ["frosted", "plain"],
        shown:
          inheritance === "autosomal"
            ? { FF: { frosted: 1 }, Ff: { frosted: 1 }, ff: { plain: 1 } }
            : { FF: { frosted: 1 }, Ff: { frosted: 1 }, ff: { plain: 1 }, "F/Y": { frosted: 1 }, "f/Y": { plain: 1 } },
      },
    }),
  });
const tested = (animal: string, locus: string, alleles: readonly [string, string]): Entry =>
  anEntry("dna-test", { animal: animalId(animal), locus, alleles: [...alleles] });

/** A kid by either of two bucks that shared the pen: one tested PP, the other pp. */
const herd = [
  goat("Rook", "buck", { head: "polled" }),
  goat("Jay", "buck", { head: "horned" }),
  goat("Ash", "doe", { head: "horned" }),
  service("Ash", ["Rook", "Jay"], "2024-10-02", "2024-10-04"),
  kidding("Ash", "2025-03-01", { a1: "doe" }),
  dnaTest("Rook", ["P", "P"]),
  dnaTest("Jay", ["p", "p"]),
  dnaTest("Ash", ["p", "p"]),
  own("frost", "autosomal"),
];
/** At the other locus only Rook can have handed on what the kid has. */
const byRook = [
  tested("Rook", "frost", ["F", "F"]),
  tested("Jay", "frost", ["f", "f"]),
  tested("Ash", "frost", ["f", "f"]),
  tested("a1", "frost", ["F", "f"]),
];
const frost = (s: ReturnType<typeof situation>) => {
  const found = recordedLoci(s.herd)[0];
  if (found === undefined) throw new Error("the herd follows no locus");
  return found;
};

describe("loci that know of each other's sires", () => {
  test("[AD-53] a test at one locus tells who the sire is, and so what the kid carries for horns", () => {
    const before = situation([...herd, ...byRook.slice(0, 3)], TODAY);
    expect(before.beliefs.polled(id("a1")).Pp).toBeLessThan(0.55);
    const after = situation([...herd, ...byRook], TODAY);
    expect(after.beliefs.sires(id("a1"))[0]?.[0]).toBe(id("Rook"));
    expect(after.beliefs.polled(id("a1")).Pp).toBeGreaterThan(0.95);
  });

  test("[AD-53] what horns say of the sire counts at the other locus", () => {
    const [rook, jay, ash] = byRook;
    const entries = [...herd, rook, jay, ash].filter((e) => e !== undefined);
    const s = situation([...entries, dnaTest("a1", ["P", "p"])], TODAY);
    expect(locusAnswer(s, frost(s)).belief(id("a1")).genotypes[1]).toBeGreaterThan(0.97);
  });

  test("[AD-53] the herd's kinship follows: a kid shown to be Rook's is no kin of Jay", () => {
    const { kin } = herdKinship(situation([...herd, ...byRook], TODAY));
    expect(kin.kinship(id("a1"), id("Rook"))).toBeCloseTo(0.25, 2);
    expect(kin.kinship(id("a1"), id("Jay"))).toBeLessThan(0.01);
  });

  test("[AD-53] asked further, the other locus is not counted twice: both ways give the same chances", () => {
    const s = situation([...herd, ...byRook, dnaTest("a1", ["P", "p"])], TODAY);
    const locus = frost(s);
    const { now, without } = restsOn(s, locus, id("a1"));
    const kid = without.find(({ fact }) => fact.of === id("a1"));
    // Without its own test at this locus only horns speak of its sire: as if the test had not been entered.
    const plain = situation([...herd, ...byRook.slice(0, 3), dnaTest("a1", ["P", "p"])], TODAY);
    const expected = locusAnswer(plain, frost(plain)).belief(id("a1")).genotypes;
    expect(now[1]).toBeGreaterThan(0.99);
    expected.forEach((p, g) => expect(kid?.chances[g]).toBeCloseTo(p, 6));
  });

  test("[AD-53] loci that say nothing of any sire leave each other alone", () => {
    const entries = [goat("Rook", "buck"), goat("Ash", "doe"), kidding("Ash", "2025-03-01", { a1: "doe" }, ["Rook"])];
    const alone = situation(entries, TODAY).beliefs.polled(id("a1"));
    const s = situation([...entries, own("frost", "autosomal"), tested("Ash", "frost", ["F", "f"])], TODAY);
    expect(s.beliefs.polled(id("a1"))).toEqual(alone);
    expect(locusProblem(s, frost(s)).members.map((m) => m.sires)).toEqual(
      s.beliefs.problem.members.map((m) => m.sires),
    );
  });

  test("[AD-80] loci that tell of one kid's sire leave the weights of every other written sire as they were", () => {
    const born = [service("Ash", ["Rook"], "2025-10-02", "2025-10-04"), kidding("Ash", "2026-03-01", { b1: "doe" })];
    const s = situation([...herd, ...byRook, ...born], TODAY);
    const [own, told] = [s.beliefs.problem.members, locusProblem(s, frost(s)).members];
    const sires = (members: typeof own, kid: string) => members.find((m) => m.id === id(kid))?.sires;
    expect(sires(told, "b1")).toEqual(sires(own, "b1"));
    expect(sires(own, "a1")?.find(({ sire }) => sire === id("Rook"))?.weight).toBeGreaterThan(0.9);
  });

  test("[AD-53] a locus on the X: a plain buck has the one allele that he shows", () => {
    const s = situation(
      [...herd, own("tint", "x-linked"), anEntry("trait", { animal: animalId("Jay"), trait: "tint", value: "plain" })],
      TODAY,
    );
    const locus = herdLoci(s.herd).loci.find((l) => l.id === "tint");
    const belief = locus && locusAnswer(s, locus).belief(id("Jay"));
    expect(belief?.xx).toBe(0);
    expect(belief?.bySex.XY[1]).toBeGreaterThan(0.95);
  });

  // Against Bayes' rule by hand.
  test("[AD-53] the chance of each sire is his weight times the chance that he gives what the kid has, at both loci", () => {
    // Tests err now and then, so each is entered three times. Jay's head is his own; of Rook's horns nothing is known.
    const entries = [
      goat("Rook", "buck"),
      goat("Jay", "buck"),
      goat("Ash", "doe"),
      service("Ash", ["Rook", "Jay"], "2024-10-02", "2024-10-04"),
      kidding("Ash", "2025-03-01", { a1: "doe" }),
      own("frost", "autosomal"),
      ...[1, 2, 3].flatMap(() => [
        tested("Rook", "frost", ["F", "F"]),
        tested("Jay", "frost", ["F", "f"]),
        tested("Ash", "frost", ["f", "f"]),
        tested("a1", "frost", ["F", "f"]),
        dnaTest("Jay", ["p", "p"]),
        dnaTest("Ash", ["p", "p"]),
        dnaTest("a1", ["p", "p"]),
      ]),
    ];
    const sires = new Map(situation(entries, TODAY).beliefs.sires(id("a1")));
    // A buck of whom nothing is known gives p as often as it is among founders; read from the locus.
    const p = 1 - (POLLED.founders.default.value[0] ?? 0);
    const known = (1 - WRONG_SIRE.value) / 2;
    const weights = [known * p, known * 0.5, WRONG_SIRE.value * 0.5 * p];
    const total = weights.reduce((a, b) => a + b, 0);
    [id("Rook"), id("Jay"), undefined].forEach((sire, i) => {
      expect(sires.get(sire)).toBeCloseTo((weights[i] ?? 0) / total, 2);
    });
  });
});

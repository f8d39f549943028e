import { animalId, POLLED } from "@pollard/genetics";
import { anEntry } from "@pollard/records/testing";
import { describe, expect, test } from "vitest";
import { goat, HORNED_SIGNS, id, kidding, outcome, reading, ROOK_AND_ASH, situation } from "../testing.ts";
import { carriedBeside, whyBelieved } from "./why.ts";

const TODAY = "2026-03-20";
const herd = [
  ...ROOK_AND_ASH,
  kidding("Ash", "2025-03-01", { a1: "doe", a2: "doe" }, ["Rook"]),
  outcome("a1", "2025-07-01", "horn"),
];

describe("why an animal is believed to carry what it does", () => {
  test("[AD-56] a buck is a carrier because his kid grew horns: as if that had not been entered", () => {
    const why = whyBelieved(situation(herd, TODAY), id("Rook"), POLLED.id);
    expect(why?.genotype).toBe("Pp");
    const kid = why?.without.find(({ fact }) => fact.about === "growth");
    expect(kid?.of.name).toBe("a1");
    const before = situation(herd.slice(0, 3), TODAY).beliefs.polled(id("Rook")).Pp;
    expect(kid?.chance).toBeCloseTo(before, 9);
  });

  test("[AD-56] three facts at most, however many kids there are", () => {
    const kids = Object.fromEntries([1, 2, 3, 4, 5].map((k) => [`k${k}`, "doe" as const]));
    const grew = Object.keys(kids).map((kid) => outcome(kid, "2025-07-01", "nothing"));
    const why = whyBelieved(
      situation(
        [goat("Rook", "buck"), goat("Ash", "doe"), kidding("Ash", "2025-03-01", kids, ["Rook"]), ...grew],
        TODAY,
      ),
      id("Rook"),
      POLLED.id,
    );
    expect(why?.without).toHaveLength(3);
  });

  test("[AD-56] of a buck nobody knows the founders are told, of one well known by his kids they are not", () => {
    expect(whyBelieved(situation(herd.slice(0, 1), TODAY), id("Rook"), POLLED.id)?.founders).toBeDefined();
    const sure = [1, 2, 3].flatMap(() => [
      anEntry("dna-test", { animal: animalId("Rook"), locus: "polled", alleles: ["P", "p"] }),
    ]);
    expect(whyBelieved(situation([...herd, ...sure], TODAY), id("Rook"), POLLED.id)?.founders).toBeUndefined();
  });

  test("[AD-56] what was read on a head that is still open is not told on its sire's page", () => {
    const entries = [
      ...herd.slice(0, 2),
      kidding("Ash", "2026-03-17", { k1: "doe" }, ["Rook"]),
      reading("k1", "2026-03-19", HORNED_SIGNS),
    ];
    const s = situation(entries, TODAY);
    expect(s.openHeads().map(({ animal }) => animal.id)).toEqual([id("k1")]);
    expect(whyBelieved(s, id("Rook"), POLLED.id)?.without.map(({ fact }) => fact.about)).not.toContain("readings");
    expect(whyBelieved(s, id("k1"), POLLED.id)?.without.map(({ fact }) => fact.about)).toContain("readings");
  });

  test("[AD-56] at the other loci the likeliest genotype is told; what nobody knows has no answer", () => {
    const wattles = anEntry("trait", { animal: animalId("Rook"), trait: "wattles", value: "present" });
    const s = situation([...herd, wattles], TODAY);
    const lines = carriedBeside(s, id("Rook"));
    expect(lines.map(({ locus }) => locus.id)).toEqual(["wattles"]);
    expect(carriedBeside(situation(herd, TODAY), id("Rook"))).toEqual([]);
    expect(whyBelieved(s, id("Rook"), "wattles")?.genotype).toBe(lines[0]?.genotype);
    expect(whyBelieved(s, id("Nobody"), "wattles")).toBeUndefined();
    expect(whyBelieved(s, id("Rook"), "nothing")).toBeUndefined();
  });
});

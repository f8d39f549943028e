import { animalId } from "@pollard/genetics";
import { type Entry, type HerdId, writeHerdFile } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import { describe, expect, test } from "vitest";
import { typed } from "../testing.ts";

const goat = (name: string, sex: "doe" | "buck", head?: "horned" | "polled"): Entry =>
  anEntry(
    "animal",
    { animal: animalId(name.toLowerCase()), name, sex, ...(head ? { head } : {}) },
    { on: "2024-01-01" },
  );
const kid = (name: string, dam: string, sire: string): Entry =>
  anEntry(
    "kidding",
    {
      dam: animalId(dam),
      bucks: [animalId(sire)],
      kids: [{ kid: animalId(name.toLowerCase()), sex: "doe", born: "alive", name }],
    },
    { on: "2025-03-01" },
  );
const asked = (options: readonly string[], ...entries: readonly Entry[]) =>
  typed(["carriers", "herd.jsonl", ...options], {
    files: { "herd.jsonl": writeHerdFile(entries, { herd: "herd" as HerdId }) },
  });
/** A polled pair with two kids not looked at yet, which hang together through their parents. */
const FAMILY = [
  goat("Ash", "doe", "polled"),
  goat("Rook", "buck", "polled"),
  kid("Moth", "ash", "rook"),
  kid("Fern", "ash", "rook"),
];

describe("several goats at once", () => {
  test("[CL-32] the chance of all is that of the joint belief, not the product of each", async () => {
    const { exit, out } = await asked(["--together", "moth, FERN", "--allele", "p", "--json"], ...FAMILY);
    const said = JSON.parse(out) as { all: number; apart: readonly [number, number]; joint: readonly number[] };
    expect(exit).toBe(0);
    // Over (PP, Pp, pp) of Moth and of Fern: what is left when neither is PP.
    const both = said.joint.reduce((sum, p, at) => (at % 3 > 0 && at >= 3 ? sum + p : sum), 0);
    expect(said.all).toBeCloseTo(both, 10);
    expect(said.all).toBeGreaterThan(said.apart[0] * said.apart[1] + 1e-4);
  });

  test("[CL-32] it is said in a table and a sentence", async () => {
    const { out } = await asked(["--together", "Moth,Fern"], ...FAMILY);
    expect(out).toMatch(/Carries p/);
    expect(out).toMatch(/All of them: 0\.\d\d\. Were they strangers to one another: 0\.\d\d\./);
  });

  test.each([
    [["--together", "Moth"], /two goats or more/],
    [["--together", "Moth,Nobody"], /There is no goat "Nobody"/],
    [["--together", "Moth,Fern", "--allele", "Q"], /no allele of this locus; it has P, p/],
    [["--rests-on", "Nobody"], /There is no goat "Nobody"/],
  ])("[CL-32] one sentence for what cannot be asked: %j", async (options, sentence) => {
    const { exit, out, err } = await asked(options, ...FAMILY);
    expect([exit, out]).toEqual([2, ""]);
    expect(err).toMatch(sentence);
  });

  test("[CL-32] a name that several goats bear is not guessed at", async () => {
    const twice = [goat("Moth", "doe"), anEntry("animal", { animal: animalId("m2"), name: "Moth", sex: "doe" })];
    const { exit, err } = await asked(
      ["--rests-on", "moth"],
      goat("Ash", "doe"),
      ...twice.slice(1),
      goat("moTH2", "doe"),
    );
    expect(exit).toBe(0);
    expect(err).toBe("");
    const second = anEntry("animal", { animal: animalId("m3"), name: "Moth", sex: "doe" });
    const unsure = await asked(["--rests-on", "moth"], ...twice.slice(1), second);
    expect(unsure.err).toMatch(/is several goats; say which by its id: m2, m3/);
  });
});

describe("what a belief rests on", () => {
  test("[CL-33] without the horned kid its sire may be PP again", async () => {
    const horned = anEntry("outcome", { animal: animalId("moth"), left: "horn", right: "horn" }, { on: "2025-07-01" });
    const { out } = await asked(["--rests-on", "Rook"], ...FAMILY, horned);
    expect(out).toMatch(/Rook, from everything known\s+<0\.01\s+0\.9\d/);
    expect(out).toMatch(/without what grew on Moth\s+0\.0[1-9]/);
    expect(out).toMatch(/rarer alleles twice as common among unknown parents/);
  });

  test("[CL-33] facts that contradict are named, and so is what may lie behind", async () => {
    const tested = (animal: string) =>
      anEntry("dna-test", { animal: animalId(animal), locus: "polled", alleles: ["P", "P"] }, { on: "2025-02-01" });
    const horned = anEntry("outcome", { animal: animalId("moth"), left: "horn", right: "horn" }, { on: "2025-07-01" });
    const { out } = await asked([], ...FAMILY, tested("ash"), tested("rook"), horned);
    expect(out).not.toMatch(/[0-9a-f]{8}-[0-9a-f]{4}/);
  });
});

describe("the likeliest way of all together", () => {
  test("[CL-61] a family's likeliest genotypes, with the chance that all of them are so at once", async () => {
    const { exit, out } = await asked(["--likeliest", "--json"], ...FAMILY);
    const said = JSON.parse(out) as {
      readonly chance: number;
      readonly animals: readonly { readonly ref: { readonly name: string }; readonly together: string }[];
    };
    expect(exit).toBe(0);
    const of = new Map(said.animals.map(({ ref, together }) => [ref.name, together]));
    expect([...of.keys()].sort()).toEqual(["Ash", "Fern", "Moth", "Rook"]);
    expect(Object.fromEntries(of)).toEqual({ Ash: "Pp", Rook: "Pp", Moth: "Pp", Fern: "Pp" });
    // By hand: Ash has kidded, so she is Pp. Of Rook, polled, p of 0.8: 0.04 PP, half of whom sire nothing, 0.32 Pp.
    const rook = 0.32 / (0.32 + 0.04 / 2);
    // A kid of two Pp that looks like a doe: half of the PP with XX are recognised, 7 of 13 of the others look like does.
    const [looksPP, looksElse] = [(0.5 * 7) / 13 + 0.002, 0.995 + 0.002];
    const kid = (0.5 * looksElse) / (0.25 * looksPP + 0.75 * looksElse);
    expect(Math.abs(said.chance - rook * kid ** 2)).toBeLessThan(0.01); // 13 in 1,000 sires are somebody else
  });

  test("[CL-61] it is said in a table and a sentence", async () => {
    const { out } = await asked(["--likeliest"], ...FAMILY);
    expect(out).toMatch(/^Ash +here +Pp +Pp +/m);
    expect(out).toMatch(/Among all ways this one has a chance of 0\.\d\d\./);
  });
});

describe("a locus from a file", () => {
  const FROSTED = {
    id: "frosted",
    name: "Frosted ears",
    alleles: ["F", "f"],
    inheritance: "autosomal",
    frequencies: { F: 0.1, f: 0.9 },
    trait: { id: "frosted", phenotypes: ["yes", "no"], shown: { FF: { yes: 1 }, Ff: { yes: 1 }, ff: { no: 1 } } },
  };
  const described = (locus: unknown, options: readonly string[] = [], ...entries: readonly Entry[]) =>
    typed(["carriers", "herd.jsonl", "--described", "l.json", ...options], {
      files: {
        "herd.jsonl": writeHerdFile([...FAMILY, ...entries], { herd: "herd" as HerdId }),
        "l.json": typeof locus === "string" ? locus : JSON.stringify(locus),
      },
    });

  test("[CL-62] it is asked about on the herd's pedigree, with what is on record of it", async () => {
    const seen = anEntry("trait", { animal: animalId("moth"), trait: "frosted", value: "yes" });
    const { exit, out } = await described(FROSTED, ["--json"], seen);
    expect(exit).toBe(0);
    const { genotypes, animals } = JSON.parse(out) as {
      readonly genotypes: readonly string[];
      readonly animals: readonly { readonly ref: { readonly name: string }; readonly chances: readonly number[] }[];
    };
    expect(genotypes).toEqual(["FF", "Ff", "ff"]);
    const carries = (name: string) => 1 - (animals.find(({ ref }) => ref.name === name)?.chances[2] ?? Number.NaN);
    expect(carries("Moth")).toBeGreaterThan(0.9);
    expect(carries("Fern")).toBeGreaterThan(1 - 0.9 ** 2);
  });

  test.each([
    ["not JSON at all", [], /"l\.json" is not JSON\./],
    [{ ...FROSTED, alleles: [] }, [], /The locus in "l\.json" cannot be used\. .*allele/],
    [{ ...FROSTED, frequencies: { F: 0.6, f: 0.6 } }, [], /cannot be used\. .*sum|add up/],
    [{ ...FROSTED, id: "wattles" }, [], /The herd has a locus "wattles" already/],
    [FROSTED, ["--locus", "wattles"], /two ways; give one/],
  ] as const)("[CL-62] one sentence for a description that cannot be used: %j %j", async (locus, options, says) => {
    const { exit, out, err } = await described(locus, options);
    expect([exit, out]).toEqual([2, ""]);
    expect(err).toMatch(says);
    expect(err.trimEnd()).not.toContain("\n");
  });
});

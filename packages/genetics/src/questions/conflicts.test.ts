import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { POLLED } from "../loci/polled.ts";
import { aFact, aMember, byEnumeration } from "../testing.ts";
import { animalId } from "../vocabulary.ts";
import { type ParentLink, shortestWays } from "./conflicts.ts";
import { irreducible, smallest } from "./smallest-part.ts";
import { inferGenotypes } from "../genotypes/infer-genotypes.ts";
import type { Member, PedigreeProblem } from "../pedigree/pedigree-problem.ts";

const herd = (...members: readonly Member[]): PedigreeProblem => ({
  locus: POLLED,
  members,
  frequencies: { default: [0.5, 0.5] },
});
const polled = (fact: string) => [aFact(fact, [1, 1, 0])];
const horned = (fact: string) => [aFact(fact, [0, 0, 1])];
const tested = (fact: string, genotype: number) => [
  aFact(
    fact,
    [0, 1, 2].map((g) => (g === genotype ? 1 : 0)),
  ),
];

const withFacts = (problem: PedigreeProblem, kept: ReadonlySet<string>): PedigreeProblem => ({
  ...problem,
  members: problem.members.map((m) => ({ ...m, evidence: m.evidence.filter((e) => kept.has(e.fact)) })),
});
/** The problem with no parentages but those named. */
const withLinks = (problem: PedigreeProblem, links: readonly ParentLink[]): PedigreeProblem => ({
  ...problem,
  members: problem.members.map((m) => ({
    ...m,
    dam: links.some((l) => l.kid === m.id && l.parent === "dam") ? m.dam : undefined,
    sires: links.some((l) => l.kid === m.id && l.parent === "sire") ? m.sires : [],
  })),
});
const holds = (problem: PedigreeProblem, kept: readonly string[]): boolean =>
  byEnumeration(withFacts(problem, new Set(kept))).total > 0;
const factsOf = (problem: PedigreeProblem): readonly string[] =>
  problem.members.flatMap((m) => m.evidence.map((e) => e.fact));

describe("conflicts", () => {
  test("[GE-5] a horned kid of two proven PP parents: three facts and two parentages, and the others keep their answer", () => {
    const problem = herd(
      aMember("buck", { evidence: tested("buck's test", 0) }),
      aMember("doe", { evidence: tested("doe's test", 0) }),
      aMember("kid", { dam: "doe", sire: "buck", evidence: horned("kid's horns") }),
      aMember("aunt", { evidence: polled("aunt's head") }),
      aMember("cousin", { dam: "aunt", sire: "buck", evidence: polled("cousin's head") }),
      aMember("stranger", { evidence: polled("stranger's head") }),
    );
    const { conflicts, ...answer } = inferGenotypes(problem);
    // The doe's side does not matter: a PP buck alone cannot have a horned kid, nor a PP doe.
    expect(conflicts.length).toBeGreaterThan(0);
    for (const c of conflicts) {
      expect(c.facts).toContain("kid's horns");
      expect(c.facts).toHaveLength(2);
      expect(c.links).toHaveLength(1);
      expect(c.setAside).toEqual(["kid's horns"]);
    }
    expect(answer.belief(animalId("buck")).genotypes).toEqual([1, 0, 0]);
    expect(answer.belief(animalId("stranger")).genotypes[0]).toBeCloseTo(1 / 3, 12);
  });

  test("[GE-5] a fact that is impossible by itself is its own conflict", () => {
    const answer = inferGenotypes(herd(aMember("a", { evidence: [aFact("nonsense", [0, 0, 0])] })));
    expect(answer.conflicts).toEqual([{ facts: ["nonsense"], links: [], animals: ["a"], setAside: ["nonsense"] }]);
    expect(answer.belief(animalId("a")).genotypes[1]).toBeCloseTo(0.5, 12);
  });

  test("[GE-5] who kids was no buck: the parentage is named with the fact", () => {
    const isBuck = { fact: "seen as a buck", likelihood: { XX: [0, 0, 0], XY: [1, 1, 1] } };
    const answer = inferGenotypes(herd(aMember("a", { evidence: [isBuck] }), aMember("kid", { dam: "a" })));
    expect(answer.conflicts).toEqual([
      {
        facts: ["seen as a buck"],
        links: [{ kid: "kid", parent: "dam" }],
        animals: ["a", "kid"],
        setAside: ["seen as a buck"],
      },
    ]);
  });

  test("[GE-70] a fact that leaves its own animal nothing is named by itself, before any pair", () => {
    const problem = herd(
      aMember("doe", { evidence: horned("doe's horns") }),
      aMember("kid", { dam: "doe", evidence: [...tested("kid's test", 0), aFact("nonsense", [0, 0, 0])] }),
    );
    const { conflicts } = inferGenotypes(problem);
    expect(conflicts.map((c) => [...c.facts].sort())).toEqual([["nonsense"], ["doe's horns", "kid's test"]]);
  });

  describe("laws", () => {
    test("[GE-5] a conflict is irreducible, and as few facts as possible are set aside: as by trying every choice", () => {
      fc.assert(
        fc.property(contradictoryHerd, (problem) => {
          const all = factsOf(problem);
          const { conflicts } = inferGenotypes(problem);
          for (const { facts } of conflicts) {
            expect(holds(problem, facts)).toBe(false);
            for (const f of facts)
              expect(
                holds(
                  problem,
                  facts.filter((x) => x !== f),
                ),
              ).toBe(true);
          }
          const aside = new Set(conflicts.flatMap((c) => c.setAside));
          expect(
            holds(
              problem,
              all.filter((f) => !aside.has(f)),
            ),
          ).toBe(true);
          expect(aside.size).toBe(fewestAside(problem, all));
        }),
        { numRuns: 25 },
      );
    });

    test("[GE-70] the contradiction named first is as small as any there is, and rests on no parentage that is not needed", () => {
      let seen = 0;
      fc.assert(
        fc.property(contradictoryHerd, (problem) => {
          const [first, ...others] = inferGenotypes(problem).conflicts;
          if (!first) return;
          seen++;
          const sizes = subsets(factsOf(problem)).flatMap((part) => (holds(problem, part) ? [] : [part.length]));
          expect(first.facts).toHaveLength(Math.min(...sizes));
          for (const { facts, links } of [first, ...others]) {
            expect(byEnumeration(withLinks(withFacts(problem, new Set(facts)), links)).total).toBe(0);
            for (const link of links) {
              const rest = links.filter((l) => l !== link);
              expect(byEnumeration(withLinks(withFacts(problem, new Set(facts)), rest)).total).toBeGreaterThan(0);
            }
          }
        }),
        { numRuns: 25 },
      );
      expect(seen).toBeGreaterThan(5);
    });

    test("[GE-70] of several parts that do not hold a smallest is found, wherever they hide and overlap", () => {
      const items = Array.from({ length: 12 }, (_, i) => i);
      const anyPart = fc.uniqueArray(fc.constantFrom(...items), { minLength: 1, maxLength: 5 });
      fc.assert(
        fc.property(fc.array(anyPart, { minLength: 1, maxLength: 5 }), (hidden) => {
          const found = smallest(items, (part) => !hidden.some((h) => h.every((x) => part.includes(x))));
          expect(found).toHaveLength(Math.min(...hidden.map((h) => h.length)));
          expect(hidden.some((h) => h.length === found.length && h.every((x) => found.includes(x)))).toBe(true);
        }),
      );
    });

    test("[GE-5] no answer is ever other than a number from 0 to 1", () => {
      fc.assert(
        fc.property(contradictoryHerd, (problem) => {
          const answer = inferGenotypes(problem);
          expect(Number.isFinite(answer.logLikelihood)).toBe(true);
          for (const m of problem.members)
            for (const p of [...answer.belief(m.id).genotypes, ...answer.forecast(m.id).genotypes]) {
              expect(p).toBeGreaterThanOrEqual(0);
              expect(p).toBeLessThanOrEqual(1 + 1e-12);
            }
        }),
        { numRuns: 25 },
      );
    });

    test("[GE-5] the search finds a least part wherever it hides", () => {
      fc.assert(
        fc.property(fc.uniqueArray(fc.nat(30), { minLength: 1, maxLength: 6 }), (hidden) => {
          const items = Array.from({ length: 31 }, (_, i) => i);
          const found = irreducible(items, (part) => !hidden.every((h) => part.includes(h)));
          expect(new Set(found)).toEqual(new Set(hidden));
          expect(found).toHaveLength(hidden.length);
        }),
      );
    });

    test("[GE-5] the shortest ways to hit every set are those that trying every choice finds", () => {
      const letters = ["a", "b", "c", "d", "e"];
      const anySets = fc.array(fc.subarray(letters, { minLength: 1 }), { maxLength: 5 });
      fc.assert(
        fc.property(anySets, (sets) => {
          const hits = subsets(letters).filter((way) => sets.every((s) => s.some((f) => way.includes(f))));
          const least = Math.min(...hits.map((w) => w.length));
          const want = hits.filter((w) => w.length === least).map((w) => w.join());
          expect(
            shortestWays(sets)
              .map((w) => [...w].sort().join())
              .sort(),
          ).toEqual(want.sort());
        }),
      );
    });
  });
});

const subsets = (items: readonly string[]): readonly (readonly string[])[] =>
  items.reduce<readonly (readonly string[])[]>((all, x) => [...all, ...all.map((s) => [...s, x])], [[]]);

function fewestAside(problem: PedigreeProblem, all: readonly string[]): number {
  const enough = subsets(all).filter((aside) =>
    holds(
      problem,
      all.filter((f) => !aside.includes(f)),
    ),
  );
  return Math.min(...enough.map((s) => s.length));
}

/** Three generations with hard facts on most heads: usually more than one contradiction. */
const contradictoryHerd: fc.Arbitrary<PedigreeProblem> = fc
  .array(
    fc.constantFrom<"polled" | "horned" | "PP" | "pp" | "unseen">("polled", "horned", "horned", "PP", "pp", "unseen"),
    {
      minLength: 6,
      maxLength: 6,
    },
  )
  .map((looks) => {
    const parents = [
      {},
      {},
      { dam: "0", sire: "1" },
      { dam: "0", sire: "1" },
      { dam: "0", sire: "3" },
      { dam: "2", sires: [["3", 1] as const, ["1", 2] as const] },
    ];
    const facts = { polled: [1, 1, 0], horned: [0, 0, 1], PP: [1, 0, 0], pp: [0, 0, 1] };
    return herd(
      ...looks.map((look, i) =>
        aMember(`${i}`, { ...parents[i], evidence: look === "unseen" ? [] : [aFact(`${i}: ${look}`, facts[look])] }),
      ),
    );
  });

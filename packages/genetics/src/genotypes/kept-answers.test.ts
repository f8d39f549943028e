import { present } from "@pollard/base";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { layoutMemory } from "../inference/layout-memory.ts";
import { POLLED } from "../loci/polled.ts";
import { aFact, aLocus, aMember } from "../testing.ts";
import { inferGenotypes } from "./infer-genotypes.ts";
import type { Evidence, Member, PedigreeProblem } from "../pedigree/pedigree-problem.ts";
import { animalId, type ChromosomalSex } from "../vocabulary.ts";
import { inferLoci } from "../several-loci/several-loci.ts";

/** Both ways do the same sums, in the same order where they do any. */
const SLACK = 1e-12;

/** Two bucks, three does, kids of theirs and of one another; `seen` says what was found on each. */
const herdOf = (locus: PedigreeProblem["locus"], seen: readonly (readonly number[])[]): PedigreeProblem => {
  const evidence = (i: number) => [aFact(`f${i}`, seen[i] ?? [])];
  const kid = (i: number, dam: string, sires: readonly (readonly [string, number])[]): Member =>
    aMember(`k${i}`, { dam, sires, evidence: evidence(i + 5) });
  return {
    locus,
    members: [
      ...["b0", "b1", "d0", "d1", "d2"].map((id, i) => aMember(id, { evidence: evidence(i) })),
      kid(0, "d0", [["b0", 1]]),
      kid(1, "d1", [
        ["b0", 0.6],
        ["b1", 0.4],
      ]),
      kid(2, "d2", [["b1", 1]]),
      kid(3, "k0", [["b1", 1]]),
      kid(4, "k0", [["b0", 1]]),
    ],
  };
};
const ANIMALS = 10;

const anyLook = (genotypes: number) =>
  fc.array(fc.constantFrom(0.05, 0.3, 0.9, 1), { minLength: genotypes, maxLength: genotypes });
/** A test that leaves one genotype, a look that leaves some, and one that leaves all. */
const anyHardLook = fc.constantFrom([1, 0, 0], [0, 1, 0], [0, 0, 1], [1, 1, 0], [0.9, 0.8, 0.1], [1, 1, 1]);
const anyHerd = (genotypes: number) => fc.array(anyLook(genotypes), { minLength: ANIMALS, maxLength: ANIMALS });

function expectSame(problem: PedigreeProblem, options: Parameters<typeof inferGenotypes>[1]): void {
  const [kept, fresh] = [
    inferGenotypes(problem, options),
    inferGenotypes(problem, { ...options, layouts: layoutMemory() }),
  ];
  expect(kept.method).toBe(fresh.method);
  expect(Math.abs(kept.logLikelihood - fresh.logLikelihood)).toBeLessThan(SLACK);
  expect(kept.conflicts).toEqual(fresh.conflicts);
  expect(kept.issues).toEqual(fresh.issues);
  const expectClose = (got: readonly number[], want: readonly number[]) => {
    expect(got).toHaveLength(want.length);
    got.forEach((p, at) => expect(Math.abs(p - (want[at] ?? Number.NaN))).toBeLessThan(SLACK));
  };
  for (const { id } of problem.members) {
    const [a, b] = [kept.belief(id), fresh.belief(id)];
    expect([...a.sires.keys()]).toEqual([...b.sires.keys()]);
    const chances = (of: typeof a, answer: typeof kept) => [
      ...of.genotypes,
      ...of.bySex.XX,
      ...of.bySex.XY,
      ...of.sires.values(),
      ...answer.forecast(id).genotypes,
    ];
    expectClose(chances(a, kept), chances(b, fresh));
  }
  const [buck, doe] = [animalId("b0"), animalId("d0")];
  expectClose(kept.kid(buck, doe), fresh.kid(buck, doe));
  expectClose(kept.joint([buck, doe]).chances, fresh.joint([buck, doe]).chances);
}

describe("what is kept from one question to the next", () => {
  const cases = [
    { locus: POLLED, genotypes: 3, runs: 40, options: {} },
    { locus: aLocus(["A", "B", "C"]), genotypes: 6, runs: 25, options: {} },
    { locus: aLocus(["A", "B", "C"]), genotypes: 6, runs: 6, options: { cellBudget: 1 } },
  ];
  test.each(cases)("[GE-33] findings change one by one at a locus of $genotypes genotypes: as if asked afresh", (c) => {
    fc.assert(
      fc.property(
        anyHerd(c.genotypes),
        fc.array(fc.tuple(fc.nat(ANIMALS - 1), anyLook(c.genotypes)), { minLength: 1, maxLength: 5 }),
        (start, changes) => {
          const layouts = layoutMemory();
          let seen = start;
          expectSame(herdOf(c.locus, seen), { ...c.options, layouts });
          for (const [animal, look] of changes) {
            seen = seen.map((before, i) => (i === animal ? look : before));
            expectSame(herdOf(c.locus, seen), { ...c.options, layouts });
          }
        },
      ),
      { numRuns: c.runs },
    );
  });

  test.each([
    { runs: 40, options: {} },
    { runs: 5, options: { cellBudget: 1 } },
  ])("[GE-33] findings that rule something out come and go: as if asked afresh, $options", ({ runs, options }) => {
    fc.assert(
      fc.property(
        fc.array(anyHardLook, { minLength: ANIMALS, maxLength: ANIMALS }),
        fc.array(fc.tuple(fc.nat(ANIMALS - 1), anyHardLook), { minLength: 1, maxLength: 8 }),
        (start, changes) => {
          const layouts = layoutMemory();
          let seen = start;
          expectSame(herdOf(POLLED, seen), { ...options, layouts });
          for (const [animal, look] of changes) {
            seen = seen.map((before, i) => (i === animal ? look : before));
            expectSame(herdOf(POLLED, seen), { ...options, layouts });
          }
        },
      ),
      { numRuns: runs },
    );
  });

  test("[GE-33] a finding that says too little is reported each time, and one that is mended counts", () => {
    const layouts = layoutMemory();
    const flat = Array.from({ length: ANIMALS }, () => [0.9, 0.8, 0.1]);
    const broken = flat.map((look, i) => (i === 3 ? [1, 1] : look));
    const absent = (problem: PedigreeProblem): PedigreeProblem => ({
      ...problem,
      members: problem.members.map((m, i) => (i === 9 ? { ...m, dam: animalId("nobody") } : m)),
    });
    for (const seen of [flat, broken, broken, flat])
      for (const problem of [herdOf(POLLED, seen), absent(herdOf(POLLED, seen))]) expectSame(problem, { layouts });
    expect(inferGenotypes(absent(herdOf(POLLED, broken)), { layouts }).issues).toHaveLength(2);
  });

  const base = herdOf(
    POLLED,
    Array.from({ length: ANIMALS }, (__, i) =>
      i === 0 || i === 2 ? [0, 0, 1] : i === 5 ? [1, 1, 0] : [0.9, 0.8, i / 10],
    ),
  );
  const inBase = (at: number, change: (m: Member) => Member): PedigreeProblem => ({
    ...base,
    members: base.members.map((m, i) => (i === at ? change(m) : m)),
  });
  const finding = ({ fact, likelihood }: Evidence, sex: ChromosomalSex): Evidence => ({
    fact,
    likelihood: { ...likelihood, [sex]: [0.1, 0.8, 0.3] },
  });
  const changes: readonly (readonly [string, PedigreeProblem])[] = [
    [
      "the dams of two",
      {
        ...base,
        members: base.members.map((m, i) => ({
          ...m,
          dam: base.members[i === 6 ? 7 : i === 7 ? 6 : i]?.dam,
        })),
      },
    ],
    [
      "a sire's weight",
      inBase(6, (m) => ({ ...m, sires: m.sires.map((s, k) => ({ ...s, weight: k === 0 ? 0.9 : 0.1 })) })),
    ],
    ["a sex", inBase(8, (m) => ({ ...m, xx: 1 }))],
    ["a founder's prior", inBase(0, (m) => ({ ...m, founderPrior: [0, 0.5, 0.5] }))],
    ["the frequencies", { ...base, frequencies: { default: [0.5, 0.5] } }],
    ["the frequencies of a breed nobody is of", { ...base, frequencies: { breeds: { damara: [0.5, 0.5] } } }],
    [
      "how common an allele is held to be",
      { ...base, locus: { ...POLLED, founders: { ...POLLED.founders, default: aLocus(["P", "p"]).founders.default } } },
    ],
    ["a breed", inBase(0, (m) => ({ ...m, breed: "damara" }))],
    ["a parent's sex", inBase(2, (m) => ({ ...m, xx: 0 }))],
    ["the order of the animals", { ...base, members: base.members.toReversed() }],
    ["an animal named twice", { ...base, members: [...base.members, ...base.members.slice(0, 1)] }],
    ["the name of a finding", inBase(5, (m) => ({ ...m, evidence: [aFact("other", [1, 1, 0])] }))],
    ["a finding of does", inBase(7, (m) => ({ ...m, evidence: m.evidence.map((e) => finding(e, "XX")) }))],
    ["a finding of bucks", inBase(7, (m) => ({ ...m, evidence: m.evidence.map((e) => finding(e, "XY")) }))],
    ["one animal less", { ...base, members: base.members.slice(0, -1) }],
  ];
  test.each(changes)("[GE-33] %s changes: as if asked afresh, and so is what was asked before", (_, changed) => {
    const layouts = layoutMemory();
    for (const problem of [base, changed, base, base]) expectSame(problem, { layouts });
  });

  /** The same herd with two kids of one litter. */
  const inLitter = (mixed: number, said = 1, mate = "spring"): PedigreeProblem => ({
    ...base,
    members: base.members.map((m, i): Member => {
      if (i !== 6 && i !== 7) return m;
      const sires = present(base.members[6], "a kid").sires;
      return {
        ...m,
        sires: i === 6 ? sires.map((s, k) => (k === 0 ? { ...s, said } : s)) : sires,
        litter: { id: i === 6 ? "spring" : mate, mixed },
      };
    }),
  });
  test("[GE-33] what is known of a litter changes: as if asked afresh", () => {
    const layouts = layoutMemory();
    const changed = [inLitter(0.2), inLitter(0.8), inLitter(0.8, 0.1), inLitter(0.8, 0.1, "autumn"), inLitter(0.2)];
    expect(new Set(changed.map((p) => inferGenotypes(p).logLikelihood)).size).toBe(4);
    for (const problem of changed) expectSame(problem, { layouts });
  });

  test("[GE-62] loci of one shape take turns with one memory, findings change in between: as if asked afresh", () => {
    const loci = [POLLED, aLocus(["W", "w"]), aLocus(["S", "s"])];
    const anyTurn = fc.tuple(fc.nat(loci.length - 1), fc.nat(ANIMALS - 1), anyLook(3));
    fc.assert(
      fc.property(anyHerd(3), fc.array(anyTurn, { minLength: 3, maxLength: 9 }), (start, turns) => {
        const layouts = layoutMemory();
        const seen = loci.map(() => start);
        for (const [locus, animal, look] of turns) {
          const before = seen[locus] ?? [];
          seen[locus] = before.map((old, i) => (i === animal ? look : old));
          expectSame(herdOf(loci[locus] ?? POLLED, seen[locus]), { layouts });
        }
      }),
      { numRuns: 25 },
    );
  });

  test.each([
    ["exact", {}],
    ["approximate", { cellBudget: 200 }],
  ] as const)("[GE-33] findings change at two loci asked together, %s: as if asked afresh", (method, budget) => {
    const other = aLocus(["W", "w"]);
    fc.assert(
      fc.property(anyHerd(3), anyHerd(3), anyHerd(3), (polled, first, then) => {
        const layouts = layoutMemory();
        for (const seen of [first, then, first]) {
          const problems = [herdOf(POLLED, polled), herdOf(other, seen)];
          const [kept, fresh] = [inferLoci(problems, { ...budget, layouts }), inferLoci(problems, budget)];
          expect(kept.method).toBe(method);
          expect(fresh.method).toBe(method);
          expect(kept.error).toBeCloseTo(fresh.error, 9);
          for (const { id } of herdOf(POLLED, polled).members)
            kept.answers.forEach((answer, l) => {
              const want = fresh.answers[l]?.belief(id).genotypes ?? [];
              answer.belief(id).genotypes.forEach((p, g) => expect(p).toBeCloseTo(want[g] ?? Number.NaN, 11));
            });
        }
      }),
      { numRuns: 5 },
    );
  });

  test("[GE-33] an impossible finding in between is reported, and what comes after is as if it had not been", () => {
    const layouts = layoutMemory();
    const flat = Array.from({ length: ANIMALS }, () => [1, 1, 1]);
    const horned = flat.map((look, i) => (i === 2 || i === 0 ? [0, 0, 1] : look));
    const impossible = horned.map((look, i) => (i === 5 ? [1, 1, 0] : look));
    inferGenotypes(herdOf(POLLED, horned), { layouts });
    expect(inferGenotypes(herdOf(POLLED, impossible), { layouts }).conflicts).toHaveLength(1);
    expectSame(herdOf(POLLED, horned), { layouts });
  });
});

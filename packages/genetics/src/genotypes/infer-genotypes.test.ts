import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { genotypesOf, type Locus } from "../locus.ts";
import { POLLED } from "../loci/polled.ts";
import { aFact, aLocus, aMember, byEnumeration } from "../testing.ts";
import { type AnimalId, animalId, CHROMOSOMAL_SEXES } from "../vocabulary.ts";
import { inferGenotypes } from "./infer-genotypes.ts";
import type { Evidence, Member, PedigreeProblem } from "../pedigree/pedigree-problem.ts";

/** Both sides are sums of a few thousand products of doubles: some hundreds of roundings of 1e-16. */
const SLACK = 1e-11;

const POLLED_HEAD = [1, 1, 0];
const HORNED_HEAD = [0, 0, 1];

function expectClose(got: readonly number[], want: readonly number[]) {
  expect(got).toHaveLength(want.length);
  got.forEach((x, i) => {
    expect(Math.abs(x - (want[i] ?? Number.NaN))).toBeLessThan(SLACK);
  });
}

const sum = (xs: readonly number[]) => xs.reduce((a, b) => a + b, 0);

/** The polled locus with every allele as common as the other. */
const herd = (...members: readonly Member[]): PedigreeProblem => ({
  locus: POLLED,
  members,
  frequencies: { default: [0.5, 0.5] },
});
const believed = (problem: PedigreeProblem, id: string) => inferGenotypes(problem).belief(animalId(id)).genotypes;

describe("inferGenotypes", () => {
  test("[GE-1] a founder nobody has looked at is as the founders are", () => {
    expectClose(believed(herd(aMember("a")), "a"), [0.25, 0.5, 0.25]);
  });

  test("[GE-1] one horned kid of a horned doe: the polled buck carries horns", () => {
    const problem = herd(
      aMember("buck", { evidence: [aFact("b", POLLED_HEAD)] }),
      aMember("doe", { evidence: [aFact("d", HORNED_HEAD)] }),
      aMember("kid", { dam: "doe", sire: "buck", evidence: [aFact("k", HORNED_HEAD)] }),
    );
    expectClose(believed(problem, "buck"), [0, 1, 0]);
  });

  test("[GE-2] two bucks in the pen: the polled kid of a horned doe is the polled buck's", () => {
    const problem = herd(
      aMember("polled", { evidence: [aFact("p", POLLED_HEAD)] }),
      aMember("horned", { evidence: [aFact("h", HORNED_HEAD)] }),
      aMember("doe", { evidence: [aFact("d", HORNED_HEAD)] }),
      aMember("kid", {
        dam: "doe",
        sires: [
          ["polled", 1],
          ["horned", 3],
        ],
        evidence: [aFact("k", POLLED_HEAD)],
      }),
    );
    const { sires } = inferGenotypes(problem).belief(animalId("kid"));
    expect(sires.get(animalId("polled"))).toBeCloseTo(1, 12);
    expect(sires.get(animalId("horned"))).toBeCloseTo(0, 12);
  });

  test("[GE-2] of two bucks, the one that can only be XX was not the sire", () => {
    const seenAs = (xx: number): Evidence => ({
      fact: "look",
      likelihood: { XX: [xx, xx, xx], XY: [1 - xx, 1 - xx, 1 - xx] },
    });
    const problem = herd(
      aMember("a", { evidence: [seenAs(1)] }),
      aMember("b", { evidence: [] }),
      aMember("kid", {
        sires: [
          ["a", 1],
          ["b", 1],
        ],
      }),
    );
    const answer = inferGenotypes(problem);
    expect(answer.belief(animalId("kid")).sires.get(animalId("b"))).toBe(1);
    expect(answer.belief(animalId("b")).xx).toBe(0);
  });

  test("[GE-4] no animals, no facts: the probability of nothing is 1", () => {
    const answer = inferGenotypes(herd());
    expect(answer.logLikelihood).toBe(0);
    expect(answer.conflicts).toEqual([]);
  });

  test("[GE-4] a likelihood of 10^-607 is a number like any other", () => {
    const rare = Array.from({ length: 607 }, (_, i) => aFact(`f${i}`, [0.1, 0.1, 0.1]));
    const answer = inferGenotypes(herd(aMember("a", { evidence: rare })));
    expect(answer.logLikelihood / Math.log(10)).toBeCloseTo(-607, 8);
    expectClose(answer.belief(animalId("a")).genotypes, [0.25, 0.5, 0.25]);
  });

  test("[GE-4] facts that fit no possible sire by a factor of 10^400: which of them it was is still told", () => {
    // A dam PP has no pp kid; of the others Pp is 9 times as likely to look like that, though 10^400 less than pp.
    const looks = ["a", "b"].map((fact) => aFact(fact, [1e-200, 3e-200, 1]));
    const of = (...sires: readonly (readonly [string | undefined, number])[]) =>
      inferGenotypes(
        herd(
          aMember("dam", { evidence: [aFact("d", [1, 0, 0])] }),
          aMember("pp", { xx: 0, evidence: [aFact("s", [0, 0, 1])] }),
          aMember("PP", { xx: 0, evidence: [aFact("t", [1, 0, 0])] }),
          aMember("kid", { dam: "dam", sires, evidence: looks }),
        ),
      ).belief(animalId("kid")).sires;
    expectClose([...of(["pp", 0.6], ["PP", 0.4]).values()], [5.4 / 5.8, 0.4 / 5.8]);
    // Half of what an unknown buck hands on is P: 5 on the average.
    expectClose([...of(["pp", 0.9], [undefined, 0.1]).values()], [8.1 / 8.6, 0.5 / 8.6]);
  });

  test("[GE-4] a buck with 3,000 kids is no trouble", () => {
    const kids = Array.from({ length: 3000 }, (_, i) =>
      aMember(`k${i}`, { sire: "buck", evidence: [aFact(`f${i}`, i === 0 ? HORNED_HEAD : POLLED_HEAD)] }),
    );
    const answer = inferGenotypes(herd(aMember("buck", { evidence: [aFact("b", POLLED_HEAD)] }), ...kids));
    expectClose(answer.belief(animalId("buck")).genotypes, [0, 1, 0]);
    // A Pp buck on unknown does of frequency one half: 1/4 horned, 3/4 polled.
    expect(answer.logLikelihood).toBeCloseTo(Math.log(0.5) + Math.log(0.25) + 2999 * Math.log(0.75), 6);
  });

  describe("laws", () => {
    test("[GE-1] it equals enumerating every combination: beliefs, sex, sires and likelihood", () => {
      fc.assert(
        fc.property(anyProblem, (problem) => {
          const slow = byEnumeration(problem);
          fc.pre(slow.total > 1e-200);
          const answer = inferGenotypes(problem);
          expect(answer.issues).toEqual([]);
          expect(Math.abs(answer.logLikelihood - Math.log(slow.total))).toBeLessThan(SLACK);
          for (const m of problem.members) {
            const got = answer.belief(m.id);
            for (const sex of CHROMOSOMAL_SEXES)
              expectClose(
                got.bySex[sex],
                (slow.bySex.get(m.id)?.[sex] ?? []).map((w) => w / slow.total),
              );
            expectClose(
              [...got.sires.values()],
              (slow.sires.get(m.id) ?? []).map((w) => w / slow.total),
            );
            expectClose([got.xx, sum(got.genotypes)], [sum(got.bySex.XX), 1]);
          }
        }),
        { numRuns: 100 },
      );
    });

    test.each([{}, { cellBudget: 1 }])(
      "[GE-4] facts as rare as 10^-900 leave every chance a chance, budget %o",
      (options) => {
        const rare = new Map([
          [0, 1e-300],
          [0.05, 1e-200],
          [0.3, 1e-100],
        ]);
        const rarer = (row: readonly number[]) => row.map((w) => rare.get(w) ?? w);
        const thrice = ({ fact, likelihood: { XX, XY } }: Evidence): readonly Evidence[] =>
          ["a", "b", "c"].map((copy) => ({ fact: fact + copy, likelihood: { XX: rarer(XX), XY: rarer(XY) } }));
        fc.assert(
          fc.property(anyProblem, (problem) => {
            const members = problem.members.map((m) => ({ ...m, evidence: m.evidence.flatMap(thrice) }));
            const answer = inferGenotypes({ ...problem, members }, options);
            expect(answer.conflicts).toEqual([]);
            expect(answer.logLikelihood).toBeGreaterThan(Number.NEGATIVE_INFINITY);
            for (const { id, sires } of members) {
              const found = answer.belief(id);
              const all = [found.genotypes, [...found.bySex.XX, ...found.bySex.XY], answer.forecast(id).genotypes];
              for (const chances of sires.length > 0 ? [...all, [...found.sires.values()]] : all) {
                expect(Math.min(...chances)).toBeGreaterThanOrEqual(0);
                expect(sum(chances)).toBeCloseTo(1, 9);
              }
            }
          }),
          { numRuns: 150 },
        );
      },
    );

    test("[GE-3] a planned kid is what the slow way finds for a kid added to the pedigree", () => {
      fc.assert(
        fc.property(anyProblem, fc.nat(), fc.nat(), (problem, i, j) => {
          const { does, bucks } = parentsOf(problem);
          const dam = does[i % (does.length + 1)];
          const sire = bucks[j % (bucks.length + 1)];
          const kid: Member = {
            ...aMember("planned"),
            dam,
            sires: sire === undefined ? [] : [{ sire, weight: 1 }],
            breed: undefined,
          };
          const slow = byEnumeration({ ...problem, members: [...problem.members, kid] });
          fc.pre(slow.total > 1e-200 && byEnumeration(problem).total > 0);
          const want = slow.bySex.get(kid.id) ?? { XX: [], XY: [] };
          const genotypes =
            problem.locus.inheritance === "x-linked"
              ? [...want.XX, ...want.XY]
              : want.XX.map((w, g) => w + (want.XY[g] ?? 0));
          expectClose(
            inferGenotypes(problem).kid(sire, dam),
            genotypes.map((w) => w / slow.total),
          );
        }),
        { numRuns: 40 },
      );
    });

    test("[GE-3] a forecast is the belief with the animal's own facts left out of the problem", () => {
      fc.assert(
        fc.property(anyProblem, fc.nat(), (problem, i) => {
          fc.pre(byEnumeration(problem).total > 1e-200);
          const m = problem.members[i % problem.members.length];
          if (!m) return;
          const without: PedigreeProblem = {
            ...problem,
            members: problem.members.map((x) => (x.id === m.id ? { ...x, evidence: [] } : x)),
          };
          const slow = byEnumeration(without);
          const answer = inferGenotypes(problem);
          for (const sex of CHROMOSOMAL_SEXES)
            expectClose(
              answer.forecast(m.id).bySex[sex],
              (slow.bySex.get(m.id)?.[sex] ?? []).map((w) => w / slow.total),
            );
          const [first, ...others] = m.evidence;
          if (first)
            expectClose(
              answer.forecast(
                m.id,
                others.map((e) => e.fact),
              ).genotypes,
              inferGenotypes({
                ...problem,
                members: problem.members.map((x) => (x.id === m.id ? { ...x, evidence: [first] } : x)),
              }).belief(m.id).genotypes,
            );
        }),
        { numRuns: 40 },
      );
    });

    test("[GE-3] a joint belief is the share of the combinations", () => {
      fc.assert(
        fc.property(anyProblem, fc.nat(), (problem, skip) => {
          const slow = byEnumeration(problem);
          fc.pre(slow.total > 1e-200);
          const ids = problem.members
            .map((m) => m.id)
            .filter((_, i) => i !== skip % 8)
            .slice(0, 4)
            .toReversed();
          const names = genotypesOf(problem.locus);
          const want = Array.from({ length: names.length ** ids.length }, () => 0);
          for (const [key, weight] of slow.combinations) {
            const parts = key.split(",");
            const at = ids.reduce(
              (n, id) => n * names.length + names.indexOf(parts[problem.members.findIndex((m) => m.id === id)] ?? ""),
              0,
            );
            want[at] = (want[at] ?? 0) + weight / slow.total;
          }
          expectClose(inferGenotypes(problem).joint(ids).chances, want);
        }),
        { numRuns: 40 },
      );
    });
  });
});

/** Does that can be a planned kid's dam and bucks that can be its sire, nothing known against it. */
function parentsOf({ members }: PedigreeProblem): { does: readonly AnimalId[]; bucks: readonly AnimalId[] } {
  return {
    does: members.filter((m) => m.id.startsWith("doe")).map((m) => m.id),
    bucks: members.filter((m) => m.id.startsWith("buck")).map((m) => m.id),
  };
}

const anyLocus: fc.Arbitrary<Locus> = fc.constantFrom(
  POLLED,
  POLLED,
  aLocus(["A", "B", "C"]),
  aLocus(["X", "x"], "x-linked"),
);
const anyWeight = fc.constantFrom(0, 0.05, 0.3, 0.5, 0.9, 1);

/** Small pedigrees of every shape: loops, inbreeding, unknown parents, several sires, soft and hard facts, doubtful sex. */
const anyProblem: fc.Arbitrary<PedigreeProblem> = fc
  .tuple(anyLocus, fc.integer({ min: 1, max: 5 }))
  .chain(([locus, n]) =>
    fc.record({
      locus: fc.constant(locus),
      members: fc
        .array(
          fc.record({
            isDoe: fc.boolean(),
            dam: fc.nat(),
            sires: fc.array(fc.tuple(fc.nat(), fc.integer({ min: 1, max: 3 })), { maxLength: 3 }),
            xx: fc.constantFrom(0.5, 0.1, 1),
            facts: fc.array(factAt(locus), { maxLength: 2 }),
            prior: fc.integer({ min: 0, max: 4 }),
          }),
          { minLength: n, maxLength: n },
        )
        .map((rows) => pedigreeFrom(locus, rows)),
      frequencies: fc
        .array(fc.integer({ min: 1, max: 9 }), { minLength: locus.alleles.length, maxLength: locus.alleles.length })
        .map((ws) => ({ default: ws.map((w) => w / sum(ws)) })),
    }),
  );

function factAt(locus: Locus) {
  const row = (sex: "XX" | "XY") => {
    const length = genotypesOf(locus, sex).length;
    return fc.array(anyWeight, { minLength: length, maxLength: length });
  };
  return fc.record({ XX: row("XX"), XY: row("XY") });
}

interface Row {
  readonly isDoe: boolean;
  readonly dam: number;
  readonly sires: readonly (readonly [number, number])[];
  readonly xx: number;
  readonly facts: readonly Evidence["likelihood"][];
  readonly prior: number;
}

function pedigreeFrom(locus: Locus, rows: readonly Row[]): readonly Member[] {
  const members: Member[] = [];
  rows.forEach((row, i) => {
    const does = members.filter((m) => m.id.startsWith("doe"));
    const bucks = members.filter((m) => m.id.startsWith("buck"));
    const dam = does[row.dam % (does.length + 1)]?.id;
    const weights = new Map(row.sires.map(([at, weight]) => [bucks[at % (bucks.length + 1)]?.id, weight]));
    const isUnknown = [...weights.keys()].every((s) => s === undefined);
    const evidence = row.facts.map((likelihood, k) => ({ fact: `${i}#${k}`, likelihood }));
    const size = genotypesOf(locus, "XX").length;
    members.push({
      id: animalId(`${row.isDoe ? "doe" : "buck"}${i}`),
      dam,
      sires: isUnknown ? [] : [...weights].map(([sire, weight]) => ({ sire, weight })),
      xx: row.isDoe ? row.xx : (1 - row.xx) * 0.9,
      breed: undefined,
      evidence,
      ...(row.prior === 0 && dam === undefined && isUnknown && locus.inheritance === "autosomal"
        ? { founderPrior: Array.from({ length: size }, (_, g) => (g === 0 ? 0.4 : 0.6 / (size - 1))) }
        : {}),
    });
  });
  return members;
}

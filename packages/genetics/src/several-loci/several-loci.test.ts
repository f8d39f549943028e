import bayesjs from "bayesjs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { POLLED } from "../loci/polled.ts";
import { aFact, aLocus, aMember, byEnumeration, withSires } from "../testing.ts";
import { animalId } from "../vocabulary.ts";
import { inferGenotypes } from "../genotypes/infer-genotypes.ts";
import type { Member, PedigreeProblem } from "../pedigree/pedigree-problem.ts";
import { inferLoci, type LociAnswer } from "./several-loci.ts";

const WATTLED = aLocus(["W", "w"]);
const COLOURS = aLocus(["A", "B", "C"]);
const kid = animalId("kid");

/** Two bucks, a doe and a kid of one of them; a younger kid, known to be the first buck's. */
const herdAt = (
  locus: PedigreeProblem["locus"],
  facts: Readonly<Record<string, readonly number[]>>,
): PedigreeProblem => {
  const look = (id: string) => (facts[id] ? [aFact(`${locus.id} ${id}`, facts[id])] : []);
  return {
    locus,
    members: [
      aMember("one", { xx: 0, evidence: look("one") }),
      aMember("two", { xx: 0, evidence: look("two") }),
      aMember("doe", { xx: 1, evidence: look("doe") }),
      aMember("kid", {
        dam: "doe",
        sires: [
          ["one", 2],
          ["two", 1],
          [undefined, 1],
        ],
        evidence: look("kid"),
      }),
      aMember("later", { xx: 0, dam: "doe", sire: "one", evidence: look("later") }),
    ],
  };
};

/** The slow way: every candidate in turn as the only sire, each locus enumerated, the products compared. */
function siresByHand(problems: readonly PedigreeProblem[]): readonly number[] {
  const doubt = problems[0]?.members.find((m) => m.id === kid)?.sires ?? [];
  const weights = doubt.map(({ sire, weight }) =>
    problems.reduce((product, problem) => {
      const members = problem.members.map(
        (m): Member => (m.id === kid ? { ...m, sires: sire === undefined ? [] : [{ sire, weight: 1 }] } : m),
      );
      return product * byEnumeration({ ...problem, members }).total;
    }, weight),
  );
  const total = weights.reduce((a, b) => a + b, 0);
  return weights.map((w) => w / total);
}

/** Three bucks of which any two may be the sires of two kids of one doe; the second kid has a kid of a doubtful buck too. */
const tangledAt = (locus: PedigreeProblem["locus"], looks: readonly (readonly number[])[]): PedigreeProblem => {
  const look = (k: number) => [aFact(`${locus.id} ${k}`, looks[k] ?? [])];
  return {
    locus,
    members: [
      aMember("one", { xx: 0, evidence: look(0) }),
      aMember("two", { xx: 0, evidence: look(1) }),
      aMember("doe", { xx: 1 }),
      aMember("kid", {
        dam: "doe",
        sires: [
          ["one", 2],
          ["two", 1],
          [undefined, 1],
        ],
        evidence: look(2),
      }),
      aMember("mate", {
        xx: 1,
        dam: "doe",
        sires: [
          ["one", 1],
          ["two", 1],
        ],
        evidence: look(3),
      }),
      aMember("last", {
        xx: 0,
        dam: "mate",
        sires: [
          ["one", 9],
          [undefined, 1],
        ],
        evidence: look(4),
      }),
    ],
  };
};

const flat = (genotypes: number): readonly number[] => Array.from({ length: genotypes }, () => 1);

interface Way {
  readonly weight: number;
  /** Per doubtful animal, in order: the position of its sire among its candidates. */
  readonly chosen: readonly number[];
  /** Per locus, per animal: weights of its genotypes, whose sum is the likelihood of the locus this way. */
  readonly genotypes: readonly (readonly (readonly number[])[])[];
}

/** The slow way: every combination of sires in turn, each locus enumerated, each genotype weighed by all the other loci. */
function everyWay(problems: readonly PedigreeProblem[]): { readonly ways: readonly Way[]; readonly total: number } {
  const members = problems[0]?.members ?? [];
  const combinations = members
    .filter((m) => m.sires.length > 1)
    .reduce<readonly (readonly number[])[]>(
      (all, m) => all.flatMap((chosen) => m.sires.map((_, k) => [...chosen, k])),
      [[]],
    );
  const ways = combinations.map((chosen): Way => {
    const left = [...chosen];
    const picks = new Map(members.filter((m) => m.sires.length > 1).map((m) => [m.id, left.shift() ?? 0] as const));
    const found = problems.map((problem) => byEnumeration(withSires(problem, picks)));
    const prior = members.reduce((w, m) => w * (m.sires[picks.get(m.id) ?? 0]?.weight ?? 1), 1);
    return {
      chosen,
      weight: found.reduce((w, f) => w * f.total, prior),
      genotypes: found.map((f) =>
        members.map((m) => {
          const { XX = [], XY = [] } = f.bySex.get(m.id) ?? {};
          return XX.map((w, g) => (w + (XY[g] ?? 0)) / (f.total || 1));
        }),
      ),
    };
  });
  return { ways, total: ways.reduce((sum, way) => sum + way.weight, 0) };
}

/** The largest difference of any chance, of sires and of genotypes at all loci, from the slow way. */
function worstError(problems: readonly PedigreeProblem[], answer: LociAnswer): number {
  const { ways, total } = everyWay(problems);
  const mean = (of: (way: Way) => number): number => ways.reduce((sum, way) => sum + way.weight * of(way), 0) / total;
  const members = problems[0]?.members ?? [];
  const doubtful = members.filter((m) => m.sires.length > 1);
  const ofSires = doubtful.flatMap((m, d) =>
    [...answer.sires(m.id).values()].map((p, k) => Math.abs(p - mean(({ chosen }) => (chosen[d] === k ? 1 : 0)))),
  );
  const ofGenotypes = answer.answers.flatMap((a, l) =>
    members.flatMap((m, i) =>
      a.belief(m.id).genotypes.map((p, g) => Math.abs(p - mean((way) => way.genotypes[l]?.[i]?.[g] ?? Number.NaN))),
    ),
  );
  expect(ofSires.length).toBe(7);
  return Math.max(...ofSires, ...ofGenotypes);
}

/** Problems of two alleles, equally common, as nodes with a table for each combination of their parents' states. */
function asNodes(problems: readonly PedigreeProblem[]) {
  const network: Record<string, { id: string; states: string[]; parents: string[]; cpt: unknown }> = {};
  const seen: Record<string, string> = {};
  const add = (id: string, states: string[], parents: string[], cpt: unknown): void => {
    network[id] = { id, states, parents, cpt };
  };
  // oxlint-disable-next-line unicorn/no-thenable -- it is the other program's word
  const row = (when: Readonly<Record<string, string>>, chances: object) => ({ when, then: chances });
  const genotypes = ["0", "1", "2"];
  /** The chance of handing on the first allele. */
  const handsOn = (state: string | undefined): number => (state === undefined ? 0.5 : 1 - Number(state) / 2);
  const kidOf = (d: number, s: number) => ({ 0: d * s, 1: d * (1 - s) + (1 - d) * s, 2: (1 - d) * (1 - s) });
  for (const m of problems[0]?.members ?? []) {
    const total = m.sires.reduce((sum, s) => sum + s.weight, 0);
    const weights = Object.fromEntries(m.sires.map((s, k) => [`${k}`, s.weight / total]));
    if (m.sires.length > 1) add(`sire of ${m.id}`, Object.keys(weights), [], weights);
  }
  problems.forEach(({ members }, l) => {
    for (const m of members) {
      const bucks = m.sires.flatMap((s) => (s.sire === undefined ? [] : [`${s.sire} ${l}`]));
      const dam = m.dam === undefined ? [] : [`${m.dam} ${l}`];
      const parents = m.sires.length > 1 ? [`sire of ${m.id}`, ...dam, ...bucks] : dam;
      const rows = parents.reduce<readonly Readonly<Record<string, string>>[]>(
        (all, parent) => all.flatMap((row) => (network[parent]?.states ?? []).map((s) => ({ ...row, [parent]: s }))),
        [{}],
      );
      const cpt = rows.map((when) => {
        const sire = m.sires[Number(when[`sire of ${m.id}`])]?.sire;
        return row(when, kidOf(handsOn(when[`${m.dam} ${l}`]), handsOn(when[`${sire} ${l}`])));
      });
      add(`${m.id} ${l}`, genotypes, parents, parents.length === 0 ? kidOf(0.5, 0.5) : cpt);
      for (const { likelihood } of m.evidence) {
        const yes = genotypes.map((g, k) => {
          const chance = likelihood.XX[k] ?? 0;
          return row({ [`${m.id} ${l}`]: g }, { yes: chance, no: 1 - chance });
        });
        add(`seen ${m.id} ${l}`, ["yes", "no"], [`${m.id} ${l}`], yes);
        seen[`seen ${m.id} ${l}`] = "yes";
      }
    }
  });
  return { network, seen };
}

describe("inferLoci", () => {
  test("[GE-26] polledness leaves two bucks open, wattles decide between them", () => {
    const polled = herdAt(POLLED, { one: [1, 1, 0], two: [1, 1, 0], doe: [0, 0, 1], kid: [1, 1, 0] });
    const wattled = herdAt(WATTLED, { one: [0, 0, 1], two: [1, 1, 0], doe: [0, 0, 1], kid: [0.99, 0.99, 0.01] });
    const answer = inferLoci([polled, wattled]);
    const alone = inferGenotypes(polled).belief(kid).sires.get(animalId("two")) ?? 0;
    const together = answer.sires(kid).get(animalId("two")) ?? 0;
    expect(alone).toBeLessThan(0.45);
    expect(together).toBeGreaterThan(0.75);
    for (const a of answer.answers) expect(a.belief(kid).sires.get(animalId("two"))).toBeCloseTo(together, 8);
  });

  test("[GE-26] one locus alone, or no doubt at all, is as before", () => {
    const polled = herdAt(POLLED, { one: [1, 1, 0], kid: [1, 1, 0] });
    expect([...inferLoci([polled]).sires(kid)]).toEqual([...inferGenotypes(polled).belief(kid).sires]);
    expect(inferLoci([polled]).method).toBe("exact");
    const sure = { ...polled, members: polled.members.filter((m) => m.id !== kid) };
    expect(inferLoci([sure, sure]).method).toBe("exact");
  });

  test("[GE-26] loci that rule out every sire between them do not break the answer", () => {
    const one = herdAt(POLLED, { one: [0, 0, 1], two: [1, 0, 0], doe: [0, 0, 1], kid: [0, 0, 1] });
    const two = herdAt(WATTLED, { one: [1, 0, 0], two: [0, 0, 1], doe: [0, 0, 1], kid: [0, 0, 1] });
    const members = (p: PedigreeProblem) =>
      p.members.map((m) => (m.id === kid ? { ...m, sires: m.sires.slice(0, 2) } : m));
    const answer = inferLoci([
      { ...one, members: members(one) },
      { ...two, members: members(two) },
    ]);
    expect([...answer.sires(kid).values()].reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
    expect([answer.method, answer.error]).toEqual(["approximate", 1]);
  });

  test("[GE-26] two kids of one buck at one locus are of one buck at the other", () => {
    // Kids that look alike at both loci: both are more likely of the first buck, or both of the second.
    const problems = [
      tangledAt(COLOURS, [flat(6), flat(6), [1, 0.2, 0.2, 1, 0.2, 1], [1, 0.2, 0.2, 1, 0.2, 1], flat(6)]),
      tangledAt(WATTLED, [flat(3), flat(3), [1, 0.2, 1], [1, 0.2, 1], flat(3)]),
    ];
    const answer = inferLoci(problems);
    expect([answer.method, answer.error]).toEqual(["exact", 0]);
    expect(worstError(problems, answer)).toBeLessThan(1e-9);
  });

  test("[GE-26] a forecast knows of a kid's sire what the other loci say", () => {
    const looks = { one: [1, 1, 0], two: [0, 0, 1], doe: [1, 1, 0], kid: [0, 0.5, 1] };
    const wattled = herdAt(WATTLED, { one: [0, 0, 1], two: [1, 0, 0], doe: [0, 0, 1], kid: [0, 1, 0] });
    const problems = [herdAt(POLLED, looks), wattled];
    const blank = [herdAt(POLLED, { ...looks, kid: [1, 1, 1] }), wattled];
    inferLoci(problems)
      .answers[0]?.forecast(kid)
      .genotypes.forEach((p, g) => {
        expect(p).toBeCloseTo(inferLoci(blank).answers[0]?.belief(kid).genotypes[g] ?? Number.NaN, 10);
      });
  });

  test("[GE-26] a locus without alleles says nothing, and stops nothing", () => {
    const empty = { ...herdAt(POLLED, {}), locus: aLocus([]) };
    const wattled = herdAt(WATTLED, { one: [0, 0, 1], two: [1, 1, 0], doe: [0, 0, 1], kid: [0.99, 0.99, 0.01] });
    const answer = inferLoci([empty, wattled]);
    expect(answer.answers[0]?.issues.map((i) => i.code)).toContain("locus-without-alleles");
    expect([...answer.sires(kid)]).toEqual([...inferGenotypes(wattled).belief(kid).sires]);
  });

  /** A second farm beside the first, whose kid's sires look all the same. */
  const withNeighbours = (problem: PedigreeProblem): PedigreeProblem => ({
    ...problem,
    members: [
      ...problem.members,
      aMember("black", { xx: 0 }),
      aMember("brown", { xx: 0 }),
      aMember("stray", {
        xx: 1,
        sires: [
          ["black", 1],
          ["brown", 1],
        ],
      }),
    ],
  });

  test("[GE-64] only where a locus has something to say of a sire do the others listen", () => {
    const polled = withNeighbours(herdAt(POLLED, { one: [1, 1, 0], two: [1, 1, 0], doe: [0, 0, 1], kid: [1, 1, 0] }));
    const wattled = withNeighbours(herdAt(WATTLED, { one: [0, 0, 1], two: [1, 1, 0], doe: [0, 0, 1], kid: [1, 1, 0] }));
    const every = inferLoci([polled, wattled]);
    const some = inferLoci([polled, wattled], { leastTold: 0.02 });
    expect([...every.told].sort()).toEqual(["kid", "stray"]);
    expect([...some.told]).toEqual(["kid"]);
    [...some.sires(kid)].forEach(([sire, p]) => expect(p).toBeCloseTo(every.sires(kid).get(sire) ?? Number.NaN, 12));
    some.answers.forEach((answer, l) => {
      const stray = animalId("stray");
      expect(answer.belief(stray)).toEqual(some.alone[l]?.belief(stray));
      for (const { id } of polled.members)
        answer.belief(id).genotypes.forEach((p, g) => {
          expect(p).toBeCloseTo(every.answers[l]?.belief(id).genotypes[g] ?? Number.NaN, 12);
        });
    });
  });

  test("[GE-64] where no locus has anything to say, each is the very answer that it gives alone", () => {
    const answer = inferLoci([herdAt(POLLED, {}), herdAt(WATTLED, {})], { leastTold: 0.02 });
    expect(answer.told.size).toBe(0);
    answer.answers.forEach((a, l) => expect(a).toBe(answer.alone[l]));
  });

  describe("laws", () => {
    const anyLook = (size: number) => fc.array(fc.constantFrom(0.1, 0.3, 0.8, 1), { minLength: size, maxLength: size });
    const anyFacts = (size: number) =>
      fc.record({
        one: anyLook(size),
        two: anyLook(size),
        doe: anyLook(size),
        kid: anyLook(size),
        later: anyLook(size),
      });

    test("[GE-26] one doubtful kid at three loci: as by trying each sire at every locus", () => {
      fc.assert(
        fc.property(anyFacts(3), anyFacts(3), anyFacts(6), (a, b, c) => {
          const problems = [herdAt(POLLED, a), herdAt(WATTLED, b), herdAt(COLOURS, c)];
          const answer = inferLoci(problems);
          expect(answer.method).toBe("exact");
          const want = siresByHand(problems);
          [...answer.sires(kid).values()].forEach((p, k) => {
            expect(p).toBeCloseTo(want[k] ?? Number.NaN, 8);
          });
        }),
        { numRuns: 8 },
      );
    });

    const anyLooks = (size: number) => fc.array(anyLook(size), { minLength: 5, maxLength: 5 });
    test("[GE-26] several doubtful sires at two loci: as by trying every combination at every locus", () => {
      fc.assert(
        fc.property(anyLooks(3), anyLooks(3), (a, b) => {
          const problems = [tangledAt(POLLED, a), tangledAt(WATTLED, b)];
          const answer = inferLoci(problems);
          expect(answer.method).toBe("exact");
          expect(worstError(problems, answer)).toBeLessThan(1e-9);
        }),
        { numRuns: 10 },
      );
    });

    test("[GE-26] beyond the budget the error that is named is of the size of the true one: at least a fifth of it", () => {
      fc.assert(
        fc.property(anyLooks(3), anyLooks(3), (a, b) => {
          const problems = [tangledAt(POLLED, a), tangledAt(WATTLED, b)];
          const answer = inferLoci(problems, { cellBudget: 1200 });
          expect(answer.method).toBe("approximate");
          expect(5 * answer.error).toBeGreaterThan(worstError(problems, answer));
        }),
        { numRuns: 10 },
      );
    });
  });

  describe("laws of what is left out", () => {
    const anyLook = (size: number) => fc.array(fc.constantFrom(0.1, 0.3, 0.8, 1), { minLength: size, maxLength: size });
    const anyLooks = (size: number) => fc.array(anyLook(size), { minLength: 5, maxLength: 5 });
    /** Bucks of whom so much is known that they are what they are. */
    const known = (looks: readonly (readonly number[])[]) =>
      looks.map((look, i) => (i < 2 ? look.map((p, g) => (g === i ? p : p * 1e-12)) : look));

    test("[GE-64] sires of whom is not told: no chance is off by more than a few times the error that is named", () => {
      let left = 0;
      fc.assert(
        fc.property(anyLooks(3), anyLooks(3), (a, b) => {
          const problems = [tangledAt(POLLED, a), tangledAt(WATTLED, b)];
          const answer = inferLoci(problems, { leastTold: 0.05 });
          if (answer.told.size < 3) left++;
          expect(answer.method).toBe(answer.told.size < 3 ? "approximate" : "exact");
          expect(5 * answer.error + 1e-9).toBeGreaterThan(worstError(problems, answer));
        }),
        { numRuns: 12 },
      );
      expect(left).toBeGreaterThan(3);
    });

    test("[GE-65] bucks that are known take up no room: all sires together within the budget, next to nothing lost", () => {
      fc.assert(
        fc.property(anyLooks(3), anyLooks(3), (a, b) => {
          const problems = [tangledAt(POLLED, known(a)), tangledAt(WATTLED, known(b))];
          const answer = inferLoci(problems, { cellBudget: 700 });
          expect(answer.method).toBe("approximate");
          expect(answer.error).toBeLessThan(1e-7);
          expect(worstError(problems, answer)).toBeLessThan(answer.error);
        }),
        { numRuns: 8 },
      );
    });
  });

  describe("published", () => {
    // The same network, told node by node to bayesjs 0.6.5, a general-purpose inference program (junction tree).
    test("[GE-26] two loci and three doubtful sires: as a general inference program has them", () => {
      const looks = [
        [1, 0.3, 0.8],
        [0.1, 1, 0.3],
        [0.3, 1, 0.8],
        [0.1, 0.8, 1],
        [1, 0.3, 0.1],
      ];
      const problems = [tangledAt(WATTLED, looks), tangledAt(aLocus(["D", "d"]), looks.toReversed())];
      const answer = inferLoci(problems);
      const { network, seen } = asNodes(problems);
      const theirs = (node: string, state: string): number =>
        bayesjs.inferences.junctionTree.infer(network as never, { [node]: state }, seen);
      for (const id of ["kid", "mate", "last"])
        [...answer.sires(animalId(id)).values()].forEach((p, k) => {
          expect(p).toBeCloseTo(theirs(`sire of ${id}`, `${k}`), 10);
        });
      problems.forEach(({ members }, l) => {
        for (const { id } of members)
          answer.answers[l]?.belief(id).genotypes.forEach((p, g) => {
            expect(p).toBeCloseTo(theirs(`${id} ${l}`, `${g}`), 10);
          });
      });
    });
  });
});

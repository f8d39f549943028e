import bayesjs from "bayesjs";
import { present, seededRandom } from "@pollard/base";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { POLLED } from "../loci/polled.ts";
import { hangsTogether, littersOf, saidOfLitter, siresOfLitter } from "../pedigree/litters.ts";
import { checkProblem, soundProblem } from "../pedigree/sound-problem.ts";
import { herdDrawer } from "../questions/herd-draws.ts";
import { aFact, aLocus, aMember, byEnumeration } from "../testing.ts";
import { type AnimalId, animalId, CHROMOSOMAL_SEXES } from "../vocabulary.ts";
import { inferGenotypes } from "./infer-genotypes.ts";
import type { Member, PedigreeProblem, SireCandidate } from "../pedigree/pedigree-problem.ts";

const SLACK = 1e-11;
const TESTED = { PP: [1, 0, 0], Pp: [0, 1, 0], pp: [0, 0, 1] } as const;
const [buckPP, buckpp] = [animalId("PP buck"), animalId("pp buck")];
const [first, second] = [animalId("first"), animalId("second")];
const BOTH = [
  ["PP buck", 1],
  ["pp buck", 1],
] as const;

const herd = (...members: readonly Member[]): PedigreeProblem => ({
  locus: POLLED,
  members,
  frequencies: { default: [0.5, 0.5] },
});

/** Kids of a horned doe and of one of two tested bucks, by what their own tests say. */
function litterOf(mixed: number, kids: Readonly<Record<string, readonly number[] | undefined>>): PedigreeProblem {
  return herd(
    aMember("PP buck", { xx: 0, evidence: [aFact("PP", TESTED.PP)] }),
    aMember("pp buck", { xx: 0, evidence: [aFact("pp", TESTED.pp)] }),
    aMember("doe", { xx: 1, evidence: [aFact("doe", TESTED.pp)] }),
    ...Object.entries(kids).map(([id, look]) =>
      aMember(id, {
        dam: "doe",
        sires: BOTH,
        litter: { id: "spring", mixed },
        evidence: look ? [aFact(`${id} seen`, look)] : [],
      }),
    ),
  );
}
const sireOf = (problem: PedigreeProblem, kid: AnimalId, buck = buckPP) =>
  inferGenotypes(problem).belief(kid).sires.get(buck);

describe("kids of one litter", () => {
  // By hand: the first can only be the PP buck's. Its mate is his too in the 4 litters of 10 that have one sire, and in half
  // of the 6 that are mixed: 0.4 + 0.6 / 2.
  test("[GE-71] a kid shown to be one buck's speaks for its litter mate, but for litters of several sires", () => {
    const problem = litterOf(0.6, { first: TESTED.Pp, second: undefined });
    expect(sireOf(problem, first)).toBeCloseTo(1, 12);
    expect(sireOf(problem, second)).toBeCloseTo(0.7, 12);
    inferGenotypes(problem)
      .belief(second)
      .genotypes.forEach((p, g) => expect(p).toBeCloseTo([0, 0.7, 0.3][g] ?? Number.NaN, 12));
    expect(sireOf(litterOf(0, { first: TESTED.Pp, second: undefined }), second)).toBeCloseTo(1, 12);
    expect(sireOf(litterOf(1, { first: TESTED.Pp, second: undefined }), second)).toBeCloseTo(0.5, 12);
  });

  // By hand, each way with half of the weight of its kind: one sire, 0.4 (the PP buck 1/2, the pp buck 1/2); mixed, 0.6 x 1/4
  // each way. Two Pp kids are of the PP buck both: 0.2 + 0.15. The third is his with (0.2 + 0.075) / 0.35.
  test("[GE-71] two mates of one buck say more of the third than one does", () => {
    const problem = litterOf(0.6, { first: TESTED.Pp, second: TESTED.Pp, third: undefined });
    expect(sireOf(problem, animalId("third"))).toBeCloseTo(0.275 / 0.35, 12);
  });

  test("[GE-71] who sired both: together, not one by one", () => {
    const ways = inferGenotypes(litterOf(0.6, { first: undefined, second: undefined })).siresTogether([first, second]);
    const chance = (a: AnimalId, b: AnimalId) => ways.find((w) => w.sires[0] === a && w.sires[1] === b)?.chance;
    expect(chance(buckPP, buckPP)).toBeCloseTo(0.35, 12);
    expect(chance(buckPP, buckpp)).toBeCloseTo(0.15, 12);
    expect(ways.reduce((sum, w) => sum + w.chance, 0)).toBeCloseTo(1, 12);
  });

  test("[GE-71] one buck is written, and the record may err: it does for the whole litter", () => {
    const problem = litterOf(0, { first: undefined, second: undefined });
    const doubted = [
      { sire: buckPP, weight: 0.9 },
      { sire: undefined, weight: 0.1 },
    ];
    const members = problem.members.map((m) => (m.litter ? { ...m, sires: doubted } : m));
    const ways = inferGenotypes({ ...problem, members }).siresTogether([first, second]);
    expect(ways.map(({ sires }) => sires)).toEqual([
      [buckPP, buckPP],
      [undefined, undefined],
    ]);
    ways.forEach(({ chance }, k) => expect(chance).toBeCloseTo([0.9, 0.1][k] ?? Number.NaN, 12));
  });

  test("[GE-71] a litter of one sire cannot be of two: the tests contradict each other, and are named", () => {
    const { conflicts } = inferGenotypes(litterOf(0, { first: TESTED.Pp, second: TESTED.pp }));
    expect(conflicts.map((c) => [...c.facts].sort())).toEqual([["PP", "doe", "first seen", "pp", "second seen"]]);
    expect(inferGenotypes(litterOf(0.6, { first: TESTED.Pp, second: TESTED.pp })).conflicts).toEqual([]);
  });

  test("[GE-71] herds are drawn with the litter's one sire", () => {
    const problem = litterOf(0, { first: undefined, second: undefined });
    const draw = present(herdDrawer(problem, inferGenotypes(problem)), "a drawer");
    const random = seededRandom(5);
    const drawn = Array.from({ length: 200 }, () => draw(random));
    for (const each of drawn) expect(each.get(first)?.genotype).toBe(each.get(second)?.genotype);
    expect(new Set(drawn.map((each) => each.get(first)?.genotype))).toEqual(new Set([1, 2]));
  });

  test("[GE-72] what cannot be said of a litter is named, and left out", () => {
    const bad = litterOf(1.5, { first: TESTED.Pp, second: undefined });
    expect(checkProblem(bad)).toEqual([
      { code: "bad-litter", animal: first, got: 1.5 },
      { code: "bad-litter", animal: second, got: 1.5 },
    ]);
    expect(sireOf(bad, second)).toBeCloseTo(0.5, 12);
    const only = (kid: AnimalId, buck: AnimalId) => (m: Member) =>
      m.id === kid ? { ...m, sires: m.sires.map((s) => ({ ...s, said: s.sire === buck ? 1 : 0 })) } : m;
    const said = (mixed: number) => {
      const problem = litterOf(mixed, { first: undefined, second: undefined });
      return { ...problem, members: problem.members.map(only(first, buckPP)).map(only(second, buckpp)) };
    };
    expect(checkProblem(said(0)).map((i) => i.code)).toEqual(["no-sire-left", "no-sire-left"]);
    expect(sireOf(said(0), first)).toBeCloseTo(0.5, 12);
    expect(sireOf(said(0.6), first)).toBeCloseTo(1, 12);
  });

  describe("laws", () => {
    const anyLook = fc.constantFrom([1, 1, 1], [0.9, 0.8, 0.1], [0.05, 0.3, 1], [0.2, 1, 0.4]);
    const anyMixed = fc.constantFrom(0, 0.3, 0.6, 1);
    const anySires = fc.constantFrom<readonly (readonly [string | undefined, number])[]>(
      [
        ["one", 3],
        [undefined, 1],
      ],
      [
        ["one", 1],
        ["two", 2],
      ],
      [
        [undefined, 1],
        ["two", 3],
        ["one", 1],
      ],
      [["one", 1]],
    );
    const anyHerd = fc
      .record({
        looks: fc.array(anyLook, { minLength: 6, maxLength: 6 }),
        sires: anySires,
        mixed: anyMixed,
        kids: fc.constantFrom(1, 2, 3),
        xOne: fc.constantFrom(0, 0.3),
        grandkid: fc.boolean(),
      })
      .map(({ looks, sires, mixed, kids, xOne, grandkid }) => {
        const look = (k: number) => [aFact(`look ${k}`, looks[k] ?? [])];
        return herd(
          aMember("one", { xx: xOne, evidence: look(0) }),
          aMember("two", { xx: 0, evidence: look(1) }),
          aMember("doe", { xx: 1, evidence: look(2) }),
          ...["first", "second", "third"]
            .slice(0, kids)
            .map((id, k) => aMember(id, { dam: "doe", sires, litter: { id: "spring", mixed }, evidence: look(3 + k) })),
          ...(grandkid && kids < 3 ? [aMember("grandkid", { xx: 1, dam: "first", sires, evidence: look(5) })] : []),
        );
      });
    const kidsOf = ({ members }: PedigreeProblem) => members.filter((m) => m.litter !== undefined);
    const changed = (problem: PedigreeProblem, change: (m: Member) => Member): PedigreeProblem => ({
      ...problem,
      members: problem.members.map(change),
    });
    function expectEqual(got: PedigreeProblem, want: PedigreeProblem) {
      const [a, b] = [inferGenotypes(got), inferGenotypes(want)];
      expect(a.logLikelihood).toBeCloseTo(b.logLikelihood, 12);
      for (const { id } of got.members) {
        a.belief(id).genotypes.forEach((p, g) => expect(p).toBeCloseTo(b.belief(id).genotypes[g] ?? Number.NaN, 12));
        for (const [sire, p] of a.belief(id).sires)
          expect(p).toBeCloseTo(b.belief(id).sires.get(sire) ?? Number.NaN, 12);
      }
    }

    test("[GE-71] it equals enumerating every combination of litters, sires, sexes and genotypes", () => {
      fc.assert(
        fc.property(anyHerd, (problem) => {
          const slow = byEnumeration(problem);
          const answer = inferGenotypes(problem);
          expect(answer.issues).toEqual([]);
          expect(Math.abs(answer.logLikelihood - Math.log(slow.total))).toBeLessThan(SLACK);
          for (const m of problem.members) {
            const got = answer.belief(m.id);
            for (const sex of CHROMOSOMAL_SEXES)
              got.bySex[sex].forEach((p, g) =>
                expect(Math.abs(p - (slow.bySex.get(m.id)?.[sex][g] ?? Number.NaN) / slow.total)).toBeLessThan(SLACK),
              );
            [...got.sires.values()].forEach((p, k) =>
              expect(Math.abs(p - (slow.sires.get(m.id)?.[k] ?? Number.NaN) / slow.total)).toBeLessThan(SLACK),
            );
          }
        }),
        { numRuns: 20 },
      );
    });

    test("[GE-71] the sires of mates together are what enumerating finds with those sires alone", () => {
      fc.assert(
        fc.property(anyHerd, (problem) => {
          const kids = kidsOf(problem);
          fc.pre(kids.every((m) => m.litter?.mixed !== 1)); // then each is answered for by itself
          const sires = present(kids[0], "a kid").sires;
          const { total } = byEnumeration(problem);
          const ways = inferGenotypes(problem).siresTogether(kids.map((m) => m.id));
          const only = (s: SireCandidate, sire: AnimalId | undefined) => ({ ...s, said: s.sire === sire ? 1 : 0 });
          expect(ways.reduce((sum, w) => sum + w.chance, 0)).toBeCloseTo(1, 11);
          expect(ways.length).toBeLessThanOrEqual(sires.length ** kids.length);
          for (const way of ways) {
            const meant = new Map(kids.map((m, k) => [m.id, way.sires[k]]));
            const want = byEnumeration(
              changed(problem, (m) =>
                meant.has(m.id) ? { ...m, sires: m.sires.map((s) => only(s, meant.get(m.id))) } : m,
              ),
            ).total;
            expect(Math.abs(way.chance - want / total)).toBeLessThan(SLACK);
          }
        }),
        { numRuns: 8 },
      );
    });

    test("[GE-71] where each kid draws its own, a litter is as none; so is one of one kid, or of one possible sire", () => {
      fc.assert(
        fc.property(anyHerd, (problem) => {
          const apart = changed(problem, ({ id, dam, sires, xx, breed, evidence }) => ({
            id,
            dam,
            sires,
            xx,
            breed,
            evidence,
          }));
          const mixed = changed(problem, (m) => (m.litter ? { ...m, litter: { id: "spring", mixed: 1 } } : m));
          expectEqual(mixed, apart);
          const alone = changed(problem, (m) => (m.litter ? { ...m, litter: { ...m.litter, id: m.id } } : m));
          expectEqual(alone, apart);
          const certain = (p: PedigreeProblem) => changed(p, (m) => ({ ...m, sires: m.sires.slice(0, 1) }));
          expectEqual(certain(problem), certain(apart));
        }),
        { numRuns: 30 },
      );
    });

    test("[GE-71] at a locus of more alleles too: as by enumerating", () => {
      const colours = aLocus(["A", "B", "C"]);
      const anyColour = fc.array(fc.constantFrom(0.1, 0.5, 1), { minLength: 6, maxLength: 6 });
      fc.assert(
        fc.property(fc.array(anyColour, { minLength: 3, maxLength: 3 }), anySires, anyMixed, (looks, sires, mixed) => {
          const look = (k: number) => [aFact(`look ${k}`, looks[k] ?? [])];
          const problem: PedigreeProblem = {
            locus: colours,
            members: [
              aMember("one", { xx: 0, evidence: look(0) }),
              aMember("two", { xx: 0 }),
              ...["first", "second"].map((id, k) =>
                aMember(id, { xx: 1, sires, litter: { id: "spring", mixed }, evidence: look(1 + k) }),
              ),
            ],
          };
          const slow = byEnumeration(problem);
          const answer = inferGenotypes(problem);
          expect(Math.abs(answer.logLikelihood - Math.log(slow.total))).toBeLessThan(SLACK);
          for (const id of [first, second])
            [...answer.belief(id).sires.values()].forEach((p, k) =>
              expect(Math.abs(p - (slow.sires.get(id)?.[k] ?? Number.NaN) / slow.total)).toBeLessThan(SLACK),
            );
        }),
        { numRuns: 20 },
      );
    });

    test("[GE-75] beyond the budget the error that is named is of the size of the true one: at least a fifth of it", () => {
      fc.assert(
        fc.property(anyHerd, (problem) => {
          const [exact, peeled] = [inferGenotypes(problem), inferGenotypes(problem, { cellBudget: 0 })];
          expect(peeled.method).toBe("approximate");
          const worst = Math.max(
            ...problem.members.flatMap(({ id }) =>
              exact.belief(id).genotypes.map((p, g) => Math.abs(p - (peeled.belief(id).genotypes[g] ?? Number.NaN))),
            ),
          );
          expect(5 * peeled.error).toBeGreaterThan(worst);
        }),
        { numRuns: 20 },
      );
    });

    test("[GE-71] each kid's sires from what is known of all of its litter: as by going through all ways", () => {
      const anyRow = fc.array(fc.constantFrom(0, 0.3, 1), { minLength: 2, maxLength: 2 });
      const shares = [0.7, 0.3];
      fc.assert(
        fc.property(fc.array(anyRow, { minLength: 1, maxLength: 3 }), anyMixed, (said, mixed) => {
          const ways = said.reduce<readonly (readonly number[])[]>(
            (all) =>
              all.flatMap((w) => [
                [...w, 0],
                [...w, 1],
              ]),
            [[]],
          );
          const weights = ways.map((way) => {
            const one = way.every((k) => k === way[0]) ? (1 - mixed) * (shares[way[0] ?? 0] ?? 0) : 0;
            const each = way.reduce((p, k) => p * (shares[k] ?? 0), mixed);
            return way.reduce((p, k, kid) => p * (said[kid]?.[k] ?? 0), one + each);
          });
          const total = weights.reduce((a, b) => a + b, 0);
          const found = siresOfLitter({ kids: said.map((_, i) => i), mixed, weights: shares }, said);
          expect(found === undefined).toBe(total === 0);
          found?.forEach((row, kid) =>
            row.forEach((p, k) => {
              const want = ways.reduce((sum, way, w) => (way[kid] === k ? sum + (weights[w] ?? 0) : sum), 0) / total;
              expect(p).toBeCloseTo(want, 12);
            }),
          );
        }),
        { numRuns: 60 },
      );
    });

    test("[GE-71] what is known of each kid alone is found again from the chances of its sires", () => {
      const anyRow = fc.array(fc.constantFrom(0.05, 0.3, 1), { minLength: 3, maxLength: 3 });
      fc.assert(
        fc.property(fc.array(anyRow, { minLength: 2, maxLength: 4 }), fc.constantFrom(0.1, 0.6, 1), (said, mixed) => {
          const litter = { kids: said.map((_, i) => i), mixed, weights: [0.5, 0.3, 0.2] };
          const chances = present(siresOfLitter(litter, said), "sires");
          const found = saidOfLitter(litter, chances);
          found.forEach((row, kid) => {
            const own = present(said[kid], "a kid");
            row.forEach((x, k) => expect(x / (row[0] ?? 0)).toBeCloseTo((own[k] ?? Number.NaN) / (own[0] ?? 0), 6));
          });
        }),
        { numRuns: 60 },
      );
    });
  });

  describe("published", () => {
    // The same network, told node by node to bayesjs 0.6.5, a general-purpose inference program (junction tree).
    test("[GE-71] twins of three bucks: as a general inference program has them", () => {
      const mixed = 0.6;
      const looks = {
        one: [1, 0.3, 0.8],
        two: [0.1, 1, 0.3],
        doe: [0.3, 1, 0.8],
        first: [0.1, 0.8, 1],
        second: [1, 0.3, 0.1],
      } as const;
      const shares = [0.5, 0.25, 0.25];
      const problem = herd(
        ...(["one", "two", "doe"] as const).map((id) =>
          aMember(id, { xx: id === "doe" ? 1 : 0, evidence: [aFact(id, looks[id])] }),
        ),
        ...(["first", "second"] as const).map((id) =>
          aMember(id, {
            dam: "doe",
            sires: [
              ["one", 2],
              ["two", 1],
              [undefined, 1],
            ],
            litter: { id: "spring", mixed },
            evidence: [aFact(id, looks[id])],
          }),
        ),
      );
      // oxlint-disable-next-line unicorn/no-thenable -- it is the other program's word
      const row = (when: Readonly<Record<string, string>>, chances: object) => ({ when, then: chances });
      const genotypes = ["0", "1", "2"];
      const handsOn = (state: string | undefined): number => (state === undefined ? 0.5 : 1 - Number(state) / 2);
      const kidOf = (d: number, s: number) => ({ 0: d * s, 1: d * (1 - s) + (1 - d) * s, 2: (1 - d) * (1 - s) });
      const network: Record<string, object> = {};
      const add = (id: string, states: string[], parents: string[], cpt: unknown): void => {
        network[id] = { id, states, parents, cpt };
      };
      const names = ["0", "1", "2"];
      const oneSire = shares.map((w) => (1 - mixed) * w);
      add("litter", [...names, "own"], [], { 0: oneSire[0], 1: oneSire[1], 2: oneSire[2], own: mixed });
      for (const id of ["one", "two", "doe"]) add(id, genotypes, [], kidOf(0.5, 0.5));
      for (const id of ["first", "second"]) {
        const sameAs = (state: string) => Object.fromEntries(names.map((k) => [k, k === state ? 1 : 0]));
        add(
          `sire of ${id}`,
          names,
          ["litter"],
          [
            ...names.map((k) => row({ litter: k }, sameAs(k))),
            row({ litter: "own" }, { 0: shares[0], 1: shares[1], 2: shares[2] }),
          ],
        );
        const rows = names.flatMap((sire) =>
          genotypes.flatMap((doe) =>
            genotypes.flatMap((one) =>
              genotypes.map((two) =>
                row({ [`sire of ${id}`]: sire, doe, one, two }, kidOf(handsOn(doe), handsOn([one, two][Number(sire)]))),
              ),
            ),
          ),
        );
        add(id, genotypes, [`sire of ${id}`, "doe", "one", "two"], rows);
      }
      for (const [id, look] of Object.entries(looks))
        add(
          `seen ${id}`,
          ["yes", "no"],
          [id],
          genotypes.map((g, k) => row({ [id]: g }, { yes: look[k] ?? 0, no: 1 - (look[k] ?? 0) })),
        );
      const seen = Object.fromEntries(Object.keys(looks).map((id) => [`seen ${id}`, "yes"]));
      const theirs = (node: string, state: string): number =>
        bayesjs.inferences.junctionTree.infer(network as never, { [node]: state }, seen);
      const answer = inferGenotypes(problem);
      for (const id of ["first", "second"])
        [...answer.belief(animalId(id)).sires.values()].forEach((p, k) =>
          expect(p).toBeCloseTo(theirs(`sire of ${id}`, `${k}`), 10),
        );
      for (const { id } of problem.members)
        answer.belief(id).genotypes.forEach((p, g) => expect(p).toBeCloseTo(theirs(id, `${g}`), 10));
    });

    // Berry et al. 2020: of 539 twin litters of ewes run with several rams 160 were of two rams, of 137 sets of triplets 73 of
    // more than one. Two rams as likely as each other, and the share of mixed litters that the twins give.
    test("[GE-71] a share of mixed litters fitted to twins foretells triplets within what their number leaves to chance", () => {
      const mixed = (2 * 160) / 539;
      const { members } = soundProblem(litterOf(mixed, { a: undefined, b: undefined, c: undefined }));
      const litter = present(littersOf(members, [...members.keys()]).find(hangsTogether), "a litter");
      expect([litter.kids.length, litter.mixed]).toEqual([3, mixed]);
      const several = (kids: readonly string[]) =>
        inferGenotypes(litterOf(mixed, Object.fromEntries(kids.map((k) => [k, undefined]))))
          .siresTogether(kids.map(animalId))
          .reduce((sum, { sires, chance }) => (new Set(sires).size > 1 ? sum + chance : sum), 0);
      expect(several(["a", "b"])).toBeCloseTo(160 / 539, 12);
      const triplets = several(["a", "b", "c"]);
      const spread = Math.sqrt((triplets * (1 - triplets)) / 137);
      expect(Math.abs(73 / 137 - triplets)).toBeLessThan(2.5 * spread);
    });
  });
});

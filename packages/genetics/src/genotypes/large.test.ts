import fc from "fast-check";
import { describe, expect, test } from "vitest";
import inbreedingSeries from "../../published/inbreeding/published_inbreeding.json";
import { inbreeding } from "../kinship/inbreeding.ts";
import { kinship } from "../kinship/kinship.ts";
import { numberedPedigree } from "../kinship/numbered-pedigree.ts";
import { POLLED } from "../loci/polled.ts";
import { aFact, aMember } from "../testing.ts";
import { type AnimalId, animalId } from "../vocabulary.ts";
import { inferGenotypes } from "./infer-genotypes.ts";
import type { Member, PedigreeProblem } from "../pedigree/pedigree-problem.ts";

const P = 0.3;
/** Heterozygotes among founders. */
const FOUNDERS_PP = 2 * P * (1 - P);
const herd = (members: readonly Member[]): PedigreeProblem => ({
  locus: POLLED,
  members,
  frequencies: { default: [P, 1 - P] },
});

/** What inbreeding says of heterozygotes: 2pq (1 - F). */
function expectHeterozygosityOfInbreeding(members: readonly Member[]) {
  const rows = members.map((m) => ({ id: m.id, dam: m.dam, sire: m.sires[0]?.sire }));
  const known = inbreeding(numberedPedigree(rows).pedigree);
  const answer = inferGenotypes(herd(members));
  expect(answer.method).toBe("exact");
  for (const { id } of members) {
    const f = known.f[known.pedigree.positions.get(id) ?? -1] ?? Number.NaN;
    expect(answer.belief(id).genotypes[1]).toBeCloseTo(FOUNDERS_PP * (1 - f), 10);
  }
  return { known, answer };
}

describe("large and entangled pedigrees", () => {
  test("[GE-4] a ring of 40: each generation mates neighbours, for four generations", () => {
    const ring = Array.from({ length: 40 }, (_, i) => aMember(`0.${i}`));
    const members = [1, 2, 3].reduce<Member[]>(
      (all, g) => [
        ...all,
        ...ring.map((_, i) =>
          aMember(`${g}.${i}`, {
            dam: `${g - 1}.${i - (i % 2)}`,
            sire: `${g - 1}.${(i + 1 - (i % 2) + 2 * (g % 2)) % 40}`,
          }),
        ),
      ],
      ring,
    );
    expectHeterozygosityOfInbreeding(members);
  });

  test("[GE-4] a family of 4,000 half sibs, each seen, one of them horned beyond doubt", () => {
    const kids = Array.from({ length: 4000 }, (_, i) =>
      aMember(`k${i}`, { sire: "buck", evidence: [aFact(`f${i}`, i === 3999 ? [0, 0, 1] : [1, 1, 0.001])] }),
    );
    const answer = inferGenotypes(herd([aMember("buck", { evidence: [aFact("buck", [1, 1, 0])] }), ...kids]));
    expect(answer.method).toBe("exact");
    expect(answer.belief(animalId("buck")).genotypes).toEqual([0, 1, 0]);
  });

  test("[GE-16] a book of 1,200, twelve bucks at a time: answered, and its error named", () => {
    const members: Member[] = [];
    for (let i = 0; i < 1200; i++) {
      const year = Math.floor(i / 150);
      const place = i % 150;
      const dam = year === 0 ? undefined : `a${(year - 1) * 150 + 12 + ((place * 7 + year) % 100)}`;
      const sire = year === 0 ? undefined : `a${(year - 1) * 150 + ((place * 5 + year) % 12)}`;
      const look = (i * 37) % 100 < 35 ? [1, 1, 0.01] : [0.01, 0.01, 1];
      members.push(
        aMember(`a${i}`, {
          ...(dam && sire ? { dam, sire } : {}),
          evidence: i % 3 === 0 ? [aFact(`f${i}`, look)] : [],
        }),
      );
    }
    const answer = inferGenotypes(herd(members));
    expect(answer.method).toBe("approximate");
    expect(answer.error).toBeGreaterThan(0);
    expect(answer.error).toBeLessThan(0.2);
    for (const { id } of members.slice(0, 50)) {
      const { genotypes } = answer.belief(id);
      expect(genotypes.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9);
    }
  });

  describe("laws", () => {
    test("[GE-1] with nothing seen, heterozygotes are as inbreeding says, and a planned kid's as kinship says", () => {
      const anyPedigree = fc.array(fc.tuple(fc.nat(), fc.nat()), { minLength: 2, maxLength: 14 });
      fc.assert(
        fc.property(anyPedigree, fc.nat(), fc.nat(), (rows, i, j) => {
          const bucks: string[] = [];
          const does: string[] = [];
          const members = rows.map(([s, d], at) => {
            const [sire, dam] = [bucks[s % (bucks.length + 1)], does[d % (does.length + 1)]];
            (at % 2 === 0 ? bucks : does).push(`a${at}`);
            return aMember(`a${at}`, { ...(sire ? { sire } : {}), ...(dam ? { dam } : {}) });
          });
          const { known, answer } = expectHeterozygosityOfInbreeding(members);
          const place = (id: AnimalId) => known.pedigree.positions.get(id) ?? -1;
          const [sire, dam] = [animalId(bucks[i % bucks.length] ?? ""), animalId(does[j % does.length] ?? "")];
          const phi = kinship(known, place(sire), place(dam));
          expect(answer.kid(sire, dam)[1]).toBeCloseTo(FOUNDERS_PP * (1 - phi), 10);
        }),
        { numRuns: 40 },
      );
    });
  });

  describe("published", () => {
    test("[GE-1] full sibs mated for 20 generations: heterozygotes fall as the printed inbreeding rises", () => {
      const series = inbreedingSeries.series.fullSib.F_from_first_sib_mating;
      const members = [aMember("b0"), aMember("d0")];
      for (let g = 1; g <= series.length + 1; g++)
        for (const sex of ["b", "d"]) members.push(aMember(`${sex}${g}`, { sire: `b${g - 1}`, dam: `d${g - 1}` }));
      const answer = inferGenotypes(herd(members));
      series.forEach((f, t) => {
        expect(answer.belief(animalId(`b${t + 2}`)).genotypes[1]).toBeCloseTo(FOUNDERS_PP * (1 - f), 10);
      });
    });
  });
});

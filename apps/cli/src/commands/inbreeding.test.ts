import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Diversity } from "@pollard/advice";
import { describe, expect, test } from "vitest";
import { typed } from "../testing.ts";

const PUBLISHED = join(import.meta.dirname, "../../../../packages/genetics/published/inbreeding");
const fileOf = (name: string): unknown => JSON.parse(readFileSync(join(PUBLISHED, name), "utf8"));
const asked = (csv: string, options = "") => typed(`inbreeding p.csv ${options}`, { files: { "p.csv": csv } });

/** Animals 1 to n with their parents by number, 0 = unknown, as a table whose rows stand backwards. */
const tableOf = (sire: readonly number[], dam: readonly number[]): string => {
  const rows = sire.map((s, i) => `${i + 1},${s === 0 ? "" : s},${dam[i] === 0 ? "" : dam[i]}`);
  return `id,sire,dam\n${rows.toReversed().join("\n")}\n`;
};

const FULL_SIBS = "dam,id,sire\n,S,\n,D,\nD,A,S\nD,B,S\nB,K,A\n";

describe("inbreeding", () => {
  test("[CL-31] a kid of full sibs has F of one quarter, whatever the order of columns and rows", async () => {
    const { exit, out, err } = await asked(FULL_SIBS, "--pairs A:B,S:D");
    expect([exit, err]).toEqual([0, ""]);
    expect(out).toMatch(/^K +0\.250000$/m);
    expect(out).toMatch(/^A +B +0\.250000$/m);
    expect(out).toMatch(/^S +D +0\.000000$/m);
  });

  test("[CL-31] what does not fit is named and the rest has its answer", async () => {
    const { exit, out } = await asked("id,sire,dam\nA,B,\nB,A,\nC,,\nC,A,\nE,X,\n");
    expect(exit).toBe(1);
    expect(out).toMatch(/would be its own ancestor/);
    expect(out).toMatch(/C is there twice; the first row counts/);
    expect(out).toMatch(/X, parent of E, has no row; taken as a founder/);
  });

  test("[CL-31] a dam used as a sire, and a parent of both sexes, are named and left out as sire", async () => {
    const { exit, out } = await asked("id,sire,dam\nA,,\nB,,\nC,A,B\nD,B,A\n");
    expect(exit).toBe(1);
    expect(out).toMatch(/B .*(kidded|dam)/);
  });

  test("[CL-31] founders, ancestors and effective numbers of those without young, or of a group that is named", async () => {
    const { exit, out } = await asked(FULL_SIBS, "--founders");
    expect(exit).toBe(0);
    expect(out).toMatch(/^S +0\.500000$/m);
    expect(out).toMatch(/^Effective founders +2\.000$/m);
    expect(out).toMatch(/^Mean inbreeding +0\.250000$/m);
    expect(out).toMatch(/^Complete generations +2\.000$/m);
    const sibs = await asked(FULL_SIBS, "--group A,B");
    expect(sibs.out).toMatch(/^Mean kinship +0\.375000$/m);
    expect(sibs.out).toMatch(/^Effective size +not to be told$/m);
  });

  test.each([
    [FULL_SIBS, "--group A,Z", /There is no animal "Z"/],
    ["sire,dam\nA,B\n", "", /needs the columns id, sire and dam/],
    ["id,sire,dam\n,A,B\n", "", /Line 2 of "p.csv" has no id/],
    [FULL_SIBS, "--pairs A-B", /--pairs takes pairs such as A:B/],
    [FULL_SIBS, "--pairs A:Z", /There is no animal "Z"/],
    ['id,sire,dam\n"A,,\n', "", /a quote does not close/],
  ])("[CL-31] one plain sentence for what cannot be read: %j %s", async (csv, options, sentence) => {
    const { exit, out, err } = await asked(csv, options);
    expect([exit, out]).toEqual([2, ""]);
    expect(err).toMatch(sentence);
    expect(err.trim().split("\n")).toHaveLength(1);
  });

  describe("published", () => {
    const { examples } = fileOf("published_inbreeding.json") as {
      examples: readonly { id: string; sire?: readonly number[]; dam?: readonly number[]; F?: readonly number[] }[];
    };
    const random = fileOf("inbreeding_random_50.json") as (typeof examples)[number];
    const whole = [...examples, { ...random, id: "random pedigree of 50 (numpy, dense tabular method)" }].filter(
      (e) => e.sire !== undefined && e.dam !== undefined && e.F !== undefined,
    );

    test.each(whole)("[CL-31] $id", async ({ sire = [], dam = [], F = [] }) => {
      const { out } = await asked(tableOf(sire, dam), "--json");
      const answer = JSON.parse(out) as { inbreeding: readonly { id: string; F: number }[] };
      const found = new Map(answer.inbreeding.map((each) => [each.id, each.F]));
      F.forEach((f, i) => expect(Math.abs((found.get(String(i + 1)) ?? Number.NaN) - f)).toBeLessThan(1e-12));
    });

    // Constructed pedigrees in exact fractions; effective founders after [lacy1989], ancestors after [boichard1997].
    interface Founders {
      readonly cases: readonly {
        readonly id: string;
        readonly sire: readonly number[];
        readonly dam: readonly number[];
        readonly population: readonly number[];
        readonly founderContributions: Readonly<Record<string, string>>;
        readonly f_e: string;
        readonly f_a: string;
        readonly meanKinshipInclSelf: string;
        readonly f_ge_coancestry_1_over_2MK: string;
        readonly meanF: string;
      }[];
    }
    const fraction = (text: string): number => {
      const [over = 0, under = 1] = text.split("/").map(Number);
      return over / under;
    };

    test.each((fileOf("founders.json") as Founders).cases)("[CL-31] founders of $id", async (c) => {
      const { out } = await asked(tableOf(c.sire, c.dam), `--group ${c.population.join(",")} --json`);
      const { diversity } = JSON.parse(out) as { diversity: Diversity<string> };
      expect(diversity.effectiveFounders).toBeCloseTo(fraction(c.f_e), 12);
      expect(diversity.effectiveAncestors).toBeCloseTo(fraction(c.f_a), 12);
      expect(diversity.meanKinship).toBeCloseTo(fraction(c.meanKinshipInclSelf), 12);
      expect(diversity.founderGenomes).toBeCloseTo(fraction(c.f_ge_coancestry_1_over_2MK), 12);
      expect(diversity.meanInbreeding).toBeCloseTo(fraction(c.meanF), 12);
      const shares = new Map(diversity.founders.map(({ who, share }) => [who, share]));
      for (const [id, share] of Object.entries(c.founderContributions))
        expect(shares.get(id)).toBeCloseTo(fraction(share), 12);
    });

    test("[CL-31] there are published pedigrees to be reproduced", () => {
      expect(whole.length).toBeGreaterThan(2);
    });
  });
});

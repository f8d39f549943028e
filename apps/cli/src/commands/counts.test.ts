import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { typed } from "../testing.ts";

/** What is printed elsewhere of such counts, each file with its source. */
const PUBLISHED = join(import.meta.dirname, "../../../../packages/genetics/published/statistics");
const fileOf = (name: string): unknown => JSON.parse(readFileSync(join(PUBLISHED, name), "utf8"));

interface Plain {
  readonly share?: { readonly low: number; readonly high: number; readonly against?: { readonly asStrange: number } };
  readonly buck?: { readonly PP: number; readonly missedIfCarrier: number };
  readonly linkage?: {
    readonly lods: readonly { readonly theta: number; readonly lod: number }[];
    readonly best: { readonly theta: number; readonly lod: number };
  };
}
const plain = async (options: string): Promise<Plain> =>
  JSON.parse((await typed(`counts ${options} --json`)).out) as Plain;

describe("counts", () => {
  test("[CL-60] five horned kids of 25: the shares that are not ruled out, and how strange it is at a quarter", async () => {
    const { exit, out, err } = await typed("counts --seen 5:25 --expected 1/4");
    expect([exit, err]).toEqual([0, ""]);
    expect(out).toMatch(/sure: from +0\.068/);
    expect(out).toMatch(/^to +0\.407/m); // printed by influentialpoints.com: 0.068 to 0.407
    expect(out).toMatch(/^Counts that are no surprise +2 to 11$/m);
  });

  test("[CL-60] three answers at once, in tables", async () => {
    const { exit, out } = await typed("counts --seen 1:4 --polled 5:pp,12:Pp --prior 1/2 --linked 1:8");
    expect(exit).toBe(0);
    expect(out).toMatch(/^Kids of pp dams that show a carrier, 0\.95 sure +5$/m);
    expect(out).toMatch(/^Kids of Pp dams that show a carrier, 0\.99 sure +17$/m);
    expect(out).toMatch(/^most: 0\.1250 +1\.099206$/m);
  });

  test.each([
    ["", /needs --seen, --polled, --linked or --groups\./],
    ["--seen 5", /--seen takes two whole numbers/],
    ["--seen 5:4", /more hits than kids/],
    ["--seen 5:10 --expected 4", /--expected is a share between 0 and 1/],
    ["--seen 5:10 --expected 1/0", /--expected is a share/],
    ["--seen -1:10", /--seen takes two whole numbers/],
    ["--seen 1:99999999", /whole numbers up to 1000000/],
    ["--expected 1/4 --linked 1:8", /--expected goes with --seen/],
    ["--prior 1/4 --linked 1:8", /--prior goes with --polled/],
    ["--polled 5:PP", /--polled takes kids by their dams, pp, Pp, daughters/],
    ["--polled 5:toString", /--polled takes kids by their dams/],
    ["--linked 9:8", /more recombinants than kids/],
    ["--linked 1:8 --groups 1:7", /two ways; give one/],
  ])("[CL-60] one sentence for what cannot be counted: %s", async (options, says) => {
    const { exit, out, err } = await typed(`counts ${options}`);
    expect([exit, out]).toEqual([2, ""]);
    expect(err).toMatch(says);
    expect(err.trimEnd()).not.toContain("\n");
  });

  describe("published", () => {
    test("[CL-60] intervals and tails as R, mpmath and scipy have them", async () => {
      const { clopperPearson_x_n_conf_lower_upper: intervals, pvalues_x_n_p0_alternative_p: tails } = fileOf(
        "binomial_exact.json",
      ) as {
        readonly clopperPearson_x_n_conf_lower_upper: readonly (readonly [number, number, number, number, number])[];
        readonly pvalues_x_n_p0_alternative_p: readonly (readonly [number, number, number, string, number])[];
      };
      expect(intervals.length).toBeGreaterThan(10);
      for (const [hits, kids, confidence, low, high] of intervals) {
        const { share } = await plain(`--seen ${hits}:${kids} --confidence ${confidence}`);
        expect(share?.low).toBeCloseTo(low, 9);
        expect(share?.high).toBeCloseTo(high, 9);
      }
      const twoSided = tails.filter(([, , , side]) => side === "two.sided");
      expect(twoSided.length).toBeGreaterThan(5);
      for (const [hits, kids, expected, , want] of twoSided)
        expect((await plain(`--seen ${hits}:${kids} --expected ${expected}`)).share?.against?.asStrange).toBeCloseTo(
          want,
          9,
        );
    });

    test("[CL-60] a buck proven by his kids, and two recessive with three carrier dams: 27 in 256 if he carries", async () => {
      const { rows } = fileOf("published_progeny_test.json") as {
        readonly rows: readonly { readonly posterior_PP_prior_1_3: Readonly<Record<string, number>> }[];
      };
      const dams = ["pp", "Pp", "daughters"];
      expect(rows).toHaveLength(dams.length);
      for (const [i, row] of rows.entries())
        for (const [kids, want] of Object.entries(row.posterior_PP_prior_1_3))
          expect((await plain(`--polled ${kids}:${dams[i] ?? ""}`)).buck?.PP).toBeCloseTo(want, 10);
      expect((await plain("--polled 2:pp,3:Pp")).buck?.missedIfCarrier).toBe(27 / 256);
    });

    test("[CL-60] log odds as another program has them, phase unknown", async () => {
      const { phaseUnknown } = fileOf("published_lod.json") as {
        readonly phaseUnknown: readonly {
          readonly a: number;
          readonly b: number;
          readonly thetas: readonly number[];
          readonly fastlink_mlink: readonly number[];
        }[];
      };
      expect(phaseUnknown.length).toBeGreaterThan(3);
      for (const { a, b, thetas, fastlink_mlink: printed } of phaseUnknown) {
        const { linkage } = await plain(`--groups ${a}:${b}`);
        expect(linkage?.lods.map(({ theta }) => theta)).toEqual(thetas);
        // Printed to six decimals and good to 2e-6.
        linkage?.lods.forEach(({ lod }, k) => expect(Math.abs(lod - (printed[k] ?? Number.NaN))).toBeLessThan(3e-6));
        for (const { lod } of linkage?.lods ?? []) expect(linkage?.best.lod).toBeGreaterThanOrEqual(lod);
      }
    });
  });
});

import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { typed } from "../testing.ts";

/** Problems with their answers from outside (each names its source), as the genetics package keeps them. */
const PUBLISHED = join(import.meta.dirname, "../../../../packages/genetics/published/genotypes");

interface PublishedProblem {
  readonly expected: {
    readonly logLikelihood?: number;
    readonly posterior: Readonly<Record<string, readonly number[]>> | null;
  };
}

/** A buck, a horned doe and one kid; the kid's head as told. */
const problem = (kid: string, more: object = {}) =>
  JSON.stringify({
    model: { founderFreq_p: "0.5" },
    penetranceClasses: { seen: { PP: 0, Pp: 0, pp: 1 } },
    animals: [
      { id: "Rook", sire: null, dam: null, sex: "M", observations: [{ class: "seen", phenotype: "hornless" }] },
      { id: "Hazel", sire: null, dam: null, sex: "F", observations: [{ class: "seen", phenotype: "horned" }] },
      { id: "Burr", sire: "Rook", dam: "Hazel", sex: "M", observations: [{ class: "seen", phenotype: kid }] },
    ],
    ...more,
  });

const asked = (text: string, options = "") => typed(`genotypes p.json ${options}`, { files: { "p.json": text } });

describe("genotypes", () => {
  test("[CL-11] a horned kid of a horned doe proves its polled sire a carrier", async () => {
    const { exit, out, err } = await asked(problem("horned"));
    expect([exit, err]).toEqual([0, ""]);
    expect(out).toMatch(/^Rook {2,}0\.000000 {2}1\.000000 {2}0\.000000$/m);
  });

  test("[CL-3] the plain data say the same", async () => {
    const { out } = await asked(problem("horned"), "--json");
    expect(JSON.parse(out)).toMatchObject({
      genotypes: ["PP", "Pp", "pp"],
      method: "exact",
      possible: true,
      posterior: { Rook: [0, 1, 0], Hazel: [0, 0, 1], Burr: [0, 0, 1] },
    });
  });

  test("[CL-11] a parent that is not there is taken as unknown, said, and ends with 1", async () => {
    const { exit, out } = await asked(problem("horned").replace('"sire":"Rook"', '"sire":"Nobody"'));
    expect(exit).toBe(1);
    expect(out).toContain("Nobody, parent of Burr, is not in the file; taken as unknown.");
  });

  test("[CL-11] an id that is there twice has one line, and is named", async () => {
    const one = { id: "Rook", sire: null, dam: null };
    const { exit, out } = await asked(problem("horned", { animals: [one, one] }));
    expect(exit).toBe(1);
    expect(out.match(/^Rook {2,}/gm)).toHaveLength(1);
    expect(out).toContain("Rook is there twice; the first one counts.");
  });

  test.each([
    ["not JSON at all", /"p\.json" is not JSON\./],
    ["[]", /is no pedigree problem: the file should be an object\./],
    [problem("horned", { model: { founderFreq_p: "often" } }), /model\.founderFreq_p should be a number from 0 to 1\./],
    [problem("scurred"), /animals\[2\]\.observations\[0\]\.phenotype should be one of horned, hornless\./],
  ])("[CL-2] %s", async (text, says) => {
    const { exit, out, err } = await asked(text);
    expect([exit, out]).toEqual([2, ""]);
    expect(err).toMatch(says);
    expect(err.trimEnd()).not.toContain("\n");
  });

  test("[CL-2] a folder, a file that is not there, one that may not be read", async () => {
    const at = (failure: "a-folder" | "not-allowed") => typed("genotypes p", { files: { p: { failure } } });
    expect(await at("a-folder")).toMatchObject({ exit: 2, err: '"p" is a folder, not a file.\n' });
    expect(await at("not-allowed")).toMatchObject({ exit: 3, out: "" });
    expect(await typed("genotypes p")).toMatchObject({ exit: 2, err: 'There is no file "p".\n' });
    expect(await typed("genotypes")).toMatchObject({ exit: 2, out: "" });
  });

  describe("published", () => {
    const files = readdirSync(PUBLISHED).filter((name) => /^geno_(?!12)/.test(name));

    test("[CL-11] there are published problems to ask", () => expect(files.length).toBeGreaterThanOrEqual(5));

    test.each(files)("[CL-11] %s, as a person would ask it", async (name) => {
      const text = readFileSync(join(PUBLISHED, name), "utf8");
      const { expected } = JSON.parse(text) as PublishedProblem;
      const { exit, out } = await asked(text, "--json");
      const answer = JSON.parse(out) as {
        possible: boolean;
        logLikelihood: number;
        posterior: Record<string, number[]>;
      };
      expect(answer.possible).toBe(expected.posterior !== null);
      expect(exit).toBe(expected.posterior === null ? 1 : 0);
      // The reference prints twelve decimals.
      for (const [id, chances] of Object.entries(expected.posterior ?? {}))
        for (const [i, chance] of chances.entries()) expect(answer.posterior[id]?.[i]).toBeCloseTo(chance, 9);
      if (expected.logLikelihood !== undefined) expect(answer.logLikelihood).toBeCloseTo(expected.logLikelihood, 9);
    });
  });
});

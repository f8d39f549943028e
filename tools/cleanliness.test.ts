import { describe, expect, test } from "vitest";
import { codeFiles, files, isTest, textOf } from "./repository.ts";

const TEXT_FILE = /\.(ts|tsx|mjs|md|json|jsonl|css|html|svg|webmanifest|yml)$|^\.(npmrc|nvmrc|gitignore)$|^\.ci\//;

/** What explains a working day or one person's computer rather than the project, each as a pattern. */
const TRACES: Readonly<Record<string, RegExp>> = {
  "a package registry's host": new RegExp(
    `\\b(${["registry", "npmjs"].join("\\.")}|${["deb", "debian"].join("\\.")})\\b`,
  ),
  "a path of one computer": /(?<![\w.])\/(home|Users|root|work|farm)\/\w/,
  "the number of an issue": /\b(issue|ticket|PR) ?#?\d+\b/i,
  "a promise instead of the work": new RegExp(
    `\\b(${["TO", "DO"].join("")}|${["FIX", "ME"].join("")}|${["HA", "CK"].join("")})\\b`,
  ),
};

/** What code under packages/ may not reach for: a clock, a source of chance, a screen, a network, a disk. */
const OUTSIDE_WORLD =
  /\bnew Date\b|\bDate\.|\bMath\.random\b|\bconsole\.|\bfetch\(|\bprocess\.|\blocalStorage\b|\bindexedDB\b|\bsetTimeout\b|\bperformance\./;

const withoutComments = (text: string): string => text.replaceAll(/\/\*[\s\S]*?\*\/|(?<!:)\/\/.*$/gm, "");

describe("cleanliness", () => {
  test("[HO-8] no file holds a trace of how or where it was made", () => {
    const found = files
      .filter((path) => TEXT_FILE.test(path) && path !== "package-lock.json")
      .flatMap((path) =>
        Object.entries(TRACES)
          .filter(([, pattern]) => pattern.test(textOf(path)))
          .map(([what, pattern]) => `${path}: ${what}: ${pattern.exec(textOf(path))?.[0]}`),
      );
    expect(found).toEqual([]);
  });

  test("[HO-8] the lock file names no host to fetch from", () => {
    expect(textOf("package-lock.json")).not.toMatch(/"resolved": "http/);
  });

  test("[HO-9] the packages reach for no clock, chance, screen, network or disk", () => {
    const found = codeFiles
      .filter((path) => path.startsWith("packages/") && !isTest(path))
      .filter((path) => OUTSIDE_WORLD.test(withoutComments(textOf(path))))
      .map((path) => `${path}: ${OUTSIDE_WORLD.exec(withoutComments(textOf(path)))?.[0]}`);
    expect(found).toEqual([]);
  });

  test("[HO-9] tests draw no chance and read no clock of their own", () => {
    const found = codeFiles
      .filter((path) => path.startsWith("packages/") && isTest(path))
      .filter((path) => /\bMath\.random\b|\bDate\.now\b|\bnew Date\(\)/.test(withoutComments(textOf(path))));
    expect(found).toEqual([]);
  });

  test("[HO-52] a browser test starts no browser, phone or hub by itself", () => {
    const browserTests = codeFiles.filter((path) => /\/e2e\/.*\.test\.ts$/.test(path));
    const taken = /\b(launchBrowser|newPhone|newProfile|startHub)\b[^;]*\} from "\.\/(?:browser|hub-process)\.ts"/;
    const found = browserTests.filter((path) => taken.test(textOf(path)));
    expect(browserTests.length).toBeGreaterThan(20);
    expect(found).toEqual([]);
  });
});

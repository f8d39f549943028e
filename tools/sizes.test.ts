import { basename, dirname } from "node:path/posix";
import { describe, expect, test } from "vitest";
import { codeFiles, files, isTest, isThere, textOf } from "./repository.ts";

/** Lines a file of each sort may have: beyond `argued` its first comment says why ("Long because …"); beyond `most` never. */
const LIMITS = {
  index: { argued: 60, most: 100 },
  test: { argued: 500, most: 900 },
  source: { argued: 400, most: 700 },
} as const;

/** Pages that stop being read when they grow. */
const PAGE_LIMITS = { "ARCHITECTURE.md": 250, "CONTRIBUTING.md": 150 } as const;

const NAMES_OF_NOTHING = new Set(["utils", "util", "helpers", "helper", "types", "common", "lib", "misc", "shared"]);
const ROLE_NAMES = /(^|-)(manager|service(?!-worker)|helper|helpers|processor|handler|utils?)(\.|-|$)/;

const lineCount = (path: string): number => textOf(path).trimEnd().split("\n").length;
const sortOf = (path: string): keyof typeof LIMITS =>
  /^packages\/[^/]+\/src\/index\.ts$/.test(path) ? "index" : isTest(path) ? "test" : "source";

const firstComment = (path: string): string => /\/\*[\s\S]*?\*\/|(?:^|\n)(?:\/\/.*\n?)+/.exec(textOf(path))?.[0] ?? "";

describe("sizes", () => {
  test("[HO-4] a long file says why in its first comment, and none is longer than can be read", () => {
    const wrong = codeFiles.flatMap((path) => {
      const { argued, most } = LIMITS[sortOf(path)];
      const lines = lineCount(path);
      const isTable = /data table/i.test(firstComment(path));
      if (lines > most && !isTable) return [`${path}: ${lines} lines, at most ${most}`];
      if (lines > argued && !/long because|data table/i.test(firstComment(path)))
        return [`${path}: ${lines} lines and no "Long because …" in its first comment`];
      return [];
    });
    expect(wrong).toEqual([]);
  });

  test("[HO-4] the pages that everyone reads stay short", () => {
    const wrong = Object.entries(PAGE_LIMITS)
      .filter(([path, most]) => isThere(path) && lineCount(path) > most)
      .map(([path]) => path);
    expect(wrong).toEqual([]);
  });

  test("[HO-5] files and folders are named for what is in them", () => {
    const wrong = files.filter((path) => {
      if (!/^(packages|apps|tools|bench)\//.test(path)) return false;
      const folders = dirname(path).split("/");
      const name = basename(path);
      const isCode = /\.(ts|tsx|mjs|css)$/.test(name);
      return (
        folders.some((folder) => NAMES_OF_NOTHING.has(folder)) ||
        (isCode && (!/^[a-z0-9]+(-[a-z0-9]+)*(\.[a-z0-9]+)*$/.test(name) || ROLE_NAMES.test(name)))
      );
    });
    expect(wrong).toEqual([]);
  });
});

import { dirname } from "node:path/posix";
import { describe, expect, test } from "vitest";
import { codeFiles, files, isTest, textOf } from "./repository.ts";
import { TAG, testNamesOf } from "./syntax.ts";

interface Rule {
  readonly id: string;
  readonly page: string;
  readonly text: string;
}

const pages = files.filter((path) => path.endsWith("/RULES.md"));

/** `- **GE-1** sentence …`, up to the next rule, heading or end. */
const rules: readonly Rule[] = pages.flatMap((page) =>
  [...textOf(page).matchAll(/^- \*\*([A-Z]{2}-\d+)\*\* ([\s\S]*?)(?=\n- \*\*|\n#|$(?![\s\S]))/gm)].map((found) => ({
    id: found[1] ?? "",
    page,
    text: (found[2] ?? "").replaceAll(/\s+/g, " ").trim(),
  })),
);

/** The files behind `Tests:` at the end of a rule, by the end of their path. */
const testsNamedIn = (text: string): readonly string[] =>
  (/Tests?: (.*)$/.exec(text)?.[1] ?? "").match(/[\w./-]+\.(?:test\.tsx?|contract\.ts)/g) ?? [];

const endsIn = (path: string, name: string): boolean => path === name || path.endsWith(`/${name}`);

const tagOf = (name: string): string | undefined => TAG.exec(name)?.[1];
const namesByFile = new Map(codeFiles.filter(isTest).map((path) => [path, testNamesOf(path)]));
const tested = new Set([...namesByFile.values()].flat().map(tagOf));

describe("rules", () => {
  test("[HO-6] the name of every test begins with its rule", () => {
    const untagged = [...namesByFile].flatMap(([path, names]) =>
      names.filter((name) => tagOf(name) === undefined).map((name) => `${path}: ${name}`),
    );
    expect(untagged).toEqual([]);
    expect(tested.size).toBeGreaterThan(20); // the reading of the test files itself works
  });

  test("[HO-6] every tag has a rule", () => {
    const known = new Set(rules.map(({ id }) => id));
    expect([...tested].filter((tag) => tag !== undefined && !known.has(tag))).toEqual([]);
  });

  test("[HO-6] every rule has a test", () => {
    expect(rules.filter(({ id }) => !tested.has(id)).map(({ id, page }) => `${page}: ${id}`)).toEqual([]);
  });

  test("[HO-6] a number names one rule, and a prefix one page", () => {
    const ids = rules.map(({ id }) => id);
    expect(ids.filter((id, i) => ids.indexOf(id) !== i)).toEqual([]);
    const homes = new Map<string, Set<string>>();
    for (const { id, page } of rules) homes.set(id.slice(0, 2), (homes.get(id.slice(0, 2)) ?? new Set()).add(page));
    expect([...homes].filter(([, where]) => where.size > 1).map(([prefix]) => prefix)).toEqual([]);
  });

  test("[HO-40] a rule names the files that show it, and each of them does", () => {
    const wrong = rules.flatMap(({ id, page, text }) => {
      const named = testsNamedIn(text);
      if (named.length === 0) return [`${id} names no file`];
      const showing = [...namesByFile].filter(([, names]) => names.some((name) => tagOf(name) === id));
      const ofPage = showing.map(([path]) => path).filter((path) => path.startsWith(`${dirname(page)}/`));
      return [
        ...named
          .filter((name) => !showing.some(([path]) => endsIn(path, name)))
          .map((name) => `${id} is not in ${name}`),
        ...ofPage.filter((path) => !named.some((name) => endsIn(path, name))).map((path) => `${id} is also in ${path}`),
      ];
    });
    expect(wrong).toEqual([]);
  });
});

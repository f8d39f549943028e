import { helpPages } from "@pollard/words";
import { describe, expect, test } from "vitest";
import { codeFiles, files, isTest, textOf } from "./repository.ts";

const KEY = /^[a-z][a-z0-9]*(-[a-z0-9]+)*$/;

/** `### key` in docs/SOURCES.md. */
const listed = [...textOf("docs/SOURCES.md").matchAll(/^### (\S+)$/gm)].map((found) => found[1] ?? "");

interface Use {
  readonly key: string;
  readonly where: string;
}

/** Keys in code (`source: "key"`), in comments and rules (`Source: key`, `[key]`), in published values and documents. */
function usesIn(path: string): readonly Use[] {
  const text = textOf(path);
  const keys = new Set<string>();
  // The catalogue of words holds sentences that speak of sources, not keys.
  if (/\.(ts|tsx)$/.test(path) && !path.startsWith("packages/words/"))
    for (const [, key] of text.matchAll(/\bsource(?::| =) "([^"]+)"/g)) keys.add(key ?? "");
  if (path.endsWith(".json"))
    for (const [, key] of text.matchAll(/"source": ?"([^"]+)"/g)) if (KEY.test(key ?? "")) keys.add(key ?? "");
  for (const [, line] of text.matchAll(/\bSources?: ([^\n]*)/g))
    for (const [, key] of (line ?? "").matchAll(/\[([^\]]+)\]/g)) if (KEY.test(key ?? "")) keys.add(key ?? "");
  for (const [, key] of text.matchAll(/\[([a-z][a-z-]*\d{4})\]/g)) keys.add(key ?? "");
  for (const key of listed) if (mentions(text, key)) keys.add(key);
  return [...keys].map((key) => ({ key, where: path }));
}

const mentions = (text: string, key: string): boolean => new RegExp(`(?<![\\w-])${key}(?![\\w-])`).test(text);

interface Figure extends Use {
  readonly checked: unknown;
}

/** The `Sourced` values that the packages' files export, found by looking at the values themselves. */
async function figuresIn(path: string): Promise<readonly Figure[]> {
  const found: Figure[] = [];
  const seen = new Set<unknown>();
  const look = (x: unknown): void => {
    if (typeof x !== "object" || x === null || seen.has(x)) return;
    seen.add(x);
    if ("value" in x && "checked" in x && "source" in x && typeof x.source === "string")
      found.push({ key: x.source, checked: x.checked, where: path });
    for (const inner of x instanceof Map ? x.values() : Object.values(x)) look(inner);
  };
  look({ ...((await import(/* @vite-ignore */ `../${path}`)) as object) });
  return found;
}

const readers = [
  ...codeFiles.filter((path) => /^(packages|apps|fixtures)\//.test(path)),
  ...files.filter((path) => /^(packages|apps|fixtures)\/.*(\.json|RULES\.md|README\.md)$/.test(path)),
  "docs/METHODS.md",
  "docs/FORMATS.md",
];
const modules = codeFiles.filter((path) => /^packages\/[^/]+\/src\//.test(path) && !isTest(path));
const figures = (await Promise.all(modules.map(figuresIn))).flat();
const uses = [...readers.flatMap(usesIn), ...figures];

describe("sources", () => {
  test("[HO-7] help inside the app leans on listed sources only", () => {
    const keys = [...new Set(helpPages.flatMap(({ sources }) => sources))];
    expect(keys.filter((key) => !listed.includes(key))).toEqual([]);
  });

  test("[HO-7] every source that a figure, rule or published value names is in docs/SOURCES.md", () => {
    const unknown = uses.filter(({ key, where }) => !isTest(where) && !listed.includes(key));
    expect(unknown.map(({ key, where }) => `${where}: ${key}`)).toEqual([]);
  });

  test("[HO-7] every entry of docs/SOURCES.md is used", () => {
    const used = new Set(uses.map(({ key }) => key));
    expect(listed.filter((key) => !used.has(key))).toEqual([]);
    expect(listed.length).toBeGreaterThan(10);
  });

  test("[HO-14] no figure rests on memory alone", () => {
    expect(figures.filter(({ checked }) => checked === "from-memory")).toEqual([]);
    const written = modules.filter(
      (path) => path !== "packages/base/src/sourced.ts" && /"from-memory"/.test(textOf(path)),
    );
    expect(written).toEqual([]);
    expect(figures.length).toBeGreaterThan(20);
  });

  test("[HO-7] a key is listed once, and is lower-case words with hyphens", () => {
    expect(listed.filter((key, i) => listed.indexOf(key) !== i || !KEY.test(key))).toEqual([]);
  });
});

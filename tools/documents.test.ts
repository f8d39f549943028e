import { basename, dirname, join, normalize } from "node:path/posix";
import { describe, expect, test } from "vitest";
import { codeFiles, files, isThere, textOf } from "./repository.ts";

const pages = files.filter((path) => path.endsWith(".md") && !path.endsWith("RULES.md"));
/** All code, and the names of its files. */
const code = codeFiles.map((path) => `${basename(path)}\n${textOf(path)}`).join("\n");

/** A path as documents name it: starting at the root, or the name of a page there. */
const PATH = /(?<![\w/.-])((?:packages|apps|tools|docs|fixtures|bench)\/[\w./*-]*\w|[A-Z]+\.md)(?![\w/])/g;

const withoutExamples = (text: string): string => text.replaceAll(/^```[\s\S]*?^```/gm, "");

describe("documents", () => {
  test("[HO-11] every path that a page names is there", () => {
    const gone = pages.flatMap((page) =>
      [...withoutExamples(textOf(page)).matchAll(PATH)]
        .map((found) => (found[1] ?? "").replace(/\/?\*.*$/, ""))
        .filter((path) => !isThere(path) && !(path.endsWith(".md") && isThere(join(dirname(page), path))))
        .filter((path) => !/\/dist\b|^RULES\.md$/.test(path)) // what is built; the pages of that name
        .map((path) => `${page}: ${path}`),
    );
    expect(gone).toEqual([]);
  });

  test("[HO-11] every command of npm that a page or a comment names is one", () => {
    const { scripts } = JSON.parse(textOf("package.json")) as { scripts: Readonly<Record<string, string>> };
    const known = new Set([...Object.keys(scripts), "ci", "install", "audit", "run"]);
    const strange = [...pages, ...codeFiles].flatMap((path) =>
      [...textOf(path).matchAll(/`npm (?:run )?([\w-]+)/g)]
        .map((found) => found[1] ?? "")
        .filter((name) => !known.has(name))
        .map((name) => `${path}: ${name}`),
    );
    expect(strange).toEqual([]);
  });

  test("[HO-11] every link leads somewhere", () => {
    const broken = pages.flatMap((page) =>
      [...textOf(page).matchAll(/\]\(([^)#]+)(?:#[^)]*)?\)/g)]
        .map((found) => found[1] ?? "")
        .filter((target) => !/^[a-z]+:/.test(target))
        .filter((target) => !isThere(normalize(join(dirname(page), target))))
        .map((target) => `${page}: ${target}`),
    );
    expect(broken).toEqual([]);
  });

  test("[HO-43] the map says of each decision what was decided against", () => {
    const decisions = files.flatMap((path) => /^docs\/decisions\/(\d{4})-/.exec(path)?.[1] ?? []);
    const listed = textOf("ARCHITECTURE.md").split("## 7.")[1] ?? "";
    expect([...listed.matchAll(/^- .*: (\d{4})\.$/gm)].map((found) => found[1])).toEqual(decisions);
    expect(decisions.length).toBeGreaterThan(10);
  });

  test("[HO-11] every name in code that the map and the methods give stands in the code", () => {
    const strange = ["ARCHITECTURE.md", "docs/METHODS.md"].flatMap((page) =>
      [...withoutExamples(textOf(page)).matchAll(/`([A-Za-z][\w]*)`/g)]
        .map((found) => found[1] ?? "")
        .filter((name) => !new RegExp(`\\b${name}\\b`).test(code) && !isThere(`tools/${name}.mjs`))
        .map((name) => `${page}: ${name}`),
    );
    expect(strange).toEqual([]);
  });
});

import { dirname, join, normalize } from "node:path/posix";
import { describe, expect, test } from "vitest";
import { codeFiles, files, isTest, isThere, textOf, workspaceOf, workspaces } from "./repository.ts";
import { importsOf } from "./syntax.ts";

/** What each layer may know of. Arrows point down only; apps never know each other. */
const BELOW: Readonly<Record<string, readonly string[]>> = {
  base: [],
  genetics: ["base"],
  husbandry: ["base", "genetics"],
  planning: ["base", "genetics", "husbandry"],
  records: ["base", "genetics", "husbandry"],
  advice: ["base", "genetics", "husbandry", "planning", "records"],
  words: ["base", "genetics", "husbandry", "planning", "records", "advice"],
  web: ["base", "genetics", "husbandry", "planning", "records", "advice", "words"],
  hub: ["base", "records"],
  cli: ["base", "genetics", "husbandry", "planning", "records", "advice", "words"],
};

/** The files whose exported names are the vocabulary that records may use of the layers below it. */
const VOCABULARY: Readonly<Record<string, string>> = {
  "@pollard/genetics": "packages/genetics/src/vocabulary.ts",
  "@pollard/husbandry": "packages/husbandry/src/heads/head-signs.ts",
};

/** `file -> import`, with the reason. A line that is no longer needed fails too. */
const EXCEPTIONS: Readonly<Record<string, string>> = {};

const layerOfName = new Map(workspaces.map(({ name, layer }) => [name, layer]));
const packageOf = (from: string): string =>
  from
    .split("/")
    .slice(0, from.startsWith("@") ? 2 : 1)
    .join("/");

const devDependencies = Object.keys(
  (JSON.parse(textOf("package.json")) as { devDependencies: Record<string, string> }).devDependencies,
);

const importersOf = (path: string): readonly string[] =>
  codeFiles.filter((other) =>
    importsOf(other).some(({ from }) => from.startsWith(".") && join(dirname(other), from) === path),
  );

/** A test, or a file that only tests use. */
function isForTests(path: string): boolean {
  if (isTest(path)) return true;
  const importers = importersOf(path);
  return importers.length > 0 && importers.every(isForTests);
}

/** Why a file may not have an import, or `undefined` where it may. */
function fault(path: string, from: string, names: readonly string[]): string | undefined {
  const here = workspaceOf(path);
  if (!here) return undefined;
  if (from.startsWith(".")) {
    const target = normalize(join(dirname(path), from.replace(/\?.*$/, "")));
    const isLauncher = target.startsWith("tools/") && !path.startsWith(`${here.folder}/src/`); // bin/, e2e/
    const isHerd = here.layer === "web" && /^fixtures\/herds\/.*\.jsonl$/.test(target); // shipped with the app
    if (!target.startsWith(`${here.folder}/`) && !isLauncher && !isHerd)
      return "leaves its package by a path; import the package by name";
    return /\.(ts|tsx|mjs|json|jsonl|css|svg)$/.test(target)
      ? undefined
      : "a relative import names its file with its ending";
  }
  if (from.startsWith("node:")) return here.folder.startsWith("packages/") ? "packages/ know no Node" : undefined;
  const name = packageOf(from);
  const layer = layerOfName.get(name);
  if (layer === undefined) {
    const allowed =
      here.dependencies.includes(name) ||
      ((isForTests(path) || path.endsWith(".config.ts")) && devDependencies.includes(name));
    return allowed ? undefined : `${name} is not among the dependencies of ${here.name}`;
  }
  if (layer === here.layer) return from === name ? "a package imports itself by path, not by name" : undefined;
  if (!(BELOW[here.layer] ?? []).includes(layer)) return `${here.layer} may not know ${layer}`;
  if (!here.dependencies.includes(name)) return `${name} is not among the dependencies of ${here.name}`;
  if (from !== name && !isTest(path)) return "only tests use what a package has for tests";
  if (here.layer === "records" && !isTest(path)) {
    const vocabulary = VOCABULARY[name];
    const strange = vocabulary === undefined ? [] : names.filter((n) => !exportedBy(vocabulary).has(n));
    if (strange.length > 0) return `records uses only the vocabulary of ${layer}, not ${strange.join(", ")}`;
  }
  return undefined;
}

function exportedBy(path: string): ReadonlySet<string> {
  return new Set(
    [...textOf(path).matchAll(/^export (?:const|type|interface|function) (\w+)/gm)].map((m) => m[1] ?? ""),
  );
}

const faults = new Map<string, string>();
for (const path of codeFiles)
  for (const { from, names } of importsOf(path)) {
    const why = fault(path, from, names);
    if (why !== undefined) faults.set(`${path} -> ${from}`, why);
  }

/** The files that a file names, of its own package. */
const named = new Map(
  codeFiles.map((path) => [
    path,
    importsOf(path)
      .filter(({ from }) => from.startsWith("."))
      .map(({ from }) => normalize(join(dirname(path), from))),
  ]),
);

/** One way round from a file back to itself, by the files that name each other. */
function circleOf(start: string): readonly string[] | undefined {
  const cameFrom = new Map<string, string>();
  const open = [start];
  for (let at = open.pop(); at !== undefined; at = open.pop())
    for (const next of named.get(at) ?? []) {
      if (next === start) {
        const way = [at];
        for (let back = cameFrom.get(at); back !== undefined; back = cameFrom.get(back)) way.unshift(back);
        return [...way, start];
      }
      if (next !== start && !cameFrom.has(next)) {
        cameFrom.set(next, at);
        open.push(next);
      }
    }
  return undefined;
}

describe("layering", () => {
  test("[HO-1] every import points down, and is declared", () => {
    expect([...faults].filter(([line]) => !(line in EXCEPTIONS))).toEqual([]);
  });

  test("[HO-50] no files name each other in a circle, not even for a type", () => {
    expect(codeFiles.map(circleOf).filter((circle) => circle !== undefined)).toEqual([]);
  });

  test("[HO-1] an exception that nothing needs is removed", () => {
    expect(Object.keys(EXCEPTIONS).filter((line) => !faults.has(line))).toEqual([]);
  });

  test("[HO-1] package.json names no layer that may not be known", () => {
    const wrong = workspaces.flatMap(({ layer, dependencies }) =>
      dependencies
        .map((name) => layerOfName.get(name))
        .filter((other) => other !== undefined && !(BELOW[layer] ?? []).includes(other))
        .map((other) => `${layer} -> ${other}`),
    );
    expect(wrong).toEqual([]);
    expect(workspaces.map(({ layer }) => layer).sort()).toEqual(Object.keys(BELOW).sort());
  });

  test("[HO-2] a package below the apps takes in no package without a page that says why", () => {
    const decisions = files.filter((path) => /^docs\/decisions\/.*\.md$/.test(path)).map(textOf);
    const unargued = workspaces
      .filter(({ folder }) => folder.startsWith("packages/"))
      .flatMap(({ dependencies }) => dependencies.filter((name) => !layerOfName.has(name)))
      .filter((name) => !decisions.some((page) => page.includes(name)));
    expect(unargued).toEqual([]);
  });

  test("[HO-3] every place where a ledger is kept passes the store's contract", () => {
    const keepers = ["packages/records", "apps/hub", "apps/web"].filter((folder) => isThere(`${folder}/src`));
    const proven = files.filter((path) => /\.test\.tsx?$/.test(path) && textOf(path).includes("entryStoreContract("));
    expect(keepers.filter((folder) => !proven.some((path) => path.startsWith(`${folder}/`)))).toEqual([]);
  });
});

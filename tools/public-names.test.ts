import { dirname, join } from "node:path/posix";
import { describe, expect, test } from "vitest";
import { codeFiles, textOf, workspaceOf } from "./repository.ts";
import { importsOf, type Node, nodesOf } from "./syntax.ts";

/** What a package hands out through its index file. */
interface PublicName {
  readonly name: string;
  readonly isValue: boolean;
  readonly hasComment: boolean;
}

/** Genetics is a library of its own: what it can be asked is more than what this product asks. */
const WHOLE = new Set(["packages/genetics"]);

const indexes = codeFiles.filter((path) => /^packages\/[^/]+\/src\/index\.ts$/.test(path));

const nodes = (x: unknown): readonly Node[] => (Array.isArray(x) ? (x as Node[]) : []);
const nameOf = (x: unknown): string => String((x as Node)["name"]);

/** The names a file declares for others. A type that is made of the list just above it shares the comment of the list. */
function declared(path: string): readonly PublicName[] {
  const text = textOf(path);
  const [program] = [...nodesOf(path)];
  const found: PublicName[] = [];
  for (const node of nodes(program?.["body"])) {
    const declaration = node["declaration"] as Node | null | undefined;
    if (node.type !== "ExportNamedDeclaration" || declaration === null || declaration === undefined) continue;
    const isValue = !declaration.type.startsWith("TS");
    const names =
      declaration.type === "VariableDeclaration"
        ? nodes(declaration["declarations"]).map((one) => nameOf(one["id"]))
        : [nameOf(declaration["id"])];
    const before = text.slice(0, node["start"] as number).trimEnd();
    const of = /= \(typeof (\w+)\)\[number\];$/.exec(text.slice(node["start"] as number, node["end"] as number))?.[1];
    const last = found.at(-1);
    const hasComment = before.endsWith("*/") || (of !== undefined && last?.name === of && last.hasComment);
    for (const name of names) found.push({ name, isValue, hasComment });
  }
  return found;
}

/** What an index file hands out, by name; what it hands out as types only is no value. */
function handedOut(index: string): readonly PublicName[] {
  const [program] = [...nodesOf(index)];
  const found = new Map<string, PublicName>();
  for (const node of nodes(program?.["body"])) {
    const from = (node["source"] as Node | null | undefined)?.["value"];
    if (typeof from !== "string") continue;
    const all = declared(join(dirname(index), from));
    const wanted =
      node.type === "ExportAllDeclaration"
        ? undefined
        : new Set(nodes(node["specifiers"]).map((one) => nameOf(one["local"])));
    for (const one of all) {
      if (wanted !== undefined && !wanted.has(one.name)) continue;
      const isValue = one.isValue && (node["exportKind"] !== "type" || found.get(one.name)?.isValue === true);
      found.set(one.name, { ...one, isValue });
    }
  }
  return [...found.values()];
}

const publicNames = new Map(indexes.map((index) => [index, handedOut(index)]));

/** Every name that is taken from a package by another part of the project. */
const taken = new Map<string, Set<string>>();
for (const path of codeFiles.filter((file) => !file.endsWith(".mjs")))
  for (const { from, names } of importsOf(path)) {
    const index = /^@pollard\/(\w+)$/.exec(from)?.[1];
    if (index === undefined) continue;
    const key = `packages/${index}/src/index.ts`;
    taken.set(key, new Set([...(taken.get(key) ?? []), ...names]));
  }

describe("public names", () => {
  test("[HO-41] each says in a comment what it answers", () => {
    const silent = [...publicNames].flatMap(([index, names]) =>
      names.filter(({ hasComment }) => !hasComment).map(({ name }) => `${index}: ${name}`),
    );
    expect(silent).toEqual([]);
    expect([...publicNames.values()].flat().length).toBeGreaterThan(300); // the reading itself works
  });

  test("[HO-42] what a package hands out, another part takes", () => {
    const unasked = [...publicNames]
      .filter(([index]) => !WHOLE.has(workspaceOf(index)?.folder ?? ""))
      .flatMap(([index, names]) =>
        names
          .filter(({ name, isValue }) => isValue && taken.get(index)?.has(name) !== true)
          .map(({ name }) => `${index}: ${name}`),
      );
    expect(unasked).toEqual([]);
    expect(taken.size).toBe(indexes.length);
  });
});

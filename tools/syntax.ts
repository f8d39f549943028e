import { extname } from "node:path";
import { parseAst } from "rolldown/parseAst";
import { textOf } from "./repository.ts";

/** A node of the syntax tree, as far as the tests about the repository look at it. */
export interface Node {
  readonly type: string;
  readonly [key: string]: unknown;
}

const isNode = (x: unknown): x is Node => typeof x === "object" && x !== null && typeof (x as Node).type === "string";

/** Every node of a file's syntax tree, outermost first. */
export function* nodesOf(path: string): Generator<Node> {
  const lang = extname(path) === ".tsx" ? "tsx" : extname(path) === ".ts" ? "ts" : "js";
  const program: unknown = parseAst(textOf(path), { lang }, path);
  if (isNode(program)) yield* under(program);
}

function* under(node: Node): Generator<Node> {
  yield node;
  for (const value of Object.values(node))
    for (const child of Array.isArray(value) ? value : [value]) if (isNode(child)) yield* under(child);
}

/** One import, re-export or dynamic import. */
export interface Import {
  readonly from: string;
  /** Names as the other module exports them; `*` for all. */
  readonly names: readonly string[];
}

const text = (x: unknown): string | undefined =>
  isNode(x) && x.type === "Literal" && typeof x["value"] === "string" ? x["value"] : undefined;

const nameIn = (specifier: unknown): string => {
  if (!isNode(specifier)) return "*";
  const named = specifier["imported"] ?? (specifier.type === "ExportSpecifier" ? specifier["local"] : undefined);
  return isNode(named) && typeof named["name"] === "string" ? named["name"] : "*";
};

/** Everything a file takes from other modules. */
export function importsOf(path: string): readonly Import[] {
  const found: Import[] = [];
  for (const node of nodesOf(path)) {
    const from = text(node["source"]);
    if (from === undefined || !/^(Import|Export)/.test(node.type)) continue;
    const specifiers = Array.isArray(node["specifiers"]) ? node["specifiers"] : undefined;
    found.push({ from, names: specifiers?.map(nameIn) ?? ["*"] });
  }
  return found;
}

/**
 * The names of the tests in a file, as far as they are written out; `${…}` stands for what is filled in.
 *
 * A test that is given its name by a wrapper of the file's own is found where the wrapper is called, by its tag.
 */
export function testNamesOf(path: string): readonly string[] {
  const names: string[] = [];
  for (const node of nodesOf(path)) {
    if (node.type !== "CallExpression") continue;
    const [first, second] = node["arguments"] as readonly unknown[];
    const name = text(first) ?? template(first);
    const isNamedElsewhere = isNode(first) && first.type === "Identifier";
    const isTest = isTestCall(node["callee"]) && second !== undefined && !isNamedElsewhere; // one argument: a table
    if (isTest || (name !== undefined && TAG.test(name))) names.push(name ?? "?");
  }
  return names;
}

/** How the name of every test begins: its rule, in brackets. */
export const TAG: RegExp = /^\[([A-Z]{2}-\d+)\] \S/;

function isTestCall(callee: unknown): boolean {
  if (!isNode(callee)) return false;
  if (callee.type === "Identifier") return callee["name"] === "test" || callee["name"] === "it";
  if (callee.type === "MemberExpression") return isTestCall(callee["object"]);
  return callee.type === "CallExpression" && isTestCall(callee["callee"]);
}

function template(x: unknown): string | undefined {
  if (!isNode(x) || x.type !== "TemplateLiteral") return undefined;
  const parts = x["quasis"] as readonly { readonly value: { readonly cooked: string } }[];
  return parts.map((part) => part.value.cooked).join("${…}");
}

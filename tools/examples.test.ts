import { compileFunction } from "node:vm";
import { transformWithOxc } from "vite";
import { describe, expect, test } from "vitest";
import { codeFiles, isTest, textOf, workspaceOf } from "./repository.ts";

/**
 * Runs the `@example` blocks of doc comments. A line `call // value` is checked: the value is an expression too.
 * A block may use what its own file, its package and the layers below export.
 */
interface Example {
  readonly path: string;
  readonly lines: readonly string[];
}

const sources = codeFiles.filter((path) => /^packages\/[^/]+\/src\//.test(path) && !isTest(path));

const examples: readonly Example[] = sources.flatMap((path) =>
  [...textOf(path).matchAll(/\/\*\*[\s\S]*?\*\//g)]
    .flatMap((comment) => comment[0].split(/@example/).slice(1))
    .map((block) => ({
      path,
      lines: block
        .split("\n")
        .map((line) =>
          line
            .replace(/^\s*\*? ?/, "")
            .replace(/\*\/$/, "")
            .trimEnd(),
        )
        .filter((line) => line !== "" && line !== "/"),
    })),
);

/** Every checked expression goes through `check(got, want)`; the others run as they stand. */
function bodyOf(lines: readonly string[]): { readonly body: string; readonly checks: number } {
  let pending = "";
  let checks = 0;
  const out: string[] = [];
  for (const line of lines) {
    const found = /^(.*?);?\s*\/\/ (.+)$/.exec(line);
    if (found) {
      out.push(`check((${pending}${found[1]}), (${(found[2] ?? "").replaceAll(/(-?\d+\.\d+)…/g, 'begins("$1")')}));`);
      pending = "";
      checks++;
    } else if (line.endsWith(";")) {
      out.push(pending + line);
      pending = "";
    } else pending += `${line}\n`;
  }
  return { body: out.join("\n") + pending, checks };
}

/** A figure written short: `21.4…` is any that begins so. Vitest asks it whether a value will do. */
class Begins {
  readonly $$typeof = Symbol.for("jest.asymmetricMatcher");
  readonly #digits: string;
  constructor(digits: string) {
    this.#digits = digits;
  }
  asymmetricMatch(got: unknown): boolean {
    return String(got).startsWith(this.#digits);
  }
}
const begins = (digits: string): Begins => new Begins(digits);

/** Figures may differ by rounding only: the doc comment writes them as a reader would, to six figures. */
function check(got: unknown, want: unknown): void {
  expect(rounded(got)).toEqual(rounded(want));
}

function rounded(x: unknown): unknown {
  if (typeof x === "number") return Number(x.toPrecision(6));
  if (Array.isArray(x)) return x.map(rounded);
  if (x instanceof Map) return new Map([...x].map(([key, value]) => [key, rounded(value)]));
  if (x instanceof Begins || x instanceof Set || x === null || typeof x !== "object") return x;
  return Object.fromEntries(Object.entries(x).map(([key, value]) => [key, rounded(value)]));
}

async function namesFor(path: string): Promise<Readonly<Record<string, unknown>>> {
  const here = workspaceOf(path);
  const below = (here?.dependencies ?? []).filter((name) => name.startsWith("@pollard/"));
  const modules = await Promise.all([
    ...below.map((name) => import(/* @vite-ignore */ `../packages/${name.slice("@pollard/".length)}/src/index.ts`)),
    import(/* @vite-ignore */ `../${here?.folder}/src/index.ts`),
    import(/* @vite-ignore */ `../${path}`),
  ]);
  return Object.assign({}, ...modules) as Readonly<Record<string, unknown>>;
}

describe("examples", () => {
  test("[HO-10] there are examples to run", () => {
    expect(examples.length).toBeGreaterThan(0);
  });

  test.each(examples)("[HO-10] the example in $path holds", async ({ path, lines }) => {
    const { body, checks } = bodyOf(lines);
    expect(checks, "an example shows at least one value").toBeGreaterThan(0);
    const names = await namesFor(path);
    const { code } = await transformWithOxc(body, "example.ts", { target: "es2023" });
    const run = compileFunction(code, ["check", "begins", ...Object.keys(names)]) as (...given: unknown[]) => void;
    run(check, begins, ...Object.values(names));
  });
});

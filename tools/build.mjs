import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { bundle } from "./bundle.mjs";
import { installIfNeeded } from "./installed.mjs";

/**
 * Builds the three apps, each only when something it is made of has changed.
 *
 * What an app was built from is kept as one digest in its `dist`, so an unchanged app costs a few milliseconds.
 */
const SHARED = ["packages", "package-lock.json", "tsconfig.base.json", "tools/build.mjs", "tools/bundle.mjs"];

/** @typedef {{ entry: string, from: readonly string[], output: string, make: (root: string) => Promise<void> }} Part */

/** @type {Readonly<Record<string, Part>>} */
const PARTS = {
  web: {
    entry: "apps/web/index.html",
    from: [...SHARED, "apps/web", "fixtures/herds"],
    output: "apps/web/dist/index.html",
    make: async (root) => {
      const { build } = await import("vite");
      await build({ root: join(root, "apps/web"), logLevel: "error" });
    },
  },
  hub: {
    entry: "apps/hub/src/main.ts",
    from: [...SHARED, "apps/hub"],
    output: "apps/hub/dist/main.mjs",
    make: (root) => bundleApp(root, PARTS["hub"]),
  },
  cli: {
    entry: "apps/cli/src/main.ts",
    from: [...SHARED, "apps/cli", "fixtures/herds"],
    output: "apps/cli/dist/pollard.mjs",
    make: (root) => bundleApp(root, PARTS["cli"]),
  },
};

/** @param {string} root @param {Part | undefined} part */
async function bundleApp(root, part) {
  if (part === undefined) throw new Error("no such part");
  await bundle({ input: join(root, part.entry), output: join(root, part.output), external: ["libsql", "highs", "pg"] });
}

/** Files that no build reads: tests, built things, what the browser tests leave behind. */
const NOT_BUILT = /^(node_modules|dist|e2e|published)$|\.md$|\.test\.tsx?$/;

/** @param {string} root @param {string} path @param {import("node:crypto").Hash} hash */
function digestInto(root, path, hash) {
  const full = join(root, path);
  let names;
  try {
    names = readdirSync(full).sort();
  } catch {
    if (existsSync(full)) hash.update(path).update("\0").update(readFileSync(full)).update("\0");
    return;
  }
  for (const name of names) if (!NOT_BUILT.test(name)) digestInto(root, `${path}/${name}`, hash);
}

/** @param {string} root @param {Part} part */
function digestOf(root, part) {
  const hash = createHash("sha256");
  for (const path of part.from) digestInto(root, path, hash);
  return hash.digest("hex");
}

/**
 * @param {string} root
 * @param {readonly string[]} [names] which of `web`, `hub`, `cli`; all without it
 * @returns {Promise<readonly string[]>} those that had to be built
 * @throws what stopped a build, with the name of the app
 */
export async function buildIfNeeded(root, names = Object.keys(PARTS)) {
  const built = [];
  for (const name of names) {
    const part = PARTS[name];
    if (part === undefined) throw new Error(`nothing is called ${name}; there are ${Object.keys(PARTS).join(", ")}`);
    const digest = digestOf(root, part);
    const mark = join(root, dirname(part.output), ".built-from");
    if (existsSync(join(root, part.output)) && existsSync(mark) && readFileSync(mark, "utf8") === digest) continue;
    console.error(`Building ${name} …`);
    try {
      await part.make(root);
    } catch (error) {
      throw new Error(`${name} could not be built: ${error instanceof Error ? error.message : String(error)}`, {
        cause: error,
      });
    }
    writeFileSync(mark, digest);
    built.push(name);
  }
  return built;
}

/**
 * The same for a command: what stopped a build is told in one sentence, and the program ends.
 *
 * @param {string} root
 * @param {readonly string[]} [names]
 */
export async function buildOrExit(root, names) {
  try {
    return await buildIfNeeded(root, names);
  } catch (error) {
    console.error(error instanceof Error ? error.message : error);
    process.exit(3);
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const root = dirname(dirname(fileURLToPath(import.meta.url)));
  installIfNeeded(root);
  const names = process.argv.slice(2);
  await buildOrExit(root, names.length > 0 ? names : undefined);
}

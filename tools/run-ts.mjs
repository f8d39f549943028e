import { mkdirSync, rmSync } from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { bundle } from "./bundle.mjs";
import { installIfNeeded } from "./installed.mjs";

const root = dirname(dirname(fileURLToPath(import.meta.url)));

/**
 * Loads a TypeScript file in Node as it stands in the repository: bundled next to node_modules, imported, and removed.
 *
 * @param {string} file
 * @returns {Promise<Record<string, unknown>>} what it exports
 */
export async function loadTs(file) {
  const folder = join(root, "node_modules", ".pollard-run");
  const output = join(folder, `${basename(file, ".ts")}-${process.pid}-${Math.random().toString(36).slice(2)}.mjs`);
  mkdirSync(folder, { recursive: true });
  try {
    await bundle({ input: resolve(file), output, keepPlaces: true });
    return await import(pathToFileURL(output).href);
  } finally {
    rmSync(output, { force: true });
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const [file, ...rest] = process.argv.slice(2);
  if (file === undefined) {
    console.error("Usage: node tools/run-ts.mjs FILE.ts [arguments]");
    process.exit(2);
  }
  installIfNeeded(root);
  process.argv = [process.execPath, resolve(file), ...rest];
  await loadTs(file);
}

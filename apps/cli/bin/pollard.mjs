#!/usr/bin/env node
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { buildIfNeeded } from "../../../tools/build.mjs";

/** Runs the terminal's one built file, and builds it first where it is missing or its sources have changed. */
const root = dirname(dirname(dirname(dirname(fileURLToPath(import.meta.url)))));
try {
  await buildIfNeeded(root, ["cli"]);
} catch (cause) {
  console.error(
    `Pollard's terminal could not be built; \`npm ci\` in ${root} usually mends that. (${String(cause).split("\n")[0]})`,
  );
  process.exit(3);
}
await import(pathToFileURL(join(root, "apps/cli/dist/pollard.mjs")).href);

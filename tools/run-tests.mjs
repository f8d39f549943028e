import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { installIfNeeded } from "./installed.mjs";

/**
 * `npm test`: installs what is missing, then types, lint, format, build and every test, a browser's included.
 * Closes with one line of counts: each check counts as one, each test as one.
 */
const root = dirname(dirname(fileURLToPath(import.meta.url)));
process.chdir(root);
installIfNeeded(root);

const bin = (/** @type {string} */ name) => join("node_modules", ".bin", name);
let passed = 0;
let failed = 0;
let skipped = 0;

/** @param {string} what @param {string} command @param {string[]} args */
function check(what, command, args) {
  console.log(`\n== ${what}`);
  const run = spawnSync(command, args, { stdio: "inherit", shell: process.platform === "win32" });
  if (run.status === 0) passed++;
  else {
    failed++;
    console.error(`FAILED: ${what}`);
  }
}

check("types", process.execPath, ["tools/typecheck.mjs"]);
check("lint", bin("oxlint"), ["--type-aware", "--deny-warnings"]);
check("format", bin("biome"), ["format", "."]);
check("build", process.execPath, ["tools/build.mjs"]);

const folder = mkdtempSync(join(tmpdir(), "pollard-tests-"));
const report = join(folder, "report.json");
console.log("\n== tests");
const run = spawnSync(bin("vitest"), ["run", "--reporter=default", "--reporter=json", `--outputFile.json=${report}`], {
  stdio: "inherit",
  shell: process.platform === "win32",
});
try {
  const counts = JSON.parse(readFileSync(report, "utf8"));
  passed += counts.numPassedTests;
  failed += counts.numFailedTests;
  skipped += counts.numPendingTests + counts.numTodoTests;
} catch (error) {
  console.error("The test runner left no report.", error instanceof Error ? error.message : error);
  failed++;
}
rmSync(folder, { recursive: true, force: true });
if (run.status !== 0 && failed === 0) failed++;

console.log(`\n${passed} passed, ${failed} failed, ${skipped} skipped`);
process.exit(failed === 0 ? 0 : 1);

import { spawnSync } from "node:child_process";

/** Every part of the repository under the compiler settings of tsconfig.base.json; the core sees no DOM and no Node. */
const PROJECTS = ["packages", "apps/web", "apps/hub", "apps/cli", "tools"];

let failed = false;
for (const project of PROJECTS) {
  const run = spawnSync(process.execPath, ["node_modules/typescript/bin/tsc", "-p", project], { stdio: "inherit" });
  if (run.status !== 0) failed = true;
}
process.exit(failed ? 1 : 0);

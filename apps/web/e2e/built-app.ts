import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import type { TestProject } from "vitest/node";
import { type RunningHub, startHub } from "./hub-process.ts";

declare module "vitest" {
  interface ProvidedContext {
    readonly address: string;
  }
}

let hub: RunningHub | undefined;

/** Builds the app and the hub where they are not built, and starts one hub for all browser tests. */
export async function setup(project: TestProject): Promise<void> {
  const root = fileURLToPath(new URL("../../../", import.meta.url));
  // The test runner's own setting would make a build for testing, without the service worker.
  const { NODE_ENV: _, ...env } = process.env;
  const built = spawnSync(process.execPath, ["tools/build.mjs", "web", "hub"], { cwd: root, stdio: "inherit", env });
  if (built.status !== 0) throw new Error("the app could not be built");
  hub = await startHub();
  project.provide("address", hub.address);
}

export async function teardown(): Promise<void> {
  await hub?.stop();
}

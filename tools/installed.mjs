import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

const [MAJOR, MINOR] = process.versions.node.split(".").map(Number);
const NEEDED = "20.19";

/**
 * Sees to it that node_modules holds what package-lock.json says, installing when it does not.
 *
 * The lock file's digest is left inside node_modules after an install, so that the next start costs nothing.
 * @param {string} root
 */
export function installIfNeeded(root) {
  if ((MAJOR ?? 0) < 20 || (MAJOR === 20 && (MINOR ?? 0) < 19)) {
    console.error(
      `Pollard needs Node ${NEEDED} or newer; this is ${process.versions.node}. Please install a newer Node.`,
    );
    process.exit(3);
  }
  const digest = createHash("sha256")
    .update(readFileSync(join(root, "package-lock.json")))
    .digest("hex");
  const mark = join(root, "node_modules", ".pollard-installed");
  if (existsSync(mark) && readFileSync(mark, "utf8") === digest) return;
  console.log("Installing what Pollard needs (the first time this takes a minute) …");
  const npm = process.env["npm_execpath"];
  const [command, args] = npm ? [process.execPath, [npm]] : ["npm", []];
  const run = spawnSync(command, [...args, "ci", "--no-audit", "--no-fund", "--loglevel=error"], {
    cwd: root,
    stdio: "inherit",
    shell: !npm && process.platform === "win32",
  });
  if (run.status !== 0) {
    console.error("The install did not finish. Check the network and run the same command again; nothing was lost.");
    process.exit(3);
  }
  writeFileSync(mark, digest);
}

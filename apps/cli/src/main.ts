import { spawn } from "node:child_process";
import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { type Day, day, err, ok, type Result } from "@pollard/base";
import { run } from "./run.ts";
import type { FileFailure, World } from "./world.ts";

/** Binds the terminal to this machine. Built into apps/cli/dist, as deep as this folder, so the root is found from both. */
const root = join(import.meta.dirname, "../../..");

const FAILURES: Readonly<Record<string, FileFailure>> = {
  ENOENT: "not-there",
  ENOTDIR: "not-there",
  EISDIR: "a-folder",
  EACCES: "not-allowed",
  EPERM: "not-allowed",
};

async function readText(path: string): Promise<Result<string, FileFailure>> {
  try {
    return ok(await readFile(path, "utf8"));
  } catch (cause) {
    return err(FAILURES[(cause as NodeJS.ErrnoException).code ?? ""] ?? "unreadable");
  }
}

async function readBytes(path: string): Promise<Result<Uint8Array, FileFailure>> {
  try {
    return ok(await readFile(path));
  } catch (cause) {
    return err(FAILURES[(cause as NodeJS.ErrnoException).code ?? ""] ?? "unreadable");
  }
}

async function writeText(path: string, text: string): Promise<Result<void, FileFailure>> {
  try {
    await writeFile(path, text, "utf8");
    return ok(undefined);
  } catch (cause) {
    return err(FAILURES[(cause as NodeJS.ErrnoException).code ?? ""] ?? "unreadable");
  }
}

/** The calendar day where this machine stands. */
function today(): Day {
  const now = new Date();
  const two = (n: number): string => String(n).padStart(2, "0");
  return day(`${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`);
}

/** Runs the hub as a process of its own, hands signals on to it, and gives its exit code; being told to stop is no failure. */
function runHub(argv: readonly string[]): Promise<number> {
  const hub = spawn(process.execPath, [join(root, "tools/start.mjs"), ...argv], { stdio: "inherit" });
  let asked: "to stop" | undefined;
  for (const signal of ["SIGINT", "SIGTERM"] as const)
    process.on(signal, () => {
      asked = "to stop";
      // At a terminal Ctrl+C reaches the hub by itself; a second one would cut its closing short.
      if (signal === "SIGTERM" || !process.stdin.isTTY) hub.kill(signal);
    });
  return new Promise((resolve) => {
    hub.on("error", () => resolve(3));
    hub.on("exit", (code) => resolve(code ?? (asked === undefined ? 3 : 0)));
  });
}

const world: World = {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
  readText,
  readBytes,
  writeText,
  now: () => `${new Date().toISOString().slice(0, 19)}Z`,
  today,
  demoFolder: join(root, "fixtures/herds"),
  runHub,
};

/** A reader that stops reading (`| head`) is no failure. */
process.stdout.on("error", (cause: NodeJS.ErrnoException) => {
  if (cause.code !== "EPIPE") throw cause;
});

process.exitCode = await run(process.argv.slice(2), world);

import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { rmSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { present } from "@pollard/base";
import type { PullReply, PushReply } from "@pollard/records";
import { rolldown } from "rolldown";
import { afterAll, beforeAll } from "vitest";

/** A hub that runs as a process of its own. */
export interface RunningHub {
  readonly child: ChildProcess;
  /** How it ended, and everything it said. */
  readonly ended: Promise<{ readonly code: number | null; readonly out: string; readonly problems: string }>;
  /** The address it says it is ready at; throws if it ends before. */
  readonly address: () => Promise<string>;
  readonly said: () => string;
}

/**
 * The hub as a program, bundled as `npm start` does it: called at the top of a test file, it gives how to run it.
 *
 * What still runs after the tests is killed, and the bundle removed.
 */
export function hubProgram() {
  const file = fileURLToPath(new URL(`../../dist/main-under-test-${process.pid}.mjs`, import.meta.url));
  const running: ChildProcess[] = [];
  beforeAll(async () => {
    const bundle = await rolldown({
      input: fileURLToPath(new URL("../main.ts", import.meta.url)),
      external: [/^node:/, "libsql", "pg"],
      platform: "node",
    });
    await bundle.write({ file, format: "esm", codeSplitting: false });
    await bundle.close();
  });
  afterAll(() => {
    for (const child of running) child.kill("SIGKILL");
    rmSync(file, { force: true });
  });

  const run = (args: readonly string[], env: Readonly<Record<string, string>> = {}): RunningHub => {
    const { DATABASE_URL: _, ...rest } = process.env;
    const child = spawn(process.execPath, [file, ...args], {
      stdio: ["ignore", "pipe", "pipe"],
      env: { ...rest, ...env },
    });
    running.push(child);
    let out = "";
    let problems = "";
    child.stdout.on("data", (piece: Buffer) => (out += piece.toString()));
    child.stderr.on("data", (piece: Buffer) => (problems += piece.toString()));
    const ended = once(child, "close").then(([code]) => ({ code: code as number | null, out, problems }));
    const address = async () => {
      while (!/ready at \S+/.test(out)) {
        const first = await Promise.race([once(child.stdout, "data").then(() => undefined), ended]);
        if (first) throw new Error(`the hub ended with ${first.code}: ${first.problems}`);
      }
      return present(/ready at (\S+)/.exec(out)?.[1], "address");
    };
    return { child, ended, address, said: () => out };
  };
  return { run, file };
}

const entriesAt = (address: string, herd: string): string => `${address}/api/herds/${herd}/entries`;

/** Hands entries to a hub; throws where it refused all of them or could not be reached. */
export async function pushTo(address: string, entries: readonly unknown[], herd = "herd"): Promise<PushReply> {
  const body = JSON.stringify({ exchange: 1, entries });
  const headers = { "content-type": "application/json" };
  const response = await fetch(entriesAt(address, herd), { method: "POST", headers, body });
  if (!response.ok) throw new Error(`${response.status} ${await response.text()}`);
  return (await response.json()) as PushReply;
}

/** One answer to a pull. */
export async function pullFrom(address: string, after: number, herd = "herd"): Promise<PullReply> {
  const response = await fetch(`${entriesAt(address, herd)}?after=${after}`);
  if (!response.ok) throw new Error(`${response.status} ${await response.text()}`);
  return (await response.json()) as PullReply;
}

/** The ids of everything a hub has of a herd, in its order. */
export async function idsAt(address: string, herd = "herd"): Promise<readonly string[]> {
  const ids: string[] = [];
  for (let after = 0; ; ) {
    const page = await pullFrom(address, after, herd);
    for (const entry of page.entries as { readonly id: string }[]) ids.push(entry.id);
    if (page.more === "no") return ids;
    after = page.next;
  }
}

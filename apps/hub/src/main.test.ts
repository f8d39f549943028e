import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { mkdtempSync, rmSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { present } from "@pollard/base";
import type { PullReply, PushReply } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import { rolldown } from "rolldown";
import { afterAll, beforeAll, describe, expect, test } from "vitest";

/** The hub as a program: bundled as `npm start` does it, run as a process of its own. */
const program = fileURLToPath(new URL(`../dist/main-under-test-${process.pid}.mjs`, import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "pollard-hub-"));
const running: ChildProcess[] = [];

beforeAll(async () => {
  const bundle = await rolldown({
    input: fileURLToPath(new URL("main.ts", import.meta.url)),
    external: [/^node:/, "libsql", "pg"],
    platform: "node",
  });
  await bundle.write({ file: program, format: "esm", codeSplitting: false });
  await bundle.close();
});
afterAll(() => {
  for (const child of running) child.kill("SIGKILL");
  rmSync(program, { force: true });
  rmSync(folder, { recursive: true, force: true });
});

function run(args: readonly string[]) {
  const child = spawn(process.execPath, [program, ...args], { stdio: ["ignore", "pipe", "pipe"] });
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
}

const note = (text: string) => anEntry("note", { text });
const entriesAt = (address: string) => `${address}/api/herds/herd/entries`;

async function push(address: string, entries: readonly unknown[]): Promise<PushReply> {
  const body = JSON.stringify({ exchange: 1, entries });
  const headers = { "content-type": "application/json" };
  const response = await fetch(entriesAt(address), { method: "POST", headers, body });
  return (await response.json()) as PushReply;
}

async function everyId(address: string): Promise<ReadonlySet<string>> {
  const ids = new Set<string>();
  for (let after = 0; ; ) {
    const page = (await (await fetch(`${entriesAt(address)}?after=${after}`)).json()) as PullReply;
    for (const entry of page.entries as { readonly id: string }[]) ids.add(entry.id);
    if (page.more === "no") return ids;
    after = page.next;
  }
}

describe("the hub as a program", () => {
  test("[HU-10] it says its address, answers there, and ends cleanly when asked", async () => {
    for (const signal of ["SIGTERM", "SIGINT"] as const) {
      const hub = run(["--port", "0", "--data", join(folder, "clean")]);
      const address = await hub.address();
      expect(address).toMatch(/^http:\/\/localhost:\d+$/);
      expect((await fetch(`${address}/api/health`)).status).toBe(200);
      hub.child.kill(signal);
      expect(await hub.ended).toMatchObject({ code: 0, problems: "" });
    }
  });

  test("[HU-10] a taken port is left alone: the next free one is used, and that is said", async () => {
    const other = createServer().listen(0, "127.0.0.1");
    await once(other, "listening");
    const taken = (other.address() as { port: number }).port;
    const hub = run(["--port", String(taken), "--data", join(folder, "taken")]);
    const address = await hub.address();
    expect(Number(address.split(":").at(-1))).toBeGreaterThan(taken);
    expect(hub.said()).toContain(`Port ${taken} is taken`);
    hub.child.kill("SIGTERM");
    await hub.ended;
    other.close();
  });

  test("[HU-10] it binds to this computer only", async () => {
    const refused = await run(["--host", "0.0.0.0", "--data", join(folder, "host")]).ended;
    expect(refused).toMatchObject({ code: 2, out: "" });
    expect(refused.problems).toContain("this computer only");
  });

  test.each([
    [["--port", "goat"], 2],
    [["--port", "70000"], 2],
    [["--goats"], 2],
    [["extra"], 2],
    [["--port", "0", "--data", program], 3],
    [["--help"], 0],
  ])("[HU-10] %j is answered with a sentence and %d, never a stack", async (args, code) => {
    const end = await run(args).ended;
    expect(end.code).toBe(code);
    expect(end.problems + end.out).not.toMatch(/\n\s+at /);
    expect((end.problems + end.out).length).toBeGreaterThan(20);
  });

  test("[HU-9] killed in the middle of writing, again and again, it has everything it acknowledged", async () => {
    const args = ["--port", "0", "--data", join(folder, "killed")];
    const acknowledged = new Set<string>();
    for (const afterPushes of [3, 11, 2, 17, 7]) {
      const hub = run(args);
      const address = await hub.address();
      const there = await everyId(address);
      expect([...acknowledged].filter((id) => !there.has(id))).toEqual([]);
      let answered = 0;
      const writers = Array.from({ length: 3 }, async () => {
        while (hub.child.exitCode === null && hub.child.signalCode === null) {
          const entries = [note("a"), note("b"), note("c")];
          try {
            const { verdicts } = await push(address, entries);
            entries.forEach((entry, n) => verdicts[n]?.verdict === "accepted" && acknowledged.add(entry.id));
          } catch {
            return; // the hub was killed before it answered: nothing was promised
          }
          if (++answered === afterPushes) hub.child.kill("SIGKILL");
        }
      });
      await Promise.all([...writers, hub.ended]);
    }
    const last = run(args);
    const there = await everyId(await last.address());
    expect([...acknowledged].filter((id) => !there.has(id))).toEqual([]);
    expect(acknowledged.size).toBeGreaterThan(100);
    last.child.kill("SIGTERM");
    await last.ended;
  });
});

import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

/** A hub of its own for a test: a free port, an empty folder. */
export interface RunningHub {
  readonly address: string;
  stop(): Promise<void>;
}

const program = fileURLToPath(new URL("../../hub/dist/main.mjs", import.meta.url));

/** Starts the built hub, and waits until it says where it is. */
export async function startHub(more: readonly string[] = []): Promise<RunningHub> {
  const data = mkdtempSync(join(tmpdir(), "pollard-hub-"));
  const hub = spawn(process.execPath, [program, "--port", "0", "--data", data, ...more], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  const address = await addressOf(hub);
  return {
    address,
    stop: async () => {
      const ended = new Promise((settle) => hub.once("exit", settle));
      hub.kill();
      await ended;
      rmSync(data, { recursive: true, force: true });
    },
  };
}

function addressOf(hub: ChildProcess): Promise<string> {
  return new Promise((settle, fail) => {
    hub.once("exit", (code) => fail(new Error(`the hub ended with ${code}`)));
    hub.stdout?.on("data", (said: Buffer) => {
      const found = /http:\/\/\S+/.exec(said.toString());
      if (found) settle(found[0].replace(/\/$/, ""));
    });
  });
}

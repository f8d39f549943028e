import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { type Day, day, err, ok } from "@pollard/base";
import { run } from "./run.ts";
import type { FileFailure, World } from "./world.ts";

/** The folder of the invented herds, from the root of the project. */
export const DEMO_FOLDER = join(import.meta.dirname, "../../../fixtures/herds");

/** What a command printed, and how it ended. */
export interface Printed {
  readonly exit: number;
  readonly out: string;
  readonly err: string;
  /** Arguments of every start of the hub. */
  readonly hubs: readonly (readonly string[])[];
  /** Files that were written, by name. */
  readonly written: ReadonlyMap<string, string>;
}

/** A small world for one command: some files by name, a day, and a hub that ends with a code. */
export interface SmallWorld {
  readonly files?: Readonly<Record<string, string | { readonly failure: FileFailure }>>;
  readonly today?: Day;
  readonly hubExit?: number;
}

/** Runs a command as typed, in a small world, and gives what it printed. */
export async function typed(line: string | readonly string[], small: SmallWorld = {}): Promise<Printed> {
  let out = "";
  let complaints = "";
  const hubs: (readonly string[])[] = [];
  const written = new Map<string, string>();
  const world: World = {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      complaints += text;
    },
    async readText(path) {
      if (path.startsWith(DEMO_FOLDER)) return readFile(path, "utf8").then(ok, () => err("not-there"));
      const file = small.files?.[path];
      if (file === undefined) return err("not-there");
      return typeof file === "string" ? ok(file) : err(file.failure);
    },
    async readBytes(path) {
      const text = await this.readText(path);
      return text.ok ? ok(new TextEncoder().encode(text.value)) : text;
    },
    async writeText(path, text) {
      const there = small.files?.[path];
      if (typeof there === "object") return err(there.failure);
      written.set(path, text);
      return ok(undefined);
    },
    now: () => "2026-03-18T06:30:00Z",
    today: () => small.today ?? day("2026-03-18"),
    demoFolder: DEMO_FOLDER,
    async runHub(argv) {
      hubs.push(argv);
      return small.hubExit ?? 0;
    },
  };
  const exit = await run(typeof line === "string" ? line.split(" ").filter((word) => word !== "") : line, world);
  return { exit, out, err: complaints, hubs, written };
}

import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";

const BIN = join(import.meta.dirname, "../bin/pollard.mjs");
const folder = mkdtempSync(join(tmpdir(), "pollard-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Runs the terminal as a person's shell would, in a folder that is not the project's. */
function shell(...argv: readonly string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [BIN, ...argv], { cwd: folder, encoding: "utf8" });
  return { exit: status, out: stdout, err: stderr.replace(/^Building cli …\n/, "") };
}

describe("the terminal as a program", () => {
  test("[CL-1] an answer, a no, a wrong command, with their exit codes", () => {
    const done = shell("today", "--demo", "demo", "--on", "2026-03-18");
    expect([done.exit, done.err]).toEqual([0, ""]);
    expect(done.out).toContain("Ring the vet about Moth");
    expect(shell("chekc")).toEqual({
      exit: 2,
      out: "",
      err: 'There is no command "chekc"; `pollard help` lists them.\n',
    });
  });

  test("[CL-2] files as a real disk has them: none, a folder, a table", () => {
    expect(shell("today", "none.jsonl")).toEqual({ exit: 2, out: "", err: 'There is no file "none.jsonl".\n' });
    expect(shell("today", ".")).toMatchObject({ exit: 2, out: "" });
    writeFileSync(join(folder, "goats.csv"), "id,name\nhazel,Hazel\n");
    expect(shell("today", "goats.csv").err).toBe(
      '"goats.csv" is no herd file: it looks like a table of comma-separated values.\n',
    );
  });

  test("[CL-16] what export writes, the next command reads", () => {
    const { out } = shell("export", "--demo", "demo", "--as", "jsonl", "--on", "2026-03-18");
    writeFileSync(join(folder, "backup.jsonl"), out);
    const again = shell("check", "backup.jsonl", "--on", "2026-03-18");
    expect(again.exit).toBe(1);
    expect(again).toEqual(shell("check", "--demo", "demo", "--on", "2026-03-18"));
  });
});

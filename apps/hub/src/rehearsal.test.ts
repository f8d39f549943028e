import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { anEntry } from "@pollard/records/testing";
import { afterAll, expect, test } from "vitest";
import { onEachEngine } from "./testing/engines.ts";
import { hubProgram, idsAt, pushTo } from "./testing/hub-program.ts";

const { run } = hubProgram();
const backups = mkdtempSync(join(tmpdir(), "pollard-rehearsal-"));
afterAll(() => rmSync(backups, { recursive: true, force: true }));

onEachEngine("the day the disk dies", ({ engine, newPlace }) => {
  test("[HU-18] a hub makes its backup, everything is lost, a new hub reads it in: the herd is there", async () => {
    const to = join(backups, engine);
    const place = async () => {
      const { folder, address } = await newPlace();
      const env = address === undefined ? undefined : { DATABASE_URL: address };
      return { folder, run: (args: readonly string[]) => run(["--data", folder, ...args], env) };
    };
    const before = await place();
    const entries = Array.from({ length: 40 }, (_, n) => anEntry("note", { text: `note ${n}` }));
    const first = before.run(["--port", "0"]);
    await pushTo(await first.address(), entries);
    first.child.kill("SIGTERM");
    await first.ended;

    const hub = before.run(["--port", "0", "--log", "--backup-to", to, "--backup-every", "1h"]);
    const address = await hub.address();
    while (!hub.said().includes("Backup made")) await pause(20);
    const metrics = await (await fetch(`${address}/metrics`)).text();
    expect(metrics).toContain('pollard_backups_total{end="done"} 1\n');
    expect(metrics).toMatch(/\npollard_last_backup_seconds \d+\n/);
    expect(metrics).toContain("\npollard_database_up 1\n");
    expect(metrics).toContain("\npollard_entries_kept 40\n");
    hub.child.kill("SIGKILL");
    const lines = (await hub.ended).out.trimEnd().split("\n");
    expect(lines.map((line) => (JSON.parse(line) as { what: string }).what)).toEqual(["said", "said", "request"]);
    rmSync(before.folder, { recursive: true, force: true });

    const after = await place();
    const [name = ""] = readdirSync(to);
    const restored = await after.run(["--restore", join(to, name)]).ended;
    expect(restored).toMatchObject({ code: 0, problems: "" });
    expect(restored.out).toContain("Herds in the backup: 1. Entries: 40;");
    const again = after.run(["--port", "0"]);
    expect(await idsAt(await again.address())).toEqual(entries.map(({ id }) => id));
    again.child.kill("SIGTERM");
    await again.ended;

    const wrong = await after.run(["--restore", join(to, "not-there")]).ended;
    expect(wrong).toMatchObject({ code: 3, out: "" });
    expect(wrong.problems).not.toMatch(/\n\s+at /);
  });
});

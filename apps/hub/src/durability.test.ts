import { execFileSync } from "node:child_process";
import { readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { anEntry } from "@pollard/records/testing";
import { sql } from "kysely";
import pg from "pg";
import { afterAll, describe, expect, test } from "vitest";
import { openDatabase } from "./store/open-database.ts";
import { onEachEngine, type PlaceUnderTest } from "./testing/engines.ts";
import { hubProgram, idsAt, pullFrom, pushTo } from "./testing/hub-program.ts";
import {
  arrived,
  freshDatabase,
  postgresPrograms,
  type PostgresServer,
  startPostgres,
  stopPostgres,
} from "./testing/postgres-server.ts";

/** Hubs as processes of their own, killed and crowded; what they acknowledged is looked for afterwards. */
const { run } = hubProgram();
const note = () => anEntry("note", { text: "rain" });

function startAt(place: Pick<PlaceUnderTest, "folder" | "address">) {
  const env = place.address === undefined ? undefined : { DATABASE_URL: place.address };
  return run(["--port", "0", "--data", place.folder], env);
}

/** After how many answers the hub is killed, in the middle of the pushes that are under way then. */
const KILLED_AFTER = [3, 11, 2, 17, 7, 1, 13, 5, 19, 4, 23, 6, 9, 2, 15, 8, 12, 1, 10, 14];

onEachEngine("a hub that is killed", ({ newPlace }) => {
  test("[HU-9] in the middle of writing, twenty times: it has everything it acknowledged, in one order", {
    timeout: 60_000,
  }, async () => {
    const place = await newPlace();
    const acknowledged: string[] = [];
    let before: readonly string[] = [];
    for (const answersBefore of KILLED_AFTER) {
      const hub = startAt(place);
      const address = await hub.address();
      const there = await idsAt(address);
      expect(there.slice(0, before.length)).toEqual(before);
      expect(acknowledged.filter((id) => !there.includes(id))).toEqual([]);
      before = there;
      let answered = 0;
      const writers = Array.from({ length: 3 }, async () => {
        while (hub.child.exitCode === null && hub.child.signalCode === null) {
          const entries = Array.from({ length: 6 }, note);
          try {
            const { verdicts } = await pushTo(address, entries);
            entries.forEach((entry, n) => verdicts[n]?.verdict === "accepted" && acknowledged.push(entry.id));
          } catch {
            return; // the hub was killed before it answered: nothing was promised
          }
          if (++answered === answersBefore) hub.child.kill("SIGKILL");
        }
      });
      await Promise.all([...writers, hub.ended]);
    }
    const last = startAt(place);
    const there = await idsAt(await last.address());
    expect(acknowledged.filter((id) => !there.includes(id))).toEqual([]);
    expect(new Set(there).size).toBe(there.length);
    expect(acknowledged.length).toBeGreaterThan(1000);
    last.child.kill("SIGTERM");
    await last.ended;
  });
});

onEachEngine("two hubs on one database", ({ newPlace }) => {
  test("[HU-15] each entry gets one place, and a reader of either never passes over one", {
    timeout: 60_000,
  }, async () => {
    const place = await newPlace();
    const hubs = [startAt(place), startAt(place)];
    const addresses = await Promise.all(hubs.map((hub) => hub.address()));
    const shared = Array.from({ length: 120 }, note); // handed to both hubs: a phone that lost the first answer
    const verdicts: string[] = [];
    let written = shared.length;
    let isWriting = true;
    const writers = [...addresses, ...addresses, ...addresses].map(async (address, writer) => {
      for (let push = 0; push < 20; push++) {
        const own = Array.from({ length: 1 + ((writer + push) % 7) }, note);
        written += own.length;
        const reply = await pushTo(address, [...own, ...shared.slice(push * 6, push * 6 + 6)]);
        verdicts.push(...reply.verdicts.map(({ verdict }) => verdict));
      }
    });
    const readers = [...addresses, ...addresses].map(async (address) => {
      const seen: string[] = [];
      for (let after = 0, isLast = false; ; ) {
        const wasWriting = isWriting;
        const page = await pullFrom(address, after);
        seen.push(...(page.entries as { readonly id: string }[]).map(({ id }) => id));
        after = page.next;
        if (page.more === "no" && isLast) return seen;
        isLast = !wasWriting;
      }
    });
    await Promise.all(writers);
    isWriting = false;
    const there = await idsAt(addresses[0] ?? "");
    for (const seen of await Promise.all(readers)) expect(seen).toEqual(there);
    expect(new Set(there).size).toBe(written);
    expect(there.length).toBe(written);
    expect(verdicts.filter((verdict) => verdict === "accepted").length).toBe(written);
    expect(verdicts).not.toContain("refused");
    for (const hub of hubs) hub.child.kill("SIGTERM");
    for (const hub of hubs) expect(await hub.ended).toMatchObject({ code: 0, problems: "" });
  });
});

const programs = postgresPrograms();
const missing = "missing" in programs ? `, skipped: ${programs.missing}` : "";

describe.skipIf(missing !== "")(`a PostgreSQL that is killed or stopped${missing}`, () => {
  const servers: PostgresServer[] = [];
  afterAll(() => servers.forEach(stopPostgres));

  const mainOf = ({ folder }: PostgresServer) =>
    Number(readFileSync(join(folder, "data", "postmaster.pid"), "utf8").split("\n")[0]);

  /** Stops the server as its operator does: at once and without tidying up, or with what is under way rolled back. */
  const stopServer = (signal: "SIGQUIT" | "SIGINT") => (server: PostgresServer) => {
    rmSync(join(server.folder, "address"), { force: true });
    process.kill(mainOf(server), signal);
  };

  /** Kills the server with all its workers, as an operating system does that has no memory left. */
  function killServer(server: PostgresServer) {
    const { folder } = server;
    const main = mainOf(server);
    const workers = execFileSync("ps", ["-o", "pid=", "--ppid", String(main)], { encoding: "utf8" });
    rmSync(join(folder, "address"), { force: true });
    for (const pid of [main, ...workers.split("\n").map(Number)]) if (pid > 1) process.kill(pid, "SIGKILL");
  }

  // PostgreSQL documentation, "Shutting Down the Server": SIGQUIT is an immediate shutdown, SIGINT a fast one.
  test.each([
    ["killed four times", [killServer, killServer, killServer, killServer]],
    ["stopped at once and in good order", [stopServer("SIGQUIT"), stopServer("SIGINT")]],
  ])(
    "[HU-9] %s under load: the hub goes on when it is back, and has everything it acknowledged",
    {
      timeout: 90_000,
    },
    async (_, ends) => {
      const server = await startPostgres("bin" in programs ? programs.bin : "");
      servers.push(server);
      const hub = startAt({ folder: server.folder, address: await freshDatabase(server) });
      const address = await hub.address();
      const acknowledged: string[] = [];
      let refusals = 0;
      let isOver = false;
      const writers = Array.from({ length: 3 }, async () => {
        while (!isOver) {
          const entries = [note(), note(), note()];
          for (let isKept = false; !isKept; ) {
            try {
              const { verdicts } = await pushTo(address, entries);
              expect(verdicts.map(({ verdict }) => verdict)).not.toContain("refused");
              isKept = true;
              acknowledged.push(...entries.map(({ id }) => id));
            } catch (error) {
              expect(String(error)).toContain("503");
              refusals++;
              await pause(20); // as a phone does: the same again, a little later
            }
          }
        }
      });
      for (const end of ends) {
        const before = acknowledged.length;
        while (acknowledged.length < before + 30) await pause(10);
        end(server);
        await arrived(server.folder);
      }
      isOver = true;
      await Promise.all(writers);
      const there = await idsAt(address);
      expect(acknowledged.filter((id) => !there.includes(id))).toEqual([]);
      expect(new Set(there).size).toBe(there.length);
      expect(refusals).toBeGreaterThan(0);
      hub.child.kill("SIGTERM");
      expect(await hub.ended).toMatchObject({ code: 0 });
    },
  );

  test("[HU-9] one that was told never to flush is refused, and its own default for commits is not taken over", async () => {
    const server = await startPostgres("bin" in programs ? programs.bin : "");
    servers.push(server);
    const address = await freshDatabase(server);
    const place = { folder: server.folder, address };
    const client = new pg.Client({ connectionString: address });
    await client.connect();
    await client.query(`alter database ${new URL(address).pathname.slice(1)} set synchronous_commit = off`);
    const database = await openDatabase(place);
    const { rows } = await sql`show synchronous_commit`.execute(database.db);
    expect(rows).toEqual([{ synchronous_commit: "on" }]);
    await database.close();
    await client.query("alter system set fsync = off");
    await client.query("select pg_reload_conf()");
    await pause(300); // the reload is not waited for
    await client.end();
    await expect(openDatabase(place)).rejects.toThrow("fsync off");
  });
});

import { type ChildProcess, execFileSync, spawn } from "node:child_process";
import { once } from "node:events";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import Database from "libsql";
import pg from "pg";
import {
  freshDatabase,
  type PostgresServer,
  postgresPrograms,
  startPostgres,
  stopPostgres,
} from "../apps/hub/src/testing/postgres-server.ts";

/**
 * Hubs as programs, with many phones at once, against what the database itself takes in.
 *
 * For each store, number of hubs and number of herds: entries a second pushed and pulled over HTTP by sixteen clients that
 * run on the same computer, and the memory of the hubs. The limit is the same rows inserted straight into a table of the same
 * shape, with as many to a transaction and as many writers as that database lets work at once; the ratio is what the
 * hub makes of it (checking each entry, HTTP, the order of arrival, and the clients' own share of the processor).
 */
const ENTRIES = 16_000;
const CLIENTS = 16;
const BATCH = 100;
const ONE_BY_ONE = 1600;
const HERDS = [1, 10, 100, 1000] as const;
const PULLED_AT_ONCE = 500;

interface Row {
  readonly herd: string;
  readonly id: string;
  readonly body: string;
}

let made = 0;
function row(herd: string): Row {
  const id = `note-${++made}`;
  const at = "2026-03-01T06:00:00.000Z-0000-barn";
  const head = { v: 1, id, herd, kind: "note", on: "2026-03-01", by: "Ines", at, device: "barn" };
  return { herd, id, body: JSON.stringify({ ...head, body: { text: "rain on the roof, does all in" } }) };
}

/** So many entries in batches, each of one herd, the herds in turn. */
function batchesOf(entries: number, herds: number, size: number): readonly (readonly Row[])[] {
  return Array.from({ length: entries / size }, (_, n) => Array.from({ length: size }, () => row(`herd-${n % herds}`)));
}

async function seconds(work: () => Promise<void>): Promise<number> {
  const from = performance.now();
  await work();
  return (performance.now() - from) / 1000;
}

/** Works through all jobs with so many at once. */
async function together<T>(jobs: readonly T[], workers: number, work: (job: T, worker: number) => Promise<void>) {
  const queue = jobs.values();
  await Promise.all(
    Array.from({ length: workers }, async (_, worker) => {
      for (const job of queue) await work(job, worker);
    }),
  );
}

const TABLE = `create table plain (herd text not null, seq integer not null, id text not null, body text not null,
  primary key (herd, seq), unique (herd, id))`;

/** Rows a second that the embedded database takes in by itself: one writer, a prepared statement, flushed commits. */
async function bareLibsql(folder: string, batches: readonly (readonly Row[])[]): Promise<number> {
  const database = new Database(join(folder, `bare-${made}.db`));
  database.pragma("journal_mode = WAL");
  database.pragma("synchronous = FULL");
  database.exec(TABLE);
  const insert = database.prepare("insert into plain values (?, ?, ?, ?)");
  let seq = 0;
  const took = await seconds(async () => {
    for (const batch of batches) {
      database.exec("begin immediate");
      for (const { herd, id, body } of batch) insert.run([herd, ++seq, id, body]);
      database.exec("commit");
    }
  });
  database.close();
  return seq / took;
}

/** Rows a second that PostgreSQL takes in by itself: as many writers as there are clients, one statement a batch. */
async function barePostgres(address: string, batches: readonly (readonly Row[])[]): Promise<number> {
  const pool = new pg.Pool({ connectionString: address, max: CLIENTS });
  await pool.query(TABLE);
  let seq = 0;
  const insert = `insert into plain select * from unnest($1::text[], $2::int[], $3::text[], $4::text[])`;
  const took = await seconds(() =>
    together(batches, CLIENTS, async (batch) => {
      const places = batch.map(() => ++seq);
      await pool.query(insert, [batch.map((r) => r.herd), places, batch.map((r) => r.id), batch.map((r) => r.body)]);
    }),
  );
  await pool.end();
  return seq / took;
}

interface Hub {
  readonly child: ChildProcess;
  readonly address: string;
}

async function startHub(program: string, folder: string, database: string | undefined): Promise<Hub> {
  const { DATABASE_URL: _, ...env } = process.env;
  const child = spawn(process.execPath, [program, "--port", "0", "--data", folder], {
    env: database === undefined ? env : { ...env, DATABASE_URL: database },
    stdio: ["ignore", "pipe", "inherit"],
  });
  let said = "";
  while (!/ready at \S+/.test(said)) said += String((await once(child.stdout, "data"))[0]);
  return { child, address: /ready at (\S+)/.exec(said)?.[1] ?? "" };
}

async function memoryOf(hubs: readonly Hub[]): Promise<number> {
  let bytes = 0;
  for (const { address } of hubs) {
    const text = await (await fetch(`${address}/metrics`)).text();
    bytes += Number(/^process_resident_memory_bytes (\S+)$/m.exec(text)?.[1]);
  }
  return bytes / 1_000_000;
}

const headers = { "content-type": "application/json" };

async function pushAll(hubs: readonly Hub[], batches: readonly (readonly Row[])[]): Promise<number> {
  const jobs = batches.map((batch) => ({
    herd: batch[0]?.herd ?? "",
    body: `{"exchange":1,"entries":[${batch.map(({ body }) => body).join(",")}]}`,
  }));
  const took = await seconds(() =>
    together(jobs, CLIENTS, async ({ herd, body }, worker) => {
      const hub = hubs[worker % hubs.length]?.address ?? "";
      const response = await fetch(`${hub}/api/herds/${herd}/entries`, { method: "POST", headers, body });
      const text = await response.text();
      if (!response.ok || text.includes("refused")) throw new Error(text.slice(0, 200));
    }),
  );
  return batches.reduce((sum, { length }) => sum + length, 0) / took;
}

async function pullAll(hubs: readonly Hub[], herds: readonly string[], wanted: number): Promise<number> {
  let pulled = 0;
  const took = await seconds(() =>
    together(herds, CLIENTS, async (herd, worker) => {
      const hub = hubs[worker % hubs.length]?.address ?? "";
      for (let after = 0, more = "yes"; more === "yes"; ) {
        const at = `${hub}/api/herds/${herd}/entries?after=${after}&limit=${PULLED_AT_ONCE}`;
        const page = (await (await fetch(at)).json()) as { entries: unknown[]; next: number; more: string };
        pulled += page.entries.length;
        [after, more] = [page.next, page.more];
      }
    }),
  );
  if (pulled !== wanted) throw new Error(`${pulled} entries pulled, ${wanted} pushed`);
  return pulled / took;
}

/** Requests a second that are answered without a question to the database. */
async function askAll(hubs: readonly Hub[]): Promise<number> {
  const took = await seconds(() =>
    together(Array.from({ length: ONE_BY_ONE }), CLIENTS, async (_, worker) => {
      await (
        await fetch(`${hubs[worker % hubs.length]?.address}/metrics`, { method: "POST", headers, body: "{}" })
      ).text();
    }),
  );
  return ONE_BY_ONE / took;
}

export async function bench() {
  const folder = mkdtempSync(join(tmpdir(), "pollard-load-"));
  const root = fileURLToPath(new URL("..", import.meta.url));
  execFileSync(process.execPath, [join(root, "tools/build.mjs"), "hub"], { stdio: "inherit" });
  const program = join(root, "apps/hub/dist/main.mjs");
  const programs = postgresPrograms();
  let server: PostgresServer | undefined;
  const lines: { what: string; value: number; unit: string; note?: string }[] = [];
  const line = (what: string, value: number, unit: string, note = "") => void lines.push({ what, value, unit, note });
  try {
    if ("bin" in programs) server = await startPostgres(programs.bin);
    else line(`no PostgreSQL: ${programs.missing}`, 0, "");
    const stores = [
      { name: "embedded, 1 hub", hubs: 1, address: () => Promise.resolve(undefined) },
      ...(server === undefined
        ? []
        : [1, 2].map((hubs) => ({
            name: `PostgreSQL, ${hubs} ${hubs === 1 ? "hub" : "hubs"}`,
            hubs,
            address: () => freshDatabase(server as PostgresServer),
          }))),
    ];
    const bare = async (entries: number, herds: number, size: number, isEmbedded: boolean): Promise<number> => {
      const batches = batchesOf(entries, herds, size);
      return isEmbedded
        ? bareLibsql(folder, batches)
        : barePostgres(await freshDatabase(server as PostgresServer), batches);
    };
    for (const { name, hubs: count, address } of stores) {
      const isEmbedded = name.startsWith("embedded");
      const limit = await bare(ENTRIES, 10, BATCH, isEmbedded);
      line(`${name}: limit, ${BATCH} a commit`, limit, "entries/s", "bare inserts of the same rows");
      for (const herds of HERDS) {
        const database = await address();
        const data = join(folder, `${name.replace(/\W+/g, "-")}-${herds}`);
        const hubs: Hub[] = [];
        for (let n = 0; n < count; n++) hubs.push(await startHub(program, data, database));
        const batches = batchesOf(ENTRIES, herds, ENTRIES / herds < BATCH ? ENTRIES / herds : BATCH);
        const pushed = await pushAll(hubs, batches);
        const note = `${(pushed / limit).toFixed(2)} of the limit`;
        line(`${name}, ${herds} herds: push, ${batches[0]?.length} a push`, pushed, "entries/s", note);
        const names = Array.from({ length: herds }, (_, n) => `herd-${n}`);
        line(`${name}, ${herds} herds: pull`, await pullAll(hubs, names, ENTRIES), "entries/s");
        if (herds === 10) {
          line(
            `${name}: limit, a request that does nothing`,
            await askAll(hubs),
            "requests/s",
            "/metrics refused by method",
          );
          const single = await bare(ONE_BY_ONE, 10, 1, isEmbedded);
          const one = await pushAll(hubs, batchesOf(ONE_BY_ONE, 10, 1));
          const part = `${(one / single).toFixed(2)} of ${single.toFixed(0)}, bare inserts one by one`;
          line(`${name}, ${herds} herds: push, 1 a push`, one, "entries/s", part);
        }
        line(`${name}, ${herds} herds: memory`, await memoryOf(hubs), "MB", count > 1 ? "of all hubs" : "");
        for (const { child } of hubs) child.kill("SIGTERM");
        await Promise.all(hubs.map(({ child }) => once(child, "close")));
      }
    }
  } finally {
    if (server) stopPostgres(server);
    rmSync(folder, { recursive: true, force: true });
  }
  return lines;
}

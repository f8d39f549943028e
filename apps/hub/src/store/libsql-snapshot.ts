import { once } from "node:events";
import { createRequire } from "node:module";
import { Worker } from "node:worker_threads";

/** Run beside the hub, on a connection of its own, so that the hub goes on answering while a large file is copied. */
const COPYING = `
  const { workerData } = require("node:worker_threads");
  const Database = require(workerData.libsql);
  const source = new Database(workerData.file, { timeout: 5000 });
  source.prepare("vacuum into ?").run(workerData.to);
  source.close();
  const copy = new Database(workerData.to);
  copy.prepare("update copy set name = ?").run(workerData.name);
  copy.exec("delete from photo");
  copy.exec("vacuum");
  copy.close();
`;

/**
 * Copies the embedded file as it stands at one moment, while it is being written to.
 *
 * Pictures are left out: each is a file of its own in a backup. The copy takes the name given, so that a device that has been further with the original does not go on counting in it,
 * even if somebody puts the file back by hand.
 *
 * Errors: throws what the database or the disk said; what was begun is left behind.
 * Source: SQLite documentation, "VACUUM INTO".
 */
export async function snapshotLibsql(file: string, to: string, name: string): Promise<void> {
  const libsql = createRequire(import.meta.url).resolve("libsql");
  const worker = new Worker(COPYING, { eval: true, workerData: { libsql, file, to, name } });
  const [code] = (await Promise.race([
    once(worker, "exit"),
    once(worker, "error").then(([error]) => Promise.reject(error as Error)),
  ])) as [number];
  if (code !== 0) throw new Error(`the copy ended with ${code}`);
}

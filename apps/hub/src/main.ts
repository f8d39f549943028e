import { spawn } from "node:child_process";
import { once } from "node:events";
import { access, readdir } from "node:fs/promises";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { createAdaptorServer } from "@hono/node-server";
import { accessIn } from "./access/access.ts";
import { atTheDoor } from "./access/at-the-door.ts";
import { papersIn } from "./access/papers.ts";
import { makeBackup } from "./backup/backup.ts";
import { backupTime } from "./backup/kept-backups.ts";
import { restoreInto } from "./backup/restore.ts";
import { scheduleBackups } from "./backup/schedule.ts";
import { type AnswersRequests, openBeyond } from "./doors/beyond-door.ts";
import { createHub } from "./hub.ts";
import { type Journal, jsonJournal, spokenJournal } from "./observation/journal.ts";
import { newMetrics } from "./observation/metrics.ts";
import { hubGauges } from "./observation/hub-gauges.ts";
import { plainError } from "./observation/plain-error.ts";
import { type StartWish, startWish } from "./start-wish.ts";
import { newsOf } from "./news.ts";
import { PATIENCE } from "./doors/patience.ts";
import { photosIn } from "./photos/photos.ts";
import { isUp } from "./store/hub-database.ts";
import { ledgersIn } from "./store/ledger-store.ts";
import { DATABASE_FILE, openDatabase } from "./store/open-database.ts";

/** Binds the hub to a port of this computer, or reads a backup in. See `--help` for the arguments. */

const LOOPBACK = "127.0.0.1";
/** How many ports after the wanted one are tried. */
const PORTS_TRIED = 20;
/** How long open connections may take to finish when the program is asked to stop, ms. */
const STOP_MS = 2000;

/** How long a connection has to tell that its line has ended, ms. */
const LAST_WORD_MS = 100;

/** This file lies in apps/hub/src, built in apps/hub/dist: the same depth. */
const project = fileURLToPath(new URL("../../../", import.meta.url));

const clock = (): Date => new Date();

function stopWith(sentence: string, exitCode: number): never {
  if (exitCode === 0) console.log(sentence);
  else console.error(sentence);
  process.exit(exitCode);
}

type NodeServer = ReturnType<typeof createAdaptorServer>;

/** Whether the other end of a socket is on this computer. */
const isThisComputer = (address: string | undefined): boolean =>
  address !== undefined && /^(?:127\.|::1$|::ffff:127\.)/.test(address);

/** Listens on the wanted port or the first free one after it. */
async function listen(server: NodeServer, wanted: number): Promise<number> {
  for (let port = wanted; port <= Math.min(65_535, wanted + PORTS_TRIED); port++) {
    try {
      server.listen(port, LOOPBACK);
      await once(server, "listening");
      return (server.address() as AddressInfo).port;
    } catch (error) {
      if (!(error instanceof Error && "code" in error && error.code === "EADDRINUSE")) throw error;
    }
  }
  stopWith(`Ports ${wanted} to ${wanted + PORTS_TRIED} are all taken; choose another with --port.`, 3);
}

/** How long whoever has the wanted port may take to say who it is, ms. */
const ASKED_MS = 1000;

/** Who has the wanted port: often it is this program, started a second time by somebody who has forgotten the first. */
async function takenBy(port: number): Promise<string> {
  const there = `http://localhost:${port}`;
  const said: unknown = await fetch(`${there}/api/health`, { signal: AbortSignal.timeout(ASKED_MS) })
    .then((response) => response.json())
    .catch(() => undefined); // another program, which may say anything or nothing
  return typeof said === "object" && said !== null && "hub" in said && said.hub === "pollard"
    ? `Pollard runs already at ${there}: that is the page to use, or stop it first.`
    : `Port ${port} is taken.`;
}

function openInBrowser(address: string): void {
  const [command, args] =
    process.platform === "darwin"
      ? ["open", [address]]
      : process.platform === "win32"
        ? ["cmd", ["/c", "start", "", address]]
        : ["xdg-open", [address]];
  const child = spawn(command, args, { stdio: "ignore", detached: true });
  child.on("error", () => console.error(`No browser could be opened here; open ${address} yourself.`));
  child.unref();
}

/** Where the herds are kept, without the password that an address may hold. */
const placeOf = (wish: StartWish): string => (wish.database ? "the database at DATABASE_URL" : wish.data);

const opened = (wish: StartWish, journal: Journal) =>
  openDatabase({
    folder: wish.data,
    address: wish.database?.address,
    ...(wish.database?.connections === undefined ? {} : { connections: wish.database.connections }),
    onLost: (why) => journal.problem(`a connection to the database was lost: ${plainError(why)}`),
  });

async function run(wish: StartWish, journal: Journal): Promise<void> {
  const database = await opened(wish, journal);
  const metrics = newMetrics();
  const news = newsOf(database);
  const backups = wish.backup && (await startBackups(wish.backup));
  let certificateEnds = (): Date | undefined => undefined; // until that door is open
  const gauges = () => hubGauges(database, { lastBackup: backups?.last(), certificateEnds: certificateEnds() });
  const hub = createHub({
    ledgers: ledgersIn(database),
    webRoot: join(project, "apps/web/dist"),
    log: journal.problem,
    isUp: () => isUp(database),
    observation: { journal, metrics, gauges, token: wish.metricsToken },
    access: accessIn(database, clock),
    papers: papersIn(database, clock),
    photos: photosIn(database, wish.photoRoom),
    news,
    ...(wish.beyond === undefined ? {} : { reach: wish.beyond.reach }),
  });
  const answering: AnswersRequests = (request, { incoming }) =>
    hub(request, isThisComputer(incoming.socket.remoteAddress) ? "this-computer" : "elsewhere");
  const server = createAdaptorServer({ fetch: answering, overrideGlobalObjects: false, serverOptions: PATIENCE });
  const port = await listen(server, wish.port);
  // A proxy's own address says nothing of who asks.
  const isDirect = wish.beyond?.certificate !== undefined;
  const fromBeyond: AnswersRequests = (request, { incoming }) =>
    hub(request, "elsewhere", isDirect ? incoming.socket.remoteAddress : undefined);
  const beyond = wish.beyond && (await openBeyond(wish.beyond, fromBeyond, { journal, clock }));
  if (beyond) ({ certificateEnds } = beyond);
  const page = `http://localhost:${port}`;
  if (wish.port !== 0 && port !== wish.port)
    journal.said(`${await takenBy(wish.port)} A browser keeps its own copy per port, so this page starts without one.`);
  journal.said(`Pollard is ready at ${page} (herds are kept in ${placeOf(wish)}; Ctrl+C stops it)`);
  if (wish.beyond) journal.said(`Phones reach it at ${wish.beyond.reach}; let them in on the page "Phones" here.`);
  if (wish.open) openInBrowser(page);

  async function startBackups({ to, everyMs }: NonNullable<StartWish["backup"]>) {
    const names = await readdir(to).catch(() => []); // the folder is made with the first backup
    let last = names.flatMap((name) => backupTime(name) ?? []).sort((a, b) => b.getTime() - a.getTime())[0];
    const { stop } = scheduleBackups({
      everyMs,
      last,
      clock,
      journal,
      make: async (at) => {
        const { folder, herds, entries, photos } = await makeBackup(database, to, at);
        return `Backup made: ${folder} (herds: ${herds}, entries: ${entries}, pictures: ${photos})`;
      },
      onEnd: (end, at) => {
        metrics.count("pollard_backups", end);
        if (end === "done") last = at;
      },
    });
    return { last: () => last, stop };
  }

  const stop = (): void => {
    backups?.stop();
    news.stop();
    beyond?.close();
    server.close(() => {
      const failed = (error: unknown) => stopWith(`The ledger was not closed cleanly: ${String(error)}`, 3);
      void database.close().then(() => process.exit(0), failed);
    });
    const closeIdle = () => void ("closeIdleConnections" in server && server.closeIdleConnections());
    closeIdle();
    setTimeout(closeIdle, LAST_WORD_MS); // a line that was ended says so before its connection is idle
    setTimeout(() => {
      if ("closeAllConnections" in server) server.closeAllConnections();
    }, STOP_MS).unref();
  };
  process.once("SIGINT", stop);
  process.once("SIGTERM", stop);
}

const wish = startWish(process.argv.slice(2), process.env, project);
if ("sentence" in wish) stopWith(wish.sentence, wish.exitCode);
const journal = wish.jsonLog ? jsonJournal(console.log, clock) : spokenJournal(console.log, console.error);
try {
  if (wish.restore) {
    const file = wish.database ? undefined : join(wish.data, DATABASE_FILE);
    const { sentence, exitCode } = await restoreInto(() => opened(wish, journal), { ...wish.restore, file });
    stopWith(sentence, exitCode);
  }
  if (wish.door) {
    if (!wish.database) await access(join(wish.data, DATABASE_FILE)); // none is made for the asking
    const database = await opened(wish, journal);
    const { sentence, exitCode } = await atTheDoor(database, wish.door, wish.beyond?.reach, clock);
    await database.close();
    stopWith(sentence, exitCode);
  }
  await run(wish, journal);
} catch (error) {
  const why = error instanceof Error ? error.message : String(error);
  const what = wish.restore
    ? "The backup could not be read into"
    : wish.door
      ? "No hub's herds could be opened in"
      : "The hub could not start with";
  stopWith(`${what} ${placeOf(wish)}: ${why}`, 3);
}

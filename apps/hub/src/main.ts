import { spawn } from "node:child_process";
import { once } from "node:events";
import type { AddressInfo } from "node:net";
import { join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { createAdaptorServer } from "@hono/node-server";
import { createHub } from "./hub.ts";
import { ledgersIn } from "./store/ledger-store.ts";
import { openDatabase } from "./store/open-database.ts";

/** Binds the hub to a port of this computer. See `--help` for the arguments. */

const USAGE = `Usage: start [--port N] [--data DIR] [--open]
  --port N     port on this computer (4180; the next free one if it is taken; 0 = any)
  --data DIR   folder that keeps the herds (.data in the project's folder)
  --open       open the page in the browser
  DATABASE_URL in the environment names a PostgreSQL database to keep the herds in instead.`;

const LOOPBACK = "127.0.0.1";
const DEFAULT_PORT = 4180;
/** How many ports after the wanted one are tried. */
const PORTS_TRIED = 20;
/** How long open connections may take to finish when the program is asked to stop, ms. */
const STOP_MS = 2000;

/** A PostgreSQL database to keep the herds in; the embedded file without it. */
const databaseAddress = process.env["DATABASE_URL"] || undefined;
/** This file lies in apps/hub/src, built in apps/hub/dist: the same depth. */
const project = fileURLToPath(new URL("../../../", import.meta.url));

function stopWith(sentence: string, exitCode: number): never {
  console.error(sentence);
  process.exit(exitCode);
}

interface Wish {
  readonly port: number;
  readonly data: string;
  readonly open: boolean;
}

function wishFrom(args: readonly string[]): Wish {
  const options = { port: "string", data: "string", host: "string", open: "boolean", help: "boolean" } as const;
  let values: { port?: string; data?: string; host?: string; open?: boolean; help?: boolean };
  try {
    const typed = Object.fromEntries(Object.entries(options).map(([name, type]) => [name, { type }]));
    ({ values } = parseArgs({ args: [...args], options: typed }));
  } catch (error) {
    stopWith(`${error instanceof Error ? error.message : String(error)}\n${USAGE}`, 2);
  }
  if (values.help) {
    console.log(USAGE);
    process.exit(0);
  }
  if (values.host !== undefined && !["localhost", LOOPBACK].includes(values.host))
    stopWith(
      `The hub answers on this computer only, not on ${values.host}: it does not yet know who may see a herd.`,
      2,
    );
  const port = Number(values.port ?? DEFAULT_PORT);
  if (!Number.isInteger(port) || port < 0 || port > 65_535) stopWith(`--port ${values.port}: not a port.\n${USAGE}`, 2);
  return { port, data: resolve(values.data ?? join(project, ".data")), open: values.open ?? false };
}

type NodeServer = ReturnType<typeof createAdaptorServer>;

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
const placeOf = (wish: Wish): string => (databaseAddress === undefined ? wish.data : "the database at DATABASE_URL");

async function run(wish: Wish): Promise<void> {
  const log = (text: string): void => console.error(text);
  const onLost = (why: Error): void => log(`a connection to the database was lost: ${why.message}`);
  const database = await openDatabase({ folder: wish.data, address: databaseAddress, onLost });
  const hub = createHub({ ledgers: ledgersIn(database), webRoot: join(project, "apps/web/dist"), log });
  const server = createAdaptorServer({ fetch: hub, overrideGlobalObjects: false });
  const port = await listen(server, wish.port);
  const page = `http://localhost:${port}`;
  if (wish.port !== 0 && port !== wish.port)
    console.log(`Port ${wish.port} is taken. A browser keeps its own copy per port, so this page starts without one.`);
  console.log(`Pollard is ready at ${page} (herds are kept in ${placeOf(wish)}; Ctrl+C stops it)`);
  if (wish.open) openInBrowser(page);

  const stop = (): void => {
    server.close(() => {
      const failed = (error: unknown) => stopWith(`The ledger was not closed cleanly: ${String(error)}`, 3);
      void database.close().then(() => process.exit(0), failed);
    });
    if ("closeIdleConnections" in server) server.closeIdleConnections();
    setTimeout(() => {
      if ("closeAllConnections" in server) server.closeAllConnections();
    }, STOP_MS).unref();
  };
  process.once("SIGINT", stop);
  process.once("SIGTERM", stop);
}

const wish = wishFrom(process.argv.slice(2));
try {
  await run(wish);
} catch (error) {
  const why = error instanceof Error ? error.message : String(error);
  stopWith(`The hub could not start with ${placeOf(wish)}: ${why}`, 3);
}

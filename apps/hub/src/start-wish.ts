import { join, resolve } from "node:path";
import { parseArgs } from "node:util";
import { ROLES } from "./access/access.ts";
import type { DoorWish } from "./access/at-the-door.ts";

/** How a hub is to be run, as the command line and the environment say it. */
export interface StartWish {
  readonly port: number;
  /** Folder of the embedded file. */
  readonly data: string;
  readonly open: boolean;
  /** One JSON object a line instead of sentences. */
  readonly jsonLog: boolean;
  /** The folder for backups, and how often one is made there, ms. */
  readonly backup: { readonly to: string; readonly everyMs: number } | undefined;
  /** A backup to be read in instead of running. */
  readonly restore: { readonly from: string; readonly evenDamaged: boolean } | undefined;
  /** A PostgreSQL database to keep the herds in. */
  readonly database: { readonly address: string; readonly connections: number | undefined } | undefined;
  readonly metricsToken: string | undefined;
  /** Room for the pictures of one herd, bytes; the usual where nothing was said. */
  readonly photoRoom: number | undefined;
  /** Something to be done at the door instead of running. */
  readonly door: DoorWish | undefined;
  /** How devices beyond this computer reach the hub; without it, none do. */
  readonly beyond: Beyond | undefined;
}

/** The way in from other devices. They come by TLS: the hub's own certificate, or a proxy's in front of it. */
export interface Beyond {
  /** As in `https://goats.example:4180`: the one name that other devices may use. */
  readonly reach: string;
  /** The door for them, beside the one for this computer: nobody who comes in by it counts as this computer. */
  readonly host: string;
  readonly port: number;
  /** Files of the hub's own certificate; without them a proxy on this computer sees to TLS. */
  readonly certificate: { readonly cert: string; readonly key: string } | undefined;
}

/** A command line that cannot be followed, or one that only asks how. */
export type NoWish = { readonly sentence: string; readonly exitCode: 0 | 2 };

export const USAGE = `Usage: start [--port N] [--data DIR] [--open] [--log] [--backup-to DIR [--backup-every TIME]]
       start --restore BACKUP [--even-damaged] [--data DIR]
       start --let-in ROLE [--herd HERD] | --phones | --let-out PHONE [--data DIR] [--name ADDRESS]
  --port N             port on this computer (4180; the next free one if it is taken; 0 = any)
  --data DIR           folder that keeps the herds (.data in the project's folder)
  --open               open the page in the browser
  --log                write one JSON object a line: requests and problems, without names
  --backup-to DIR      make backups in this folder, and remove the oldest
  --backup-every TIME  how often: 30m, 6h, 1d (1d)
  --name ADDRESS       https://NAME[:PORT] under which phones reach this hub; they need a code to join
  --cert FILE          the hub's own certificate for that name,
  --key FILE           and its key; or
  --behind-proxy PORT  a proxy on this computer sees to TLS and hands on to this port (docs/running)
  --host ADDRESS       with a certificate: the network address to listen on (0.0.0.0)
  --restore BACKUP     read a backup in, add what is missing here, and end
  --even-damaged       read what can be read of a backup that is not whole
  --let-in ROLE        show a code by which one phone joins as keeper, helper or vet, and end; the hub may be running
  --herd HERD          the herd that it joins, where there are several; "new" for one that begins now
  --phones             list the phones that were let in, and end
  --let-out PHONE      let a phone in no longer, by its name or its id in that list, and end
  --photo-room MB      room for the pictures of one herd (2000)
In the environment: DATABASE_URL names a PostgreSQL database to keep the herds in instead of the folder,
DATABASE_CONNECTIONS how many connections to it (10), METRICS_TOKEN who may fetch /metrics from elsewhere.`;

const LOOPBACK_NAMES = ["localhost", "127.0.0.1"];
const DEFAULT_PORT = 4180;
const UNIT_MS: Readonly<Record<string, number>> = { m: 60_000, h: 3_600_000, d: 86_400_000 };
const DEFAULT_EVERY = "1d";

const text = { type: "string" } as const;
const yes = { type: "boolean" } as const;
const OPTIONS = {
  port: text,
  data: text,
  host: text,
  name: text,
  cert: text,
  key: text,
  "behind-proxy": text,
  open: yes,
  log: yes,
  "backup-to": text,
  "backup-every": text,
  restore: text,
  "photo-room": text,
  "even-damaged": yes,
  "let-in": text,
  herd: text,
  phones: yes,
  "let-out": text,
  help: yes,
} as const;

/** What the arguments and the environment wish for. `home` is the folder that relative defaults lie in. */
export function startWish(
  args: readonly string[],
  env: Readonly<Record<string, string | undefined>>,
  home: string,
): StartWish | NoWish {
  const values = valuesOf(args);
  if ("sentence" in values) return values;
  if (values.help) return { sentence: USAGE, exitCode: 0 };
  const door = doorOf(values);
  if (door !== undefined && "sentence" in door) return door;
  const beyond = door === undefined ? beyondOf(values) : doorBeyond(values.name);
  if (beyond !== undefined && "sentence" in beyond) return beyond;
  const port = Number(values.port ?? DEFAULT_PORT);
  if (!Number.isInteger(port) || port < 0 || port > 65_535)
    return wrong(`--port ${values.port}: not a port.\n${USAGE}`);
  const everyMs = timeMs(values["backup-every"] ?? DEFAULT_EVERY);
  if (everyMs === undefined) return wrong(`--backup-every ${values["backup-every"]}: not a time.\n${USAGE}`);
  const to = values["backup-to"];
  if (values["backup-every"] !== undefined && to === undefined)
    return wrong(`--backup-every needs --backup-to, the folder for the backups.\n${USAGE}`);
  const connections = env["DATABASE_CONNECTIONS"] || undefined;
  if (connections !== undefined && !/^[1-9]\d{0,3}$/.test(connections))
    return wrong(`DATABASE_CONNECTIONS=${connections}: not a number of connections.`);
  const photoRoom = values["photo-room"];
  if (photoRoom !== undefined && !/^\d{1,7}$/.test(photoRoom))
    return wrong(`--photo-room ${photoRoom}: not a number of megabytes.\n${USAGE}`);
  const address = env["DATABASE_URL"] || undefined;
  return {
    port,
    data: resolve(values.data ?? join(home, ".data")),
    open: values.open ?? false,
    jsonLog: values.log ?? false,
    backup: to === undefined ? undefined : { to: resolve(to), everyMs },
    restore:
      values.restore === undefined
        ? undefined
        : { from: resolve(values.restore), evenDamaged: values["even-damaged"] ?? false },
    database:
      address === undefined
        ? undefined
        : { address, connections: connections === undefined ? undefined : Number(connections) },
    metricsToken: env["METRICS_TOKEN"] || undefined,
    photoRoom: photoRoom === undefined ? undefined : Number(photoRoom) * 1_000_000,
    door,
    beyond,
  };
}

interface DoorWords {
  readonly "let-in"?: string;
  readonly herd?: string;
  readonly phones?: boolean;
  readonly "let-out"?: string;
}

/** What is to be done at the door; one thing at a time. */
function doorOf({ "let-in": role, herd, phones, "let-out": phone }: DoorWords): DoorWish | NoWish | undefined {
  const wishes = [role, phones, phone].filter((wish) => wish !== undefined);
  if (wishes.length > 1) return wrong("--let-in, --phones and --let-out: one at a time.");
  if (herd !== undefined && role === undefined) return wrong("--herd belongs to --let-in.");
  if (phones) return { kind: "phones" };
  if (phone !== undefined) return { kind: "let-out", phone };
  if (role === undefined) return undefined;
  const known = ROLES.find((each) => each === role);
  return known === undefined
    ? wrong(`--let-in ${role}: not one of ${ROLES.join(", ")}.`)
    : { kind: "let-in", role: known, herd };
}

/** The address that phones use, for whoever only wants it shown. */
function doorBeyond(name: string | undefined): Beyond | NoWish | undefined {
  if (name === undefined) return undefined;
  const reach = reachOf(name);
  if (reach === undefined) return wrong(`--name ${name}: not an address such as https://goats.example.`);
  return { reach, host: LOOPBACK_NAMES[1] ?? "", port: 0, certificate: undefined };
}

interface BeyondWords {
  readonly host?: string;
  readonly name?: string;
  readonly cert?: string;
  readonly key?: string;
  readonly "behind-proxy"?: string;
}

/** The way in that was wished for. Without a name there is none; beyond this computer nothing goes in plain text. */
function beyondOf({ host, name, cert, key, "behind-proxy": proxy }: BeyondWords): Beyond | NoWish | undefined {
  const isHere = host === undefined || LOOPBACK_NAMES.includes(host);
  if (name === undefined) {
    if (cert !== undefined || key !== undefined)
      return wrong("--cert and --key need --name, the address that the certificate is for.");
    if (proxy !== undefined) return wrong("--behind-proxy needs --name, the address that the proxy answers to.");
    if (isHere) return undefined;
    return wrong(
      `The hub answers on this computer only, not on ${host}; with --name and a certificate it lets phones in.`,
    );
  }
  const reach = reachOf(name);
  if (reach === undefined) return wrong(`--name ${name}: not an address such as https://goats.example.`);
  if ((cert === undefined) !== (key === undefined)) return wrong("--cert and --key belong together; give both.");
  if (cert !== undefined && key !== undefined) {
    if (proxy !== undefined) return wrong("--behind-proxy and --cert: only one of them can see to TLS.");
    const port = Number(new URL(reach).port || HTTPS_PORT);
    return { reach, host: host ?? "0.0.0.0", port, certificate: { cert: resolve(cert), key: resolve(key) } };
  }
  if (proxy === undefined)
    return wrong("--name needs --cert and --key, or --behind-proxy: phones come in by TLS only.");
  if (!isHere)
    return wrong(
      `Behind a proxy the hub answers on this computer only, not on ${host}: beyond it goes nothing in plain text.`,
    );
  const port = Number(proxy);
  if (!Number.isInteger(port) || port < 0 || port > 65_535 || proxy === "")
    return wrong(`--behind-proxy ${proxy}: not a port.`);
  return { reach, host: LOOPBACK_NAMES[1] ?? "", port, certificate: undefined };
}

const HTTPS_PORT = 443;

/** The origin of an address that goes by TLS and names nothing but a host. */
function reachOf(name: string): string | undefined {
  if (!URL.canParse(name)) return undefined;
  const { protocol, origin, pathname, search, hash, username } = new URL(name);
  return protocol === "https:" && pathname === "/" && `${search}${hash}${username}` === "" ? origin : undefined;
}

function valuesOf(args: readonly string[]) {
  try {
    return parseArgs({ args: [...args], options: OPTIONS }).values;
  } catch (error) {
    return wrong(`${error instanceof Error ? error.message : String(error)}\n${USAGE}`);
  }
}

const wrong = (sentence: string): NoWish => ({ sentence, exitCode: 2 });

/** `90m`, `6h`, `1d` as ms; no time at all is none, and more than a setting of a timer can hold is none either. */
function timeMs(written: string): number | undefined {
  const [, count, unit] = /^([1-9]\d{0,3})([mhd])$/.exec(written) ?? [];
  const ms = Number(count) * (UNIT_MS[unit ?? ""] ?? Number.NaN);
  return ms <= 20 * 86_400_000 ? ms : undefined;
}

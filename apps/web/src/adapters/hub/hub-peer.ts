import { err, ok, type Result } from "@pollard/base";
import { type ExchangePeer, type HerdId, parseEntry, type PeerFailure } from "@pollard/records";
import { instantMs } from "../clock.ts";
import { herdNameIn } from "../herd-name.ts";
import { aheadOfHub } from "./hub-clock.ts";

/** How long the hub may take to answer one request, ms; a slow signal must not be worse than none. */
const PATIENCE_MS = 15_000;

/** A herd that the hub keeps. */
export interface HubHerd {
  readonly id: HerdId;
  readonly entries: number;
  /** What it is called, where one of its first entries says so. */
  readonly name: string | undefined;
}

/** The hub that served this page, as the other side of an exchange. */
export function hubPeer(
  herd: HerdId,
  base: string,
  token?: string,
  onClock?: (aheadSeconds: number) => void,
): ExchangePeer {
  const entries = herdUrl(herd, base, "entries");
  return {
    push: (request) => askHub(entries, { method: "POST", json: request, token, onClock }),
    pull(after, limit, known) {
      const asked = new URL(entries);
      asked.searchParams.set("after", String(after));
      asked.searchParams.set("limit", String(limit));
      if (known !== undefined) {
        asked.searchParams.set("copy", known.copy);
        asked.searchParams.set("place", String(known.seen.place));
        asked.searchParams.set("notch", known.seen.notch);
      }
      return askHub(asked, { token, onClock });
    },
  };
}

/** Where the hub answers to what is asked of one herd. */
export const herdUrl = (herd: HerdId, base: string, what: string): URL =>
  new URL(`api/herds/${encodeURIComponent(herd)}/${what}`, base);

/** A phone that the hub lets in, or let in once. Times are ISO texts. */
export interface HubDevice {
  readonly id: string;
  readonly name: string;
  readonly role: HubRole;
  readonly made: string;
  readonly seen?: string;
  readonly revoked?: string;
}
export type HubRole = "keeper" | "helper" | "vet";

/** What a phone is told that has joined. */
export interface Joined {
  readonly herd: HerdId;
  readonly token: string;
  readonly role: HubRole;
}

/**
 * Joins the herd that a code is for; the token is what the phone is known by from then on. Of the tokens it `had`, the one for
 * that herd ends.
 */
export async function joinHub(
  base: string,
  asking: { readonly code: string; readonly name: string; readonly had: readonly string[] },
): Promise<Result<Joined, PeerFailure>> {
  const answer = await askHub(new URL("api/join", base), { method: "POST", json: asking });
  return answer.ok ? ok(answer.value as Joined) : answer;
}

/** What the hub's own computer, or a keeper's phone, asks about the phones of a herd. */
export function hubDevices(herd: HerdId, base: string, token?: string) {
  return {
    async list(): Promise<
      Result<{ readonly devices: readonly HubDevice[]; readonly reach: string | null }, PeerFailure>
    > {
      const answer = await askHub(herdUrl(herd, base, "devices"), { token });
      return answer.ok
        ? ok(answer.value as { readonly devices: readonly HubDevice[]; readonly reach: string | null })
        : answer;
    },
    async invite(role: HubRole): Promise<Result<{ readonly code: string; readonly expires: string }, PeerFailure>> {
      const answer = await askHub(herdUrl(herd, base, "invites"), { method: "POST", json: { role }, token });
      return answer.ok ? ok(answer.value as { readonly code: string; readonly expires: string }) : answer;
    },
    revoke: (device: string) =>
      askHub(herdUrl(herd, base, `devices/${encodeURIComponent(device)}`), { method: "DELETE", token }),
    letInAgain: (device: string) =>
      askHub(herdUrl(herd, base, `devices/${encodeURIComponent(device)}`), { method: "PUT", token }),
  };
}

/** The herds that the hub keeps; nothing where no hub answers. */
export async function hubHerds(base: string): Promise<readonly HubHerd[]> {
  const answer = await askHub(new URL("api/herds", base), {});
  const herds = answer.ok ? (answer.value as { readonly herds?: unknown }).herds : undefined;
  if (!Array.isArray(herds)) return [];
  return Promise.all(herds.filter(isKept).map(async (herd) => ({ ...herd, name: await nameOnHub(herd.id, base) })));
}

/** How many of a herd's entries are asked for its name: it is the first that is written where a herd is begun. */
const NAME_AMONG = 8;

/** What a herd that lies on the hub is called; asked of its first entries, since the hub itself knows no names. */
async function nameOnHub(herd: HerdId, base: string): Promise<string | undefined> {
  const page = await hubPeer(herd, base).pull(0, NAME_AMONG);
  const told = page.ok ? (page.value as { readonly entries?: unknown }).entries : undefined;
  const entries = (Array.isArray(told) ? told : []).flatMap((json: unknown) => {
    const read = parseEntry(json);
    return read.ok ? [read.value] : [];
  });
  return herdNameIn(entries);
}

const isKept = (herd: unknown): herd is Omit<HubHerd, "name"> =>
  typeof herd === "object" && herd !== null && "id" in herd && typeof herd.id === "string" && "entries" in herd;

interface Asked {
  readonly method?: "GET" | "POST" | "PUT" | "DELETE";
  readonly json?: unknown;
  readonly token?: string | undefined;
  /** Told how far this phone's clock is ahead of the hub's, wherever the hub says its own. */
  readonly onClock?: ((aheadSeconds: number) => void) | undefined;
}

/** What the hub answers, JSON as it came, or why it does not. */
export async function askHub(
  url: URL,
  { method = "GET", json: sent, token, onClock }: Asked,
): Promise<Result<unknown, PeerFailure>> {
  try {
    const asked = instantMs();
    const response = await fetch(url, {
      method,
      headers: {
        ...(sent === undefined ? {} : { "content-type": "application/json" }),
        ...(token === undefined ? {} : { authorization: `Bearer ${token}` }),
      },
      ...(sent === undefined ? {} : { body: JSON.stringify(sent) }),
      signal: AbortSignal.timeout(PATIENCE_MS),
      cache: "no-store",
    });
    const ahead = aheadOfHub(response.headers.get("date"), asked, instantMs());
    if (ahead !== undefined) onClock?.(ahead);
    const isJson = response.headers.get("content-type")?.includes("json") ?? false;
    const json: unknown = isJson ? await response.json() : undefined;
    if (response.ok && isJson) return ok(json);
    return err(refusalIn(response.status, json));
  } catch (cause) {
    return err({ code: "unreachable", cause });
  }
}

function refusalIn(status: number, json: unknown): PeerFailure {
  const code = typeof json === "object" && json !== null && "code" in json ? String(json.code) : "no-hub";
  return { code: "peer-refused", status, reason: code };
}

/** Why the hub, or whatever stands in its place, refused. */
export async function hubRefusal(response: Response): Promise<PeerFailure> {
  const isJson = response.headers.get("content-type")?.includes("json") ?? false;
  return refusalIn(response.status, isJson ? await response.json() : undefined);
}

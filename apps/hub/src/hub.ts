import type { Result } from "@pollard/base";
import {
  type AskedFailure,
  BATCH_LIMIT,
  EXCHANGE_VERSION,
  givePull,
  type HerdId,
  type StoreFailure,
  takePush,
} from "@pollard/records";
import { guarded, strayRequest } from "./guard.ts";
import { jsonBody } from "./json-body.ts";
import type { Ledgers } from "./store/ledgers.ts";
import { answer, refuse } from "./reply.ts";
import { webFile } from "./web-files.ts";

/** What a hub is made of. */
export interface HubParts {
  readonly ledgers: Ledgers;
  /** Folder of the built web app. */
  readonly webRoot: string;
  /** Where what went wrong is written down, for whoever runs the hub. */
  readonly log: (text: string) => void;
}

/** Longest name of a herd, as in an entry. */
const HERD_NAME_LIMIT = 80;

/**
 * The hub: serves the app, takes in entries, hands out entries, decides nothing.
 *
 * A function from request to response, so a test needs no socket. Every response carries the security headers; every
 * refusal is `{ code, detail }`.
 *
 * Errors: none; what the program itself got wrong is logged and answered with `broken`.
 */
export function createHub(parts: HubParts): (request: Request) => Promise<Response> {
  return async (request) => {
    try {
      return guarded(strayRequest(request) ?? (await route(parts, request)));
    } catch (error) {
      const why = error instanceof Error ? (error.stack ?? error.message) : String(error);
      parts.log(`${request.method} ${request.url}: ${why}`);
      return guarded(refuse("broken"));
    }
  };
}

type Methods = Readonly<Record<string, () => Promise<Response>>>;

async function route(parts: HubParts, request: Request): Promise<Response> {
  const { pathname, searchParams } = new URL(request.url);
  if (pathname !== "/api" && !pathname.startsWith("/api/"))
    return byMethod(request, { GET: () => webFile(parts.webRoot, pathname, request) });
  if (pathname === "/api/health")
    return byMethod(request, { GET: () => Promise.resolve(answer({ hub: "pollard", exchange: EXCHANGE_VERSION })) });
  if (pathname === "/api/herds")
    return byMethod(request, {
      GET: async () => {
        const herds = await parts.ledgers.herds();
        return reply(parts, herds.ok ? { ok: true, value: { herds: herds.value } } : herds);
      },
    });
  const named = /^\/api\/herds\/([^/]+)\/entries$/.exec(pathname)?.[1];
  if (named === undefined) return refuse("no-such-page", { pathname });
  const herd = herdId(named);
  if (herd === undefined) return refuse("not-a-herd", { herd: named.slice(0, HERD_NAME_LIMIT) });
  const ledger = parts.ledgers.of(herd);
  return byMethod(request, {
    GET: async () =>
      reply(
        parts,
        await givePull(
          ledger,
          wholeNumber(searchParams.get("after"), 0),
          wholeNumber(searchParams.get("limit"), BATCH_LIMIT),
        ),
      ),
    POST: async () => {
      const body = await jsonBody(request);
      return body.ok ? reply(parts, await takePush(ledger, body.value)) : refuse(body.error);
    },
  });
}

/** HEAD is GET without the body, everywhere. */
async function byMethod(request: Request, methods: Methods): Promise<Response> {
  const method = methods[request.method === "HEAD" ? "GET" : request.method];
  if (method === undefined) {
    const refusal = refuse("wrong-method", { method: request.method });
    refusal.headers.set("allow", Object.keys(methods).join(", ").replace("GET", "GET, HEAD"));
    return refusal;
  }
  const response = await method();
  return request.method === "HEAD" ? new Response(null, response) : response;
}

/** A number as it stands in an address; NaN, which is no place, for anything but digits. */
const wholeNumber = (text: string | null, missing: number): number =>
  text === null ? missing : /^\d{1,15}$/.test(text) ? Number(text) : Number.NaN;

function herdId(named: string): HerdId | undefined {
  try {
    const name = decodeURIComponent(named);
    return name !== "" && name.length <= HERD_NAME_LIMIT ? (name as HerdId) : undefined;
  } catch {
    return undefined; // a broken escape names no herd
  }
}

function reply(parts: HubParts, result: Result<unknown, AskedFailure | StoreFailure>): Response {
  if (result.ok) return answer(result.value);
  if ("cause" in result.error) parts.log(`the ledger is unavailable: ${String(result.error.cause)}`);
  return refuse(result.error.code, "detail" in result.error ? result.error.detail : {});
}

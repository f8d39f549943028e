import type { Result } from "@pollard/base";
import {
  type AskedFailure,
  BATCH_LIMIT,
  EXCHANGE_VERSION,
  givePull,
  type HerdId,
  type KeptLedger,
  type StoreFailure,
  takePush,
} from "@pollard/records";
import { guarded, strayRequest } from "./guard.ts";
import { jsonBody } from "./json-body.ts";
import { answer, refuse } from "./reply.ts";
import { answerOf, type Call, decoded, type Route, routeAt } from "./routes.ts";
import type { Ledgers } from "./store/ledgers.ts";
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

/** Every address of the hub, the most particular first; what is not here is not there. */
export const ROUTES: readonly Route[] = [
  {
    path: "/api/health",
    methods: { GET: () => Promise.resolve(answer({ hub: "pollard", exchange: EXCHANGE_VERSION })) },
  },
  {
    path: "/api/herds",
    methods: {
      GET: async ({ parts }) => {
        const herds = await parts.ledgers.herds();
        return reply(parts, herds.ok ? { ok: true, value: { herds: herds.value } } : herds);
      },
    },
  },
  {
    path: "/api/herds/:herd/entries",
    methods: {
      GET: (call) =>
        ofHerd(call, async (ledger) => {
          const after = wholeNumber(call.search.get("after"), 0);
          const limit = wholeNumber(call.search.get("limit"), BATCH_LIMIT);
          return reply(call.parts, await givePull(ledger, after, limit));
        }),
      POST: (call) =>
        ofHerd(call, async (ledger) => {
          const body = await jsonBody(call.request);
          return body.ok ? reply(call.parts, await takePush(ledger, body.value)) : refuse(body.error);
        }),
    },
  },
  { path: "/*", methods: { GET: ({ parts, pathname, request }) => webFile(parts.webRoot, pathname, request) } },
];

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
    const { pathname, searchParams: search } = new URL(request.url);
    const found = routeAt(ROUTES, pathname);
    // A mistyped address of the interface is no screen of the app.
    const isMistyped = found?.route.path === "/*" && /^\/api(\/|$)/.test(pathname);
    try {
      const stray = strayRequest(request);
      if (stray) return guarded(stray);
      if (found === undefined || isMistyped) return guarded(refuse("no-such-page", { pathname }));
      return guarded(await answerOf(found.route, { parts, request, pathname, search, named: found.named }));
    } catch (error) {
      const why = error instanceof Error ? (error.stack ?? error.message) : String(error);
      parts.log(`${request.method} ${found?.route.path}: ${why}`);
      return guarded(refuse("broken"));
    }
  };
}

/** What a call to one herd is answered with, from that herd's ledger. */
async function ofHerd({ parts, named }: Call, answering: (ledger: KeptLedger) => Promise<Response>): Promise<Response> {
  const name = decoded(named["herd"]);
  if (name === undefined || name === "" || name.length > HERD_NAME_LIMIT)
    return refuse("not-a-herd", { herd: (named["herd"] ?? "").slice(0, HERD_NAME_LIMIT) });
  return answering(parts.ledgers.of(name as HerdId));
}

/** A number as it stands in an address; NaN, which is no place, for anything but digits. */
const wholeNumber = (text: string | null, missing: number): number =>
  text === null ? missing : /^\d{1,15}$/.test(text) ? Number(text) : Number.NaN;

function reply(parts: HubParts, result: Result<unknown, AskedFailure | StoreFailure>): Response {
  if (result.ok) return answer(result.value);
  if ("cause" in result.error) parts.log(`the ledger is unavailable: ${String(result.error.cause)}`);
  return refuse(result.error.code, "detail" in result.error ? result.error.detail : {});
}

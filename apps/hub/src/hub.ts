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
import { healthReply, metricsReply, type Observation } from "./observation/observation.ts";
import { plainError } from "./observation/plain-error.ts";
import { requestLine } from "./observation/request-line.ts";
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
  /** Whether the database answers; without it, that is taken for granted. */
  readonly isUp?: () => Promise<boolean>;
  /** What is told of requests and counts; without it, nothing. */
  readonly observation?: Observation;
}

/** Longest name of a herd, as in an entry. */
const HERD_NAME_LIMIT = 80;

/** Every address of the hub, the most particular first; what is not here is not there. */
export const ROUTES: readonly Route[] = [
  {
    path: "/api/health",
    methods: {
      GET: async ({ parts }) =>
        healthReply({ hub: "pollard", exchange: EXCHANGE_VERSION }, (await parts.isUp?.()) ?? true),
    },
  },
  {
    path: "/metrics",
    methods: { GET: ({ parts, request }) => metricsReply(parts.observation, request, true) },
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
          if (!body.ok) return refuse(body.error);
          const push = await takePush(ledger, body.value);
          const metrics = call.parts.observation?.metrics;
          if (push.ok) for (const { verdict } of push.value.verdicts) metrics?.count("pollard_entries", verdict);
          return reply(call.parts, push);
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
    const from = performance.now();
    const { pathname, searchParams: search } = new URL(request.url);
    const found = routeAt(ROUTES, pathname);
    // A mistyped address of the interface is no screen of the app.
    const isMistyped = found?.route.path === "/*" && /^\/api(\/|$)/.test(pathname);
    const answering = async (): Promise<Response> => {
      const stray = strayRequest(request);
      if (stray) return stray;
      if (found === undefined || isMistyped) return refuse("no-such-page", { pathname });
      return answerOf(found.route, { parts, request, pathname, search, named: found.named });
    };
    const route = found === undefined || isMistyped ? "none" : found.route.path;
    const response = guarded(
      await answering().catch((error: unknown) => {
        parts.log(`${request.method} ${route}: ${plainError(error)}`);
        return refuse("broken");
      }),
    );
    const line = requestLine(request.method, route, response, performance.now() - from);
    parts.observation?.journal.request(line);
    parts.observation?.metrics.request(line);
    return response;
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
  if ("cause" in result.error) parts.log(`the ledger is unavailable: ${plainError(result.error.cause)}`);
  return refuse(result.error.code, "detail" in result.error ? result.error.detail : {});
}

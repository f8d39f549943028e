import type { Result } from "@pollard/base";
import {
  type AskedFailure,
  BATCH_LIMIT,
  EXCHANGE_VERSION,
  givePull,
  type KeptLedger,
  type SeenCopy,
  seenCopyIn,
  type StoreFailure,
  takePush,
} from "@pollard/records";
import { ACCESS_ROUTES } from "./access/access-routes.ts";
import { type Caller, callerOf, isWelcome, type Peer } from "./access/caller.ts";
import { PAPER_ROUTES } from "./access/paper-routes.ts";
import { mayWrite } from "./access/writing.ts";
import { guarded, strayRequest } from "./doors/guard.ts";
import { jsonBody } from "./json-body.ts";
import { healthReply, metricsReply } from "./observation/observation.ts";
import { plainError } from "./observation/plain-error.ts";
import { requestLine } from "./observation/request-line.ts";
import { newsRoute } from "./news-route.ts";
import type { HubParts } from "./hub-parts.ts";
import { packedAnswer } from "./packing.ts";
import { PHOTO_ROUTES } from "./photos/photo-routes.ts";
import { answer, refuse } from "./reply.ts";
import { answerOf, type Call, herdNamed, type Route, routeAt } from "./routes.ts";
import { webFile } from "./web-files.ts";

/** Every address of the hub, the most particular first; what is not here is not there. */
export const ROUTES: readonly Route[] = [
  {
    path: "/api/health",
    audience: "anyone",
    methods: {
      GET: async ({ parts }) =>
        healthReply({ hub: "pollard", exchange: EXCHANGE_VERSION }, (await parts.isUp?.()) ?? true),
    },
  },
  {
    path: "/metrics",
    audience: "anyone", // who may is its own matter: this computer, or a token of the operator's
    methods: { GET: ({ parts, request, caller }) => metricsReply(parts.observation, request, caller.kind === "house") },
  },
  {
    path: "/api/herds",
    audience: "house",
    methods: {
      GET: async ({ parts }) => {
        const herds = await parts.ledgers.herds();
        return reply(parts, herds.ok ? { ok: true, value: { herds: herds.value } } : herds);
      },
    },
  },
  {
    path: "/api/herds/:herd/entries",
    audience: "member",
    methods: {
      GET: (call) =>
        ofHerd(call, async (ledger) => {
          const after = wholeNumber(call.search.get("after"), 0);
          const limit = wholeNumber(call.search.get("limit"), BATCH_LIMIT);
          const page = await givePull(ledger, after, limit, knownIn(call.search));
          return packedAnswer(call.request, reply(call.parts, page));
        }),
      POST: (call) =>
        ofHerd(call, async (ledger) => {
          const body = await jsonBody(call.request);
          if (!body.ok) return refuse(body.error);
          const { ledgers } = call.parts;
          const may = await mayWrite(call.caller, body.value, (ids) => ledgers.bringers(ledger.herd, ids));
          if (!may.ok) return reply(call.parts, may);
          const push = await takePush(ledger, body.value, may.value);
          const metrics = call.parts.observation?.metrics;
          if (push.ok) for (const { verdict } of push.value.verdicts) metrics?.count("pollard_entries", verdict);
          if (push.ok && push.value.verdicts.some(({ verdict }) => verdict === "accepted"))
            call.parts.news?.tell(ledger.herd);
          return reply(call.parts, push);
        }),
    },
  },
  newsRoute,
  ...PHOTO_ROUTES,
  ...ACCESS_ROUTES,
  ...PAPER_ROUTES,
  {
    path: "/*",
    audience: "anyone",
    methods: { GET: ({ parts, pathname, request }) => webFile(parts.webRoot, pathname, request) },
  },
];

/**
 * The hub: serves the app, takes in entries, hands out entries, decides nothing.
 *
 * A function from request to response, so a test needs no socket; `peer` is what the socket says of where it came from, `address` its address there.
 * Every response carries the security headers; every refusal is `{ code, detail }`.
 *
 * Errors: none; what the program itself got wrong is logged and answered with `broken`.
 */
export function createHub(parts: HubParts): (request: Request, peer?: Peer, address?: string) => Promise<Response> {
  return async (request, peer = "this-computer", address) => {
    const from = performance.now();
    const { pathname, searchParams: search } = new URL(request.url);
    const found = routeAt(ROUTES, pathname);
    // A mistyped address of the interface is no screen of the app.
    const isMistyped = found?.route.path === "/*" && /^\/api(\/|$)/.test(pathname);
    const answering = async (): Promise<Response> => {
      const stray = strayRequest(request, parts.reach);
      if (stray) return stray;
      if (found === undefined || isMistyped) return refuse("no-such-page", { pathname });
      const { route, named } = found;
      // What is for anyone is answered also while the database that knows the tokens is away.
      const asking = await callerOf(request, peer, route.audience === "anyone" ? undefined : parts.access);
      if (!asking.ok) return refuse(asking.error.code);
      const caller = asking.value;
      if (!isWelcome(caller, route.audience, herdNamed({ named }))) return unwelcome(caller);
      return answerOf(route, { parts, request, pathname, search, named, caller, from: address });
    };
    const route = found === undefined || isMistyped ? "none" : found.route.path;
    const response = guarded(
      await answering().catch((error: unknown) => {
        parts.log(`${request.method} ${route}: ${plainError(error)}`);
        return refuse("broken");
      }),
      request,
      parts.reach,
    );
    const line = requestLine(request.method, route, response, performance.now() - from);
    parts.observation?.journal.request(line);
    parts.observation?.metrics.request(line);
    return response;
  };
}

/** Told apart: without a token there is something to be done, with one that lets nobody in the phone must say so. */
const unwelcome = (caller: Caller): Response =>
  caller.kind === "stranger"
    ? refuse(caller.token === "none" ? "not-let-in" : "no-longer-let-in")
    : refuse("not-for-you");

/** What a call to one herd is answered with, from that herd's ledger. */
async function ofHerd(call: Call, answering: (ledger: KeptLedger) => Promise<Response>): Promise<Response> {
  const herd = herdNamed(call);
  return herd === undefined
    ? refuse("not-a-herd", { herd: (call.named["herd"] ?? "").slice(0, SHOWN) })
    : answering(call.parts.ledgers.of(herd, call.caller.kind === "device" ? call.caller.device : undefined));
}

/** How much of a name that is none is shown back. */
const SHOWN = 80;

/** A number as it stands in an address; NaN, which is no place, for anything but digits. */
const wholeNumber = (text: string | null, missing: number): number =>
  text === null ? missing : /^\d{1,15}$/.test(text) ? Number(text) : Number.NaN;

/** What somebody knows of the copy, as it stands in an address. */
const knownIn = (search: URLSearchParams): SeenCopy | undefined =>
  seenCopyIn({
    copy: search.get("copy"),
    seen: { place: wholeNumber(search.get("place"), Number.NaN), notch: search.get("notch") },
  });

function reply(parts: HubParts, result: Result<unknown, AskedFailure | StoreFailure>): Response {
  if (result.ok) return answer(result.value);
  if ("cause" in result.error) parts.log(`the ledger is unavailable: ${plainError(result.error.cause)}`);
  return refuse(result.error.code, "detail" in result.error ? result.error.detail : {});
}
